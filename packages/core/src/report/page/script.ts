import { IN_PRINT, PAGE_LAYOUT, PLOTLY_CONFIG } from "./drawing.ts";
import { STEPS } from "./plotlyInSteps.ts";

/** Where the page holds plotly as text, which the script starts once the words stand there. */
export const PLOTLY = "plotly";

/** So long may the start of plotly keep the page at once, ms. */
const AT_ONCE = 5;

/**
 * The page's own script: starts plotly, step by step where it can be, draws the figures one by one, looks up the colours that are
 * written by name, and draws them again when light turns to dark and for print. Paper does not wait: what is not there yet is made
 * there at once.
 */
export const SCRIPT = `
(() => {
  "use strict";
  const figures = JSON.parse(document.getElementById("figures").textContent);
  const root = document.documentElement;
  const config = ${JSON.stringify(PLOTLY_CONFIG)};
  const shared = ${JSON.stringify(PAGE_LAYOUT)};
  const printHeight = (height) => Math.max(${IN_PRINT.leastHeight}, Math.round(${IN_PRINT.shareOfHeight} * height));

  function coloured(value, colours) {
    if (typeof value === "string") return value.startsWith("--") ? colours.getPropertyValue(value).trim() : value;
    if (Array.isArray(value)) return value.map((part) => coloured(part, colours));
    if (value === null || typeof value !== "object") return value;
    return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, coloured(part, colours)]));
  }

  let steps;
  function start(most) {
    const begun = performance.now();
    steps ??= window.${STEPS}?.();
    while (steps && !window.Plotly && performance.now() - begun < most) {
      const { done, value } = steps.next();
      if (done) window.Plotly = value;
    }
    return window.Plotly !== undefined;
  }

  function run(fill) {
    const element = document.createElement("script");
    const done = new Promise((resolve, reject) => {
      element.onload = resolve;
      element.onerror = reject;
    });
    fill(element);
    document.head.append(element);
    return done;
  }

  const text = () => document.getElementById("${PLOTLY}").textContent;
  const painted = () => new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));

  async function started() {
    await painted();
    const address = URL.createObjectURL(new Blob([text()], { type: "text/javascript" }));
    await run((element) => { element.src = address; });
    URL.revokeObjectURL(address);
    while (!start(${AT_ONCE})) await new Promise((resolve) => setTimeout(resolve));
  }

  function startNow() {
    if (!window.Plotly && !window.${STEPS}) run((element) => { element.textContent = text(); });
    start(Infinity);
  }

  function drawOne({ id, traces, layout, height }, width) {
    const colours = getComputedStyle(root);
    const place = document.getElementById(id);
    const space = width || place.clientWidth;
    const tall = width ? printHeight(height) : height;
    const sized = { ...layout, ...shared, width: space, height: tall };
    Plotly.react(place, coloured(traces, colours), coloured(sized, colours), config);
  }

  let round = 0;
  async function draw() {
    const own = ++round;
    for (const figure of figures) {
      await painted();
      if (own !== round) return;
      drawOne(figure);
    }
  }

  addEventListener("beforeprint", () => {
    root.classList.add("printing");
    round++;
    if (figures.length > 0) startNow();
    for (const figure of figures) drawOne(figure, ${IN_PRINT.width});
  });
  addEventListener("afterprint", () => {
    root.classList.remove("printing");
    draw();
  });
  if (figures.length > 0)
    started().then(() => {
      addEventListener("resize", () => draw());
      matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => draw());
      draw();
    });
})();
`;
