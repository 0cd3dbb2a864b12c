import type { Leg } from "../../sailing/legRow.ts";
import { degrees } from "../../units.ts";
import type { Answer, WindTrack } from "../answer.ts";
import { counted, grouped, plain, signed, threeFigures } from "../format.ts";
import { besideDirections, meansOfDays, unwrappedDirections } from "./directions.ts";
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
  TACK_MARKS,
  tackPoints,
  times,
} from "./figure.ts";
import { dayTicks, evenly, gapBreaks, legMeans } from "./time.ts";

const TACKS = ["port", "starboard"] as const;

/** Those of some rows that were sailed on one tack, in one panel; `columns` is where they are drawn, beside their day's mean where there is one. */
function rowsTrace(
  track: WindTrack,
  rows: readonly number[],
  columns: ArrayLike<number>,
  means: ArrayLike<number> | undefined,
  tack: "port" | "starboard",
  panel: Panel,
): JsonObject {
  const chosen = rows.filter((row) => track.tack[row] === tack);
  return {
    ...tackPoints(tack, panel),
    x: times(chosen.map((index) => track.time[index]!)),
    y: points(chosen.map((index) => degrees(columns[index]!))),
    text: chosen.map((index) => threeFigures(degrees(columns[index]! + (means?.[index] ?? 0)))),
    hovertemplate: `%{x|%H:%M:%S} %{text}° ${tack} tack<extra></extra>`,
  };
}

/** The mean of each leg of one tack, as a line as long as the leg. */
function legsTrace(
  legs: readonly Leg[],
  time: Float64Array,
  columns: ArrayLike<number>,
  tack: "port" | "starboard",
  panel: Panel,
): JsonObject {
  const means = legMeans(legs, time, columns).filter(
    ({ leg }) => leg.tack === tack && leg.kind === "sailing",
  );
  return {
    type: "scatter",
    mode: "lines",
    name: `${tack}, leg mean`,
    legendgroup: tack,
    showlegend: false,
    hoverinfo: "skip",
    xaxis: "x",
    yaxis: `y${panel}`,
    x: times(means.flatMap(({ leg }) => [leg.start, leg.end, Number.NaN])),
    y: points(means.flatMap(({ mean }) => [degrees(mean), degrees(mean), Number.NaN])),
    line: { color: TACK_MARKS[tack].color, width: 3 },
  };
}

/** Range of an axis that holds the middle 98 % of the values and a margin, so that wild rows do not squash the rest. */
function middleRange(columns: readonly ArrayLike<number>[]): readonly [number, number] {
  const sorted = columns
    .flatMap((column) => Array.from(column, degrees))
    .filter((value) => !Number.isNaN(value))
    .sort((a, b) => a - b);
  const low = sorted[Math.floor(0.01 * sorted.length)] ?? 0;
  const high = sorted[Math.ceil(0.99 * sorted.length) - 1] ?? 0;
  const margin = Math.max(4, 0.08 * (high - low));
  return [low - margin, high + margin];
}

/** Ticks at round directions, written 000 to 359 whatever turn the line is on, or with a sign where they are beside a mean. */
function directionTicks([low, high]: readonly [number, number], areBeside: boolean): JsonObject {
  const step = [5, 10, 15, 30, 45, 90].find((candidate) => (high - low) / candidate <= 6) ?? 180;
  const values: number[] = [];
  for (let tick = Math.ceil(low / step) * step; tick <= high; tick += step) values.push(tick);
  return {
    tickmode: "array",
    tickvals: values,
    ticktext: values.map((value) => `${areBeside ? signed(value, 0) : threeFigures(value)}°`),
  };
}

/** Lines of more legs than this are too short to be seen. */
const MOST_LEG_LINES = 80;

/** More upright lines than this run into a grey wall. */
const MOST_TURN_LINES = 80;

const tacksAndGybes = ({ turns }: Answer) => turns.filter(({ kind }) => kind !== "other");

/** Thin lines where the boat tacked, dotted ones where it gybed; none where there would be too many. */
const turnLines = (answer: Answer): readonly JsonObject[] =>
  tacksAndGybes(answer)
    .filter((_, __, all) => all.length <= MOST_TURN_LINES)
    .map(({ kind, start, end }) => ({
      type: "line",
      layer: "below",
      xref: "x",
      yref: "paper",
      x0: times([(start + end) / 2])[0] ?? null,
      x1: times([(start + end) / 2])[0] ?? null,
      y0: 0,
      y1: answer.fit.status === "solved" ? 0.95 : 0.92,
      line: { color: COLOUR.grid, width: 1, dash: kind === "tack" ? "solid" : "dot" },
    }));

