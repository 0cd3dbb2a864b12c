/** How every page hands figures to plotly: what the report's script and other pages share. */

/** Plotly asks nobody and offers nothing beside the figure. */
export const PLOTLY_CONFIG = {
  displaylogo: false,
  showSendToCloud: false,
  plotlyServerURL: "",
  displayModeBar: false,
  scrollZoom: false,
} as const;

/** What all figures' layouts have beside their own. */
export const PAGE_LAYOUT = {
  hoverlabel: { bgcolor: "--raised", bordercolor: "--line", font: { color: "--ink" } },
  dragmode: false,
} as const;

/** In print: what A4 holds between its margins, px; paper shows less height, and needs less. */
export const IN_PRINT = { width: 680, shareOfHeight: 0.42, leastHeight: 220 } as const;
