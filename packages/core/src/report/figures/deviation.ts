import type { SolvedBoatFit } from "../../fit/boatFit.ts";
import { degrees, radians } from "../../units.ts";
import type { TableRow } from "../cells.ts";
import { deviationBesideA, wasSailed } from "../deviationCard.ts";
import { estimateOf } from "../estimate.ts";
import { LEARNT, plain } from "../format.ts";
import { curveTraces, rugTrace } from "./curve.ts";
import { along, axis, COLOUR, type Figure, layout, panelName } from "./figure.ts";
import { evenly } from "./time.ts";

/** A few hundred ticks fill the edge of a figure. */
const MOST_TICKS = 400;

function sentence(headings: number, values: readonly number[]): string {
  if (values.length === 0) return "This recording did not tell the deviation on any heading.";
  const largest = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const share = Math.round((100 * values.length) / headings);
  return `The compass asks for no more than ${plain(largest, 1)}° beside its alignment (A), learnt on ${share} % of the headings.`;
}

/** Deviation over compass heading, without the alignment; undefined without a compass. Never throws. */
export function deviationFigure(fit: SolvedBoatFit, rows: readonly TableRow[]): Figure | undefined {
  const sailed = rows.map(({ mean }) => degrees(mean.heading)).filter((heading) => !Number.isNaN(heading));
  if (sailed.length === 0) return undefined;
  const headings = Array.from({ length: 73 }, (_, n) => 5 * n);
  const estimates = headings.map((heading) => {
    const estimate = estimateOf(({ compass }) => deviationBesideA(radians(heading), compass), fit);
    return wasSailed(radians(heading), rows) ? estimate : { ...estimate, informed: Number.NaN };
  });
  const learnt = estimates.filter(({ informed }) => informed >= LEARNT);
  const reach = Math.max(2, ...learnt.map(({ value, sd }) => degrees(Math.abs(value) + 2 * sd))) * 1.15;
  const words = `${sentence(
    headings.length,
    learnt.map(({ value }) => degrees(value)),
  )} The band is the 95 % interval, the line stops where nothing was sailed or learnt; ticks are the headings that were held.`;
  const isShown = evenly(sailed.length, MOST_TICKS);
  return {
    id: "deviation",
    label: `Deviation over compass heading. ${words}`,
    caption: words,
    height: 320,
    traces: [
      ...curveTraces({
        name: "add",
        along: headings,
        estimates,
        color: COLOUR.accent,
        dash: "solid",
        withBand: true,
      }),
      rugTrace(
        sailed.filter((_, index) => isShown(index)).map((heading) => ((heading % 360) + 360) % 360),
        -reach * 0.94,
        "samples",
        COLOUR.muted,
      ),
    ],
    layout: layout({
      annotations: [panelName("", "add to the heading (°)")],
      xaxis: along("compass heading (°)", {
        range: [0, 360.4],
        tickvals: [0, 45, 90, 135, 180, 225, 270, 315, 360],
      }),
      yaxis: axis({ range: [-reach, reach], domain: [0, 0.92] }),
      showlegend: false,
    }),
  };
}
