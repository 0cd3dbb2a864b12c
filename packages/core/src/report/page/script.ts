/**
 * The page's own script: draws the figures with plotly, looks up the colours that are written by name, and draws them
 * again when light turns to dark and for print.
 */
export const SCRIPT = `
(() => {
  "use strict";
  const figures = JSON.parse(document.getElementById("figures").textContent);
  const root = document.documentElement;
  const config = { displaylogo: false, showSendToCloud: false, plotlyServerURL: "", displayModeBar: false, scrollZoom: false };
  const PRINT_WIDTH = 680;
  const printHeight = (height) => Math.max(260, Math.round(0.6 * height));

  function coloured(value, colours) {
    if (typeof value === "string") return value.startsWith("--") ? colours.getPropertyValue(value).trim() : value;
    if (Array.isArray(value)) return value.map((part) => coloured(part, colours));
    if (value === null || typeof value !== "object") return value;
    return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, coloured(part, colours)]));
  }

  function draw(width) {
    const colours = getComputedStyle(root);
    const hoverlabel = { bgcolor: "--raised", bordercolor: "--line", font: { color: "--ink" } };
    for (const { id, traces, layout, height } of figures) {
      const place = document.getElementById(id);
      const space = width || place.clientWidth;
      const tall = width ? printHeight(height) : height;
      const sized = { ...layout, hoverlabel, dragmode: false, width: space, height: tall };
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
    draw(PRINT_WIDTH);
  });
  addEventListener("afterprint", () => {
    root.classList.remove("printing");
    draw();
  });
  draw();
})();
`;
