import { wrapAngle } from "../angles.ts";
import { deviation } from "../sensors/compass.ts";
import type { CompassParameters } from "../sensors/parameters.ts";
import { type Radians, radians } from "../units.ts";
import { circleDeviationAt, type DeviationTerm, fitDeviation, type SolvedCircle } from "./deviationCircle.ts";
import { halfWidth } from "./linearFit.ts";

/** A heading whose true value is known: from a bearing, a transit or another compass. */
export interface KnownHeading {
  /** As the compass shows it, uncorrected. */
  readonly compass: Radians;
  /** Magnetic: true less variation. */
  readonly magnetic: Radians;
  /** Positive to starboard. */
  readonly heel?: Radians;
}

/** What is stated of the headings beforehand, rad and rad/s. */
export interface KnownHeadingsOptions {
  /** Standard deviation of one heading's deviation: the bearing, the helm, the reading. */
  readonly deviation: Radians;
  /** Standard deviation of what all magnetic headings have in common: the variation, the alignment of what the bearings were taken with. */
  readonly common: Radians;
  /** Where the boat was circling rather than holding headings: the whole turns to either side, and how fast. */
  readonly turning?: { readonly rate: number; readonly bothWays: boolean };
  readonly withHeelingError?: boolean;
}

/**
 * Why headings cannot answer, in the words of a sentence's end.
 *
 * @example
 * CIRCLE_REFUSALS["too fast"].startsWith("the circle took") // true
 */
export const CIRCLE_REFUSALS = {
  "one heading": "all readings are on one heading, which tells the deviation there and nowhere else",
  "too few headings":
    "five headings at least must differ: on four, such as N, E, S and W, one combination of the five coefficients stays unseen",
  "not all round":
    "a third of the circle and more has no heading, and the coefficients would be guessed there",
  "too fast": "the circle took less than two minutes, and a compass lags behind so fast a turn",
  "not told apart": "these headings do not tell the coefficients apart",
} as const;

/** One of the reasons of CIRCLE_REFUSALS. */
export type CircleRefusal = keyof typeof CIRCLE_REFUSALS;

/** An entry of a deviation table, rad. */
export interface DeviationToldAt {
  readonly heading: Radians;
  readonly deviation: Radians;
  /** Half the 95 % interval, without what is common to all headings: that is A's. */
  readonly half: Radians;
}

/** Deviation coefficients and half their 95 % intervals, rad, however they were found; scatter is a factor. */
export interface FoundDeviation {
  readonly series: CompassParameters;
  /** Half the 95 % interval of each; A's holds what is common to all headings. */
  readonly halves: CompassParameters;
  readonly terms: readonly DeviationTerm[];
  readonly residuals: readonly Radians[];
  readonly spare: number;
  readonly scatter: number;
  /** The deviation on any compass heading, upright, without what all headings have in common: that is A's. */
  readonly at: (heading: Radians) => DeviationToldAt;
}

/** A deviation series from known headings. */
export interface SolvedHeadings extends FoundDeviation {
  readonly status: "solved";
}

/** The fastest turn that a compass can be asked in: a circle in two minutes. Judgement; at it a lag of a second costs 3°. */
export const FASTEST_TURN = radians(3);

/** What a compass may lag, s, one standard deviation. Judgement: damping of one to two seconds is usual. */
const LAG = 0.7;

/** The widest gap between neighbouring headings. */
const WIDEST_GAP = radians(120);

/** Headings nearer to each other than this are one. */
const ONE_HEADING = radians(5);

const FULL = 2 * Math.PI;

/** The widest gap between neighbours round the circle, and whether all are one heading. */
function spreadOf(headings: readonly Radians[]): { readonly gap: Radians; readonly isOne: boolean } {
  const sorted = headings.map((heading) => ((heading % FULL) + FULL) % FULL).sort((a, b) => a - b);
  const gaps = sorted.map((heading, at) => (sorted[at + 1] ?? sorted[0]! + FULL) - heading);
  const gap = Math.max(...gaps);
  return { gap, isOne: FULL - gap < ONE_HEADING };
}

