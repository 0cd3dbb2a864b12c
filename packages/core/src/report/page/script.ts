import { IN_PRINT, PAGE_LAYOUT, PLOTLY_CONFIG } from "./drawing.ts";

/**
 * The page's own script: draws the figures with plotly, looks up the colours that are written by name, and draws them
 * again when light turns to dark and for print.
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

  function draw(width) {
    const colours = getComputedStyle(root);
    for (const { id, traces, layout, height } of figures) {
      const place = document.getElementById(id);
      const space = width || place.clientWidth;
      const tall = width ? printHeight(height) : height;
      const sized = { ...layout, ...shared, width: space, height: tall };
      Plotly.react(place, coloured(traces, colours), coloured(sized, colours), config);
    }
  }

  let waiting = 0;
  addEventListener("resize", () => {
    cancelAnimationFrame(waiting);
    waiting = requestAnimationFrame(() => draw());
  });
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => draw());
  addEventListener("beforeprint", () => {
    root.classList.add("printing");
    draw(${IN_PRINT.width});
  });
  addEventListener("afterprint", () => {
    root.classList.remove("printing");
    draw();
  });
  draw();
})();
`;
