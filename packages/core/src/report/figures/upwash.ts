import type { SolvedBoatFit } from "../../fit/boatFit.ts";
import { upwash } from "../../sensors/vane.ts";
import { degrees, knots, type MetresPerSecond, metresPerSecond, radians } from "../../units.ts";
import type { TableRow } from "../cells.ts";
import { estimateOf } from "../estimate.ts";
import { counted, LEARNT, listed, plain, withInterval } from "../format.ts";
import { type Curve, curveTraces, rugTrace } from "./curve.ts";
import { along, axis, COLOUR, type Figure, layout, panelName } from "./figure.ts";
import { thinning } from "./time.ts";

/** The value below which a share of sorted values lies. */
const quantile = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;

/** Whole knots of apparent wind that a light, a usual and a strong tenth of the sailing saw. */
function windSpeedsShown(rows: readonly TableRow[]): readonly MetresPerSecond[] {
  const sorted = rows
    .map(({ mean }) => mean.aws)
    .filter((speed) => !Number.isNaN(speed))
    .sort((a, b) => a - b);
  const whole = [0.1, 0.5, 0.9].map((share) => Math.round(knots(quantile(sorted, share))));
  return [...new Set(whole)].map(metresPerSecond);
}

const DASHES = { 1: ["solid"], 2: ["dot", "solid"], 3: ["dot", "solid", "dash"] } as const;

/** A few hundred ticks fill the edge of a figure. */
const MOST_TICKS = 400;

/** Upwash over the apparent wind angle, between the angles that were sailed; undefined without any. Never throws. */
export function upwashFigure(fit: SolvedBoatFit, rows: readonly TableRow[]): Figure | undefined {
  const sailing = rows.filter(({ kind }) => kind === "sailing");
  const speeds = windSpeedsShown(sailing);
  const sailed = sailing.map(({ mean }) => Math.abs(degrees(mean.awa))).sort((a, b) => a - b);
  if (sailed.length === 0 || speeds.length === 0) return undefined;
  const [first, last] = [Math.floor(quantile(sailed, 0.01)), Math.ceil(quantile(sailed, 0.99))];
  const angles = Array.from(
    { length: Math.max(2, Math.floor((last - first) / 2) + 1) },
    (_, n) => first + 2 * n,
  );
  const dashes = DASHES[speeds.length as 1 | 2 | 3];
  const curves = speeds.map(
    (speed, index): Curve => ({
      name: `${plain(knots(speed), 0)} kn`,
      along: angles,
      estimates: angles.map((angle) => estimateOf(({ vane }) => upwash(radians(angle), speed, vane), fit)),
      color: COLOUR.accent,
      dash: dashes[index]!,
      withBand: dashes[index] === "solid",
    }),
  );
  const usual = curves.find(({ withBand }) => withBand)!;
  const peak = usual.estimates.reduce((best, one) => (one.value > best.value ? one : best));
  const at = angles[usual.estimates.indexOf(peak)]!;
  const caption =
    peak.informed >= LEARNT
      ? `In ${usual.name} of apparent wind the sails bend the wind most near ${plain(at, 0)}° to the bow, where the vane reads too wide by ${withInterval(degrees(peak.value), degrees(peak.sd), 1, "°").replace("+", "")}. `
      : "This recording did not tell the upwash. ";
  const words = `${caption}Apparent wind speeds: ${listed(curves.map(({ name }) => name))}; the band is the 95 % interval of the solid line; ticks are ${counted(sailed.length, "sample")}. The line stops where nothing was sailed or learnt.`;
  const edges = usual.estimates
    .filter(({ informed }) => informed >= LEARNT)
    .flatMap(({ value, sd }) => [degrees(value - 2.2 * sd), degrees(value + 2.2 * sd)]);
  const [bottom, top] = [Math.min(-1, ...edges), Math.max(2, ...edges)];
  const every = thinning(sailed.length, MOST_TICKS);
  return {
    id: "upwash",
    label: `Upwash over apparent wind angle. ${words}`,
    caption: words,
    height: 320,
    traces: [
      ...curves.flatMap(curveTraces),
      rugTrace(
        sailed.filter((_, index) => index % every === 0),
        bottom + 0.05 * (top - bottom),
        "samples",
        COLOUR.muted,
      ),
    ],
    layout: layout({
      annotations: [panelName("", "upwash (°)")],
      xaxis: along("apparent wind angle, either tack (°)", {
        range: [0, 180.2],
        tickvals: [0, 30, 60, 90, 120, 150, 180],
      }),
      yaxis: axis({ range: [bottom, top], domain: [0, 0.88] }),
    }),
  };
}
