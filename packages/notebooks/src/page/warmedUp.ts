import { PLOTLY_CONFIG } from "@bothtacks/core/page";
import { painted } from "./painted.ts";
import type { Plotly } from "./plotly.ts";

const SIZE = { width: 300, height: 200 } as const;

const TIMES = ["2000-01-01T00:00", "2000-01-01T01:00"] as const;

const AXES = { ...SIZE, xaxis: { type: "date", title: { text: "x" } } } as const;

/** A little of all that figures are made of. */
const LAYOUT = {
  ...AXES,
  annotations: [{ text: "y", xref: "paper", yref: "paper", x: 0, y: 1, showarrow: false }],
  shapes: [{ type: "line", xref: "x", yref: "paper", x0: TIMES[0], x1: TIMES[0], y0: 0, y1: 1 }],
  legend: { orientation: "h" },
} as const;

const TRACES = ["markers", "lines"].map((mode) => ({
  type: "scatter",
  mode,
  name: mode,
  x: TIMES,
  y: [0, 1],
}));

const HIDDEN = { visible: false } as const;

/** Small figures, each with a little more than the one before. */
const FIGURES = [
  [[], { ...SIZE, xaxis: HIDDEN, yaxis: HIDDEN }],
  [[], { ...SIZE, xaxis: { showticklabels: false }, yaxis: HIDDEN }],
  [[], SIZE],
  [[], AXES],
  [[], LAYOUT],
  [TRACES.slice(0, 1), { ...LAYOUT, showlegend: false }],
  [TRACES, { ...LAYOUT, showlegend: false }],
  [TRACES, LAYOUT],
] as const;

/** Plotly, its first drawings done: they take three times as long as later ones; these are small, in steps, and nobody sees them. */
export async function warmedUp(plotly: Plotly): Promise<Plotly> {
  const place = document.createElement("div");
  for (const [traces, layout] of FIGURES) {
    await painted();
    await plotly.react(place, traces, layout, PLOTLY_CONFIG);
  }
  plotly.purge(place);
  return plotly;
}
