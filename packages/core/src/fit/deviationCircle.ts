import { deviation } from "../sensors/compass.ts";
import type { CompassParameters } from "../sensors/parameters.ts";
import type { Radians } from "../units.ts";
import { leastSquares } from "./leastSquares.ts";

/** Deviation seen on one heading. */
export interface SeenDeviation {
  /** As the compass shows it. */
  readonly heading: Radians;
  /** To be added to the compass heading, east positive. */
  readonly deviation: Radians;
  /** Positive to starboard; needed where the heeling error is asked for. */
  readonly heel?: Radians;
}

/** What is known of a circle besides its bearings. */
export interface DeviationCircleOptions {
  /** Standard deviation of one deviation seen. */
  readonly deviation: Radians;
  /** Whether heeling error is fitted too; false by default. */
  readonly withHeelingError?: boolean;
}

/** A term of the deviation series (M21). */
export type DeviationTerm = keyof CompassParameters;

/** Why a circle cannot answer. */
export interface UnsolvedCircle {
  readonly status: "unsolved";
  readonly reason: "too few headings" | "not told apart";
}

/** The deviation series that a circle shows. */
export interface SolvedCircle {
  readonly status: "solved";
  /** M21; heelingError is 0 where it was not asked for. */
  readonly series: CompassParameters;
  /** Standard deviation of each term, rad; of heelingError rad/rad. */
  readonly deviations: CompassParameters;
  /** Of the terms in `terms`' order, row-major. */
  readonly covariance: readonly number[];
  readonly terms: readonly DeviationTerm[];
  /** What is left of each, rad. */
  readonly residuals: readonly Radians[];
  /** How many headings there are beyond what the terms take up; 0 where nothing checks the fit. */
  readonly spare: number;
  /** Ratio of the scatter to the deviation that was stated; NaN where `spare` is 0. */
  readonly scatter: number;
}

const TERMS: readonly DeviationTerm[] = ["a", "b", "c", "d", "e"];
const NONE: CompassParameters = { a: 0, b: 0, c: 0, d: 0, e: 0, heelingError: 0 };

/** Headings that lie nearer to each other than this are one heading: a helmsman holds no better. */
const ONE_HEADING: Radians = Math.PI / 180;

/** M21. What each term's unit adds on a heading: the series is linear in its terms. */
const columnsOf = (terms: readonly DeviationTerm[], heading: Radians, heel: Radians): readonly number[] =>
  terms.map((term) => deviation(heading, heel, { ...NONE, [term]: 1 }));

/** How many headings are a degree or more from all that come before them around the circle. */
function distinct(seen: readonly SeenDeviation[]): number {
  const places = seen.map(({ heading }) => ({ east: Math.sin(heading), north: Math.cos(heading) }));
  const nearest = 2 * Math.sin(ONE_HEADING / 2);
  return places.filter(
    (place, index) =>
      !places
        .slice(0, index)
        .some((other) => Math.hypot(place.east - other.east, place.north - other.north) < nearest),
  ).length;
}

function checkSeen(
  seen: readonly SeenDeviation[],
  { deviation: sd, withHeelingError = false }: DeviationCircleOptions,
): void {
  if (!(sd > 0 && sd < Infinity))
    throw new RangeError(`fitDeviation: deviation must be positive and finite, got ${sd}`);
  seen.forEach(({ heading, deviation: value, heel }, index) => {
    if (!Number.isFinite(heading + value))
      throw new RangeError(`fitDeviation: heading and deviation ${index + 1} must be finite`);
    if (withHeelingError && !Number.isFinite(heel))
      throw new RangeError(
        `fitDeviation: the heeling error needs a heel at heading ${index + 1}, got ${heel}`,
      );
  });
}

/**
 * M59. Coefficients A to E of the deviation (M21), and the heeling error where asked for, with their uncertainty, from
 * deviations seen on several headings.
 *
 * @returns `unsolved` where fewer than five headings are distinct, which cannot tell five terms whatever their number of
 *   readings, where readings are fewer than terms, or where they do not tell the terms apart
 * @throws RangeError where a value is not finite, a heel that is needed missing, or the deviation out of range
 * @example
 * const seen = [0, 60, 120, 180, 240, 300].map((angle) => ({ heading: radians(angle), deviation: radians(2) }));
 * degrees(fitDeviation(seen, { deviation: radians(1) }).series.a).toFixed(6) // "2.000000"
 */
export function fitDeviation(
  seen: readonly SeenDeviation[],
  options: DeviationCircleOptions,
): SolvedCircle | UnsolvedCircle {
  checkSeen(seen, options);
  const { deviation: sd, withHeelingError = false } = options;
  const terms: readonly DeviationTerm[] = withHeelingError ? [...TERMS, "heelingError"] : TERMS;
  if (distinct(seen) < TERMS.length || seen.length < terms.length)
    return { status: "unsolved", reason: "too few headings" };
  const columns = seen.map(({ heading, heel = 0 }) => columnsOf(terms, heading, heel));
  const fit = leastSquares({
    start: new Float64Array(terms.length),
    scale: new Float64Array(terms.length).fill(1),
    count: seen.length,
    residuals: (parameters, out) => {
      columns.forEach((row, at) => {
        const modelled = row.reduce((sum, column, term) => sum + column * parameters[term]!, 0);
        out[at] = (seen[at]!.deviation - modelled) / sd;
      });
    },
    jacobian: (_, out) => out.set(columns.flat().map((column) => -column / sd)),
  });
  if (fit.status === "unsolved") return { status: "unsolved", reason: "not told apart" };
  const widened = Math.max(1, fit.residualVariance || 0);
  const covariance = Array.from(fit.covariance, (value) => value * widened);
  const named = (ofTerm: (term: number) => number): CompassParameters => ({
    ...NONE,
    ...Object.fromEntries(terms.map((term, index) => [term, ofTerm(index)])),
  });
  return {
    status: "solved",
    series: named((term) => fit.parameters[term]!),
    deviations: named((term) => Math.sqrt(covariance[term * (terms.length + 1)]!)),
    covariance,
    terms,
    residuals: Array.from(fit.residuals, (residual) => residual * sd),
    spare: seen.length - terms.length,
    scatter: Math.sqrt(fit.residualVariance),
  };
}

/**
 * M59. Standard deviation of the fitted deviation on a heading, rad. Never throws.
 *
 * @example
 * const seen = [0, 60, 120, 180, 240, 300].map((angle) => ({ heading: radians(angle), deviation: radians(2) }));
 * const circle = fitDeviation(seen, { deviation: radians(1) });
 * // five terms from six headings: five sixths of what one bearing is worth, in the mean around the circle
 * circleDeviationAt(circle, 0) < radians(1) // true
 */
export function circleDeviationAt(
  { terms, covariance }: SolvedCircle,
  heading: Radians,
  heel: Radians = 0,
): Radians {
  const row = columnsOf(terms, heading, heel);
  const variance = row.reduce(
    (sum, one, at) =>
      sum + row.reduce((part, other, to) => part + one * other * covariance[at * row.length + to]!, 0),
    0,
  );
  return Math.sqrt(Math.max(0, variance));
}
