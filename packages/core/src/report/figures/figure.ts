/**
 * A figure is data for plotly, with the words around it; the page draws it. A string that begins with "--" is the name of
 * a colour of the page, looked up when it is drawn, so that the figures follow light and dark.
 */
export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

export type JsonObject = { readonly [key: string]: Json };

export interface Figure {
  readonly id: string;
  /** What the axes show, for those who cannot see it. */
  readonly label: string;
  /** The conclusion, in sentences. */
  readonly caption: string;
  /** Height on the page, px. */
  readonly height: number;
  readonly traces: readonly JsonObject[];
  readonly layout: JsonObject;
}

/** A mark in SVG takes some 0.05 ms to draw, and the page waits meanwhile: a figure with more is thinned; an afternoon's has fewer. */
export const MOST_MARKS = 600;

export const COLOUR = {
  ink: "--ink",
  muted: "--muted",
  grid: "--grid",
  accent: "--accent",
  band: "--band",
  port: "--port",
  starboard: "--starboard",
} as const;

/** The tacks, told apart by the colours of the side lights and by shape; sizes that look alike (px). */
export const TACK_MARKS = {
  port: { color: COLOUR.port, symbol: "triangle-left", size: 8 },
  starboard: { color: COLOUR.starboard, symbol: "diamond", size: 6 },
} as const;

/** So many decimals go into a figure: a hundredth of a degree or of a sd is finer than any screen. */
const DECIMALS = 2;

/** The upper panel, or the lower. */
export type Panel = "" | "2";

/** What the points of a tack look like, in whichever panel; one entry of the legend serves both. */
export const tackPoints = (tack: keyof typeof TACK_MARKS, panel: Panel): JsonObject => ({
  type: "scatter",
  mode: "markers",
  name: `${tack} tack`,
  legendgroup: tack,
  showlegend: panel === "",
  xaxis: "x",
  yaxis: `y${panel}`,
  marker: { ...TACK_MARKS[tack], opacity: 0.55 },
});

/** Values for a trace; what is missing becomes a gap. */
export const points = (values: Iterable<number>): readonly (number | null)[] =>
  Array.from(values, (value) => (Number.isFinite(value) ? Number(value.toFixed(DECIMALS)) : null));

/** Times for a trace, s since 1970 in UTC. */
export const times = (values: Iterable<number>): readonly (string | null)[] =>
  Array.from(values, (time) =>
    Number.isFinite(time) ? new Date(time * 1000).toISOString().slice(0, 19) : null,
  );

/** An axis in the quiet manner of the page. */
export const axis = (more: JsonObject): JsonObject => ({
  gridcolor: COLOUR.grid,
  linecolor: COLOUR.grid,
  zerolinecolor: COLOUR.muted,
  zerolinewidth: 1,
  ticks: "",
  fixedrange: true,
  ...more,
});

/** What a horizontal axis shows, with its unit. */
export const along = (title: string, more: JsonObject): JsonObject =>
  axis({ title: { text: title, standoff: 8, font: { size: FONT_SIZE } }, ...more });

/** What a panel shows upward, with its unit: written level above the panel, where there is room on a phone. */
export const panelName = (name: string, quantity: string, panel: Panel = ""): JsonObject => ({
  text: name === "" ? quantity : `<b>${name}</b>  ${quantity}`,
  xref: "paper",
  x: 0,
  xanchor: "left",
  yref: `y${panel} domain`,
  y: 1,
  yanchor: "bottom",
  showarrow: false,
});

const FONT_SIZE = 13;

/** What all layouts share. */
export const layout = (more: JsonObject): JsonObject => ({
  paper_bgcolor: "rgba(0,0,0,0)",
  plot_bgcolor: "rgba(0,0,0,0)",
  font: {
    family: 'system-ui, -apple-system, "Segoe UI", Roboto, sans-serif',
    size: FONT_SIZE,
    color: COLOUR.ink,
  },
  margin: { l: 44, r: 18, t: 8, b: 56 },
  hovermode: "closest",
  legend: {
    orientation: "h",
    xref: "container",
    x: 0,
    yref: "container",
    y: 1,
    yanchor: "top",
    itemclick: false,
    itemdoubleclick: false,
  },
  ...more,
});