/** Why headings do not tell a circle. Never throws. */
export function headingsRefused(headings: readonly Radians[]): "one heading" | "not all round" | undefined {
  const { gap, isOne } = spreadOf(headings);
  if (isOne) return "one heading";
  return gap > WIDEST_GAP + 1e-9 ? "not all round" : undefined;
}

function refusal(headings: readonly KnownHeading[], turning: KnownHeadingsOptions["turning"]) {
  if (turning && Math.abs(turning.rate) > FASTEST_TURN) return "too fast";
  return headingsRefused(headings.map(({ compass }) => compass));
}

/**
 * M125. Deviation coefficients (M59) from headings whose magnetic value is known, with 95 % intervals (M121). What all headings have in
 * common, an error of the variation or of what the bearings were taken with, and a compass's lag in a circle to one side only, is in A alone.
 *
 * @returns `unsolved` with a reason of CIRCLE_REFUSALS
 * @throws RangeError as `fitDeviation`; for no headings at all
 *
 * @example
 * const headings = [0, 45, 90, 135, 180, 225, 270, 315].map((angle) => ({ compass: radians(angle), magnetic: radians(angle + 2) }));
 * degrees(circleFromBearings(headings, { deviation: radians(1), common: radians(0.5) }).series.a).toFixed(3) // "2.000"
 */
export function circleFromBearings(
  headings: readonly KnownHeading[],
  { deviation: sd, common, turning, withHeelingError = false }: KnownHeadingsOptions,
): SolvedHeadings | { readonly status: "unsolved"; readonly reason: CircleRefusal } {
  if (headings.length === 0) throw new RangeError("circleFromBearings: needs a heading, got none");
  const seen = headings.map(({ compass, magnetic, heel }) => ({
    heading: compass,
    deviation: wrapAngle(magnetic - compass),
    ...(heel === undefined ? {} : { heel }),
  }));
  const reason = refusal(headings, turning);
  const fit = fitDeviation(seen, { deviation: sd, withHeelingError });
  if (reason !== undefined && !(reason === "not all round" && fit.status === "unsolved"))
    return { status: "unsolved", reason };
  if (fit.status === "unsolved") return { status: "unsolved", reason: fit.reason };
  const lag = turning && !turning.bothWays ? LAG * Math.abs(turning.rate) : 0;
  const shared = 1.96 * Math.hypot(common, lag);
  const half = (term: DeviationTerm): Radians => halfWidth(asStated(fit.deviations[term], fit), fit);
  const { a, b, c, d, e } = { a: half("a"), b: half("b"), c: half("c"), d: half("d"), e: half("e") };
  const heelingError = withHeelingError ? half("heelingError") : 0;
  return {
    status: "solved",
    series: fit.series,
    halves: { a: Math.hypot(a, shared), b, c, d, e, heelingError },
    terms: fit.terms,
    residuals: fit.residuals,
    spare: fit.spare,
    scatter: fit.scatter,
    at: (heading) => ({
      heading,
      deviation: deviation(heading, 0, fit.series),
      half: halfWidth(asStated(circleDeviationAt(fit, heading), fit), fit),
    }),
  };
}

/** A deviation of M59 as it was before it was widened. */
const asStated = (value: number, { scatter }: SolvedCircle): number => value / Math.max(1, scatter || 1);

/**
 * M125. The deviation table: every so many degrees of compass heading, upright. Never throws.
 *
 * @example
 * const headings = [0, 45, 90, 135, 180, 225, 270, 315].map((angle) => ({ compass: radians(angle), magnetic: radians(angle + 2) }));
 * deviationTable(circleFromBearings(headings, { deviation: radians(1), common: 0 }), 15).length // 24
 */
export const deviationTable = ({ at }: FoundDeviation, stepDegrees: 10 | 15): readonly DeviationToldAt[] =>
  Array.from({ length: 360 / stepDegrees }, (_, index) => at(radians(index * stepDegrees)));