function turnWords(answer: Answer): string {
  const turns = tacksAndGybes(answer);
  const tacks = turns.filter(({ kind }) => kind === "tack").length;
  const gybes = turns.length - tacks;
  if (turns.length > MOST_TURN_LINES) return `; ${counted(tacks, "tack")}, ${counted(gybes, "gybe")}`;
  const lines = tacks > 0 ? `; thin upright lines are ${counted(tacks, "tack")}` : "";
  return gybes > 0 ? `${lines}; dotted ones are ${counted(gybes, "gybe")}` : lines;
}

interface Shown {
  /** How many rows were sailed, and how many of them have marks. */
  readonly sailed: number;
  readonly marked: number;
  /** How many of these lie outside the picture. */
  readonly outside: number;
  readonly hasLegs: boolean;
  readonly areBeside: boolean;
}

function caption(answer: Answer, { sailed, marked, outside, hasLegs, areBeside }: Shown): string {
  const gap = ({ value }: { readonly value: number }) => `${plain(Math.abs(degrees(value)), 1)}°`;
  const sides =
    answer.after && !Number.isNaN(answer.after[0].value)
      ? `Port and starboard tack ${Number.isNaN(answer.before[0].value) ? "" : `disagreed by ${gap(answer.before[0])} before and `}disagree by ${gap(answer.after[0])} after correction. `
      : answer.after
        ? ""
        : "Nothing could be corrected, so this is the wind as the readings give it. ";
  return (
    `${sides}Each mark is the mean of some half a minute; there are ${grouped(sailed)} on ${counted(answer.legs.length, "leg")}` +
    `${marked < sailed ? `, ${grouped(marked)} of them shown` : ""}${hasLegs ? "; thick lines are means of legs" : ""}${turnWords(answer)}.` +
    `${areBeside ? ` Each day's directions are drawn beside the mean of its ${answer.after ? "corrected " : ""}wind, + where the wind had veered.` : ""}` +
    `${outside > 0 ? ` ${counted(outside, "mark")} ${outside === 1 ? "is" : "are"} outside the picture.` : ""}`
  );
}

/** True wind direction row by row, before above after, on one scale. Never throws. */
export function windDirectionFigure(answer: Answer): Figure {
  const { track } = answer;
  const solved = answer.fit.status === "solved";
  const after = unwrappedDirections(solved ? track.directionAfter : track.directionBefore, track.time);
  const means = meansOfDays(after, track.time);
  const drawn = (directions: Float64Array): Float64Array =>
    means ? directions.map((direction, row) => direction - means[row]!) : directions;
  const before = besideDirections(track.directionBefore, after);
  const panels: readonly (readonly [Panel, Float64Array])[] = solved
    ? [
        ["", drawn(before)],
        ["2", drawn(after)],
      ]
    : [["", drawn(before)]];
  const range = middleRange(panels.map(([, column]) => column));
  const shownLegs = answer.legs.length <= MOST_LEG_LINES ? answer.legs : [];
  const sailed = track.kind.flatMap((kind, row) => (kind === "sailing" ? [row] : []));
  const isShown = evenly(sailed.length, MOST_MARKS / panels.length);
  const marked = sailed.filter((_, index) => isShown(index));
  const outside = marked.filter((row) =>
    panels.some(([, column]) => degrees(column[row]!) < range[0] || degrees(column[row]!) > range[1]),
  ).length;
  const words = caption(answer, {
    sailed: sailed.length,
    marked: marked.length,
    outside,
    hasLegs: shownLegs.length > 0,
    areBeside: means !== undefined,
  });
  const north = answer.recording.directionsAre;
  const yaxis = { ...directionTicks(range, means !== undefined), range, zeroline: false };
  const title = means ? "true wind beside the day's mean (°)" : `true wind from (° ${north})`;
  return {
    id: "wind-direction",
    label: `True wind direction over time, ${solved ? "before and after correction, " : ""}samples on port and on starboard tack. ${words}`,
    caption: words,
    height: solved ? 600 : 360,
    traces: panels.flatMap(([panel, column]) =>
      TACKS.flatMap((tack) => [
        rowsTrace(track, marked, column, means, tack, panel),
        legsTrace(shownLegs, track.time, column, tack, panel),
      ]),
    ),
    layout: layout({
      shapes: turnLines(answer),
      annotations: panels.map(([panel]) =>
        panelName(panel === "" ? (solved ? "Before" : "As read") : "After", title, panel),
      ),
      xaxis: along("time (UTC)", {
        type: "date",
        anchor: solved ? "y2" : "y",
        showgrid: false,
        rangebreaks: gapBreaks(track.time),
        ...dayTicks(sailed.map((row) => track.time[row]!)),
      }),
      yaxis: axis({ ...yaxis, domain: solved ? [0.52, 0.93] : [0, 0.92] }),
      ...(solved ? { yaxis2: axis({ ...yaxis, domain: [0, 0.41] }) } : {}),
    }),
  };
}
