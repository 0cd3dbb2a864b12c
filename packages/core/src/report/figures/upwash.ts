import type { SolvedBoatFit } from "../../fit/boatFit.ts";
import { upwash } from "../../sensors/vane.ts";
import { degrees, knots, type MetresPerSecond, metresPerSecond, radians } from "../../units.ts";
import type { TableRow } from "../cells.ts";
import { estimateOf } from "../estimate.ts";
import { LEARNT, listed, plain, withInterval } from "../format.ts";
import { type Curve, curveTraces, rugTrace } from "./curve.ts";
import { along, axis, COLOUR, type Figure, layout, panelName } from "./figure.ts";
import { evenly } from "./time.ts";

/** The value below which a share of sorted values lies. */
const quantile = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;

/** The numbers among values, ascending. */
const sortedNumbers = (values: readonly number[]): readonly number[] =>
  values.filter((value) => !Number.isNaN(value)).sort((a, b) => a - b);

/** A whole knot of apparent wind, and how its line is drawn. */
interface WindShown {
  readonly speed: MetresPerSecond;
  readonly dash: Curve["dash"];
}

/** Upwash is a matter of sailing with the wind ahead of the beam; the winds shown are those that were sailed so. */
const isAhead = ({ mean }: TableRow): boolean => Math.abs(mean.awa) < Math.PI / 2;

/**
 * The usual wind, the solid line; and, where it was learnt how the upwash changes with the wind, those of the lightest and
 * strongest tenth of the sailing ahead of the beam.
 */
function windsShown(rows: readonly TableRow[], withOthers: boolean): readonly WindShown[] {
  const ahead = rows.filter(isAhead);
  const sorted = sortedNumbers((ahead.length > 0 ? ahead : rows).map(({ mean }) => mean.aws));
  if (sorted.length === 0) return [];
  const whole = (share: number): number => Math.round(knots(quantile(sorted, share)));
  const usual = { speed: metresPerSecond(whole(0.5)), dash: "solid" } as const;
  const others = [
    { share: 0.1, dash: "dot" },
    { share: 0.9, dash: "dash" },
  ] as const;
  return [
    usual,
    ...(withOthers ? others : [])
      .filter(({ share }) => whole(share) !== whole(0.5))
      .map(({ share, dash }) => ({ speed: metresPerSecond(whole(share)), dash })),
  ];
}

/** Every second degree from the first angle sailed to the last. */
function anglesBetween(sailed: readonly number[]): readonly number[] {
  const [first, last] = [Math.floor(quantile(sailed, 0.01)), Math.ceil(quantile(sailed, 0.99))];
  return Array.from({ length: Math.max(2, Math.floor((last - first) / 2) + 1) }, (_, n) => first + 2 * n);
}

/** Where the usual wind is bent most, and how far. */
function conclusion({ name, along: angles, estimates }: Curve): string {
  const sizes = estimates.map(({ value }) => Math.abs(value));
  const at = sizes.indexOf(Math.max(...sizes));
  const peak = estimates[at];
  if (!peak || !(peak.informed >= LEARNT)) return "This recording did not tell the upwash.";
  const size = withInterval(degrees(Math.abs(peak.value)), degrees(peak.sd), 1, "°").replace("+", "");
  return `In ${name} of apparent wind the sails bend the wind most near ${plain(angles[at]!, 0)}° to the bow, where the vane reads too ${peak.value < 0 ? "narrow" : "wide"} by ${size}.`;
}

/** A range that holds the band of a curve as far as it is drawn. */
function rangeOf({ estimates }: Curve): readonly [number, number] {
  const edges = estimates
    .filter(({ informed }) => informed >= LEARNT)
    .flatMap(({ value, sd }) => [degrees(value - 2.2 * sd), degrees(value + 2.2 * sd)]);
  return [Math.min(-1, ...edges), Math.max(2, ...edges)];
}

/** A few hundred ticks fill the edge of a figure. */
const MOST_TICKS = 400;

/** Upwash over the apparent wind angle, between the angles that were sailed; undefined without any. Never throws. */
export function upwashFigure(fit: SolvedBoatFit, rows: readonly TableRow[]): Figure | undefined {
  const sailing = rows.filter(({ kind }) => kind === "sailing");
  const sailed = sortedNumbers(sailing.map(({ mean }) => Math.abs(degrees(mean.awa))));
  if (sailed.length === 0) return undefined;
  const angles = anglesBetween(sailed);
  const slope = fit.parameters.find(({ name }) => name === "vane.upwashSlope");
  const slopeLearnt = slope !== undefined && slope.informed >= LEARNT;
  const curves = windsShown(sailing, slopeLearnt).map(
    ({ speed, dash }): Curve => ({
      name: `${plain(knots(speed), 0)} kn`,
      along: angles,
      estimates: angles.map((angle) => estimateOf(({ vane }) => upwash(radians(angle), speed, vane), fit)),
      color: COLOUR.accent,
      dash,
      withBand: dash === "solid",
    }),
  );
  const [usual] = curves;
  if (!usual) return undefined;
  const winds = slopeLearnt
    ? `Apparent wind speeds: ${listed(curves.map(({ name }) => name))}; the band is the 95 % interval of the solid line.`
    : "How it changes with the wind was not learnt. The band is the 95 % interval.";
  const caption = `${conclusion(usual)} ${winds} Each tick is the mean of some half a minute. The line stops where nothing was sailed or learnt.`;
  const range = rangeOf(usual);
  const isShown = evenly(sailed.length, MOST_TICKS);
  const ticks = sailed.filter((_, index) => isShown(index));
  return {
    id: "upwash",
    label: `Upwash over apparent wind angle. ${caption}`,
    caption,
    height: 320,
    traces: [
      ...curves.flatMap(curveTraces),
      rugTrace(ticks, range[0] + 0.05 * (range[1] - range[0]), "samples", COLOUR.muted),
    ],
    layout: layout({
      annotations: [panelName("", "upwash (°)")],
      xaxis: along("apparent wind angle, either tack (°)", {
        range: [0, 180.2],
        tickvals: [0, 30, 60, 90, 120, 150, 180],
      }),
      yaxis: axis({ range, domain: [0, 0.88] }),
    }),
  };
}
