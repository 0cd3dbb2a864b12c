import type { Answer, WindTrack } from "../answer.ts";
import { counted, plain } from "../format.ts";
import {
  along,
  axis,
  COLOUR,
  type Figure,
  type JsonObject,
  layout,
  MOST_MARKS,
  type Panel,
  panelName,
  points,
  tackPoints,
  times,
} from "./figure.ts";
import { dayTicks, evenly, gapBreaks } from "./time.ts";

/** Residuals are drawn within so many standard deviations; what lies further out is drawn at the edge. */
const EDGE = 5;

/** Half of the band that should hold 95 in 100. */
const BAND = 2;

function trace(
  track: WindTrack,
  column: Float64Array,
  tack: "port" | "starboard",
  panel: Panel,
  isShown: (index: number) => boolean,
): JsonObject {
  const chosen = track.tack.flatMap((side, index) =>
    side === tack && isShown(index) && !Number.isNaN(column[index]) ? [index] : [],
  );
  return {
    ...tackPoints(tack, panel),
    x: times(chosen.map((index) => track.time[index]!)),
    y: points(chosen.map((index) => Math.max(-EDGE, Math.min(EDGE, column[index]!)))),
    hovertemplate: `%{x|%H:%M:%S} %{y:.1f} × the usual spread, ${tack} tack<extra></extra>`,
  };
}

const band = (panel: Panel): JsonObject => ({
  type: "rect",
  layer: "below",
  xref: "paper",
  x0: 0,
  x1: 1,
  yref: `y${panel}`,
  y0: -BAND,
  y1: BAND,
  fillcolor: COLOUR.band,
  line: { width: 0 },
});

/** Share of the values beyond the band, in percent. */
function shareBeyond(column: Float64Array): number {
  const known = column.filter((value) => !Number.isNaN(value));
  return (100 * known.filter((value) => Math.abs(value) > BAND).length) / known.length;
}

function caption(answer: Answer, outliers: number): string {
  const { directionResidual, speedResidual } = answer.track;
  return (
    "What each half minute still differs from the corrected wind around it, counted in the spread that is usual for a wandering wind. " +
    `${plain(shareBeyond(directionResidual), 0)} % of the directions and ${plain(shareBeyond(speedResidual), 0)} % of the wind speeds ` +
    "lie outside the band, where about 5 % belong when the wind wanders as supposed. " +
    `Of ${counted(answer.track.time.length, "mark")}, ${outliers} ${outliers === 1 ? "was" : "were"} held to be wild and given little weight.`
  );
}

/** What is left of the wind after the fit, in standard deviations; undefined without a fit. Never throws. */
export function residualsFigure(answer: Answer): Figure | undefined {
  const { fit, track } = answer;
  if (fit.status === "unsolved") return undefined;
  const panels: readonly (readonly [Panel, Float64Array])[] = [
    ["", track.directionResidual],
    ["2", track.speedResidual],
  ];
  const isShown = evenly(track.time.length, MOST_MARKS / panels.length);
  const yaxis = {
    range: [-EDGE - 0.3, EDGE + 0.3],
    tickvals: [-4, -2, 0, 2, 4],
    ticktext: ["−4", "−2", "0", "2", "4"],
  };
  const words = caption(answer, fit.outliers.length);
  return {
    id: "residuals",
    label: `What is left over of wind direction and wind speed, over time. ${words}`,
    caption: words,
    height: 460,
    traces: panels.flatMap(([panel, column]) =>
      (["port", "starboard"] as const).map((tack) => trace(track, column, tack, panel, isShown)),
    ),
    layout: layout({
      shapes: [band(""), band("2")],
      annotations: [
        panelName("Wind direction", "left over (× the usual spread)"),
        panelName("Wind speed", "left over (× the usual spread)", "2"),
      ],
      xaxis: along("time (UTC)", {
        type: "date",
        anchor: "y2",
        showgrid: false,
        rangebreaks: gapBreaks(track.time),
        ...dayTicks(track.time),
      }),
      yaxis: axis({ ...yaxis, domain: [0.54, 0.94] }),
      yaxis2: axis({ ...yaxis, domain: [0, 0.4] }),
    }),
  };
}
