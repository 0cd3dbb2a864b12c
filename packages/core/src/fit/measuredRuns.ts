import type { Metres, MetresPerSecond, Seconds } from "../units.ts";
import { linearFit, type SolvedLinearFit } from "./linearFit.ts";
import type { Prior } from "./priors.ts";

/** A run over a measured distance, there or back. */
export interface MeasuredRun {
  /** When it began and ended, s on any one clock. */
  readonly start: Seconds;
  readonly end: Seconds;
  /** Over the ground, along the measured course. */
  readonly distance: Metres;
  /** 1 there, −1 back. */
  readonly way: 1 | -1;
  /** The log's mean reading on the run; needed by `logOfRuns` alone. */
  readonly reading?: MetresPerSecond;
}

/** What is known of runs besides the runs. */
export interface MeasuredRunsOptions {
  /** Standard deviation of one run's mean speed: the stop watch, the transit, the helm. */
  readonly deviation: MetresPerSecond;
  /** Degree of the polynomial in time that the current follows: 0 steady, 1 changing evenly, 2 turning. */
  readonly degree: number;
  /**
   * The strongest stream of such a tide, where the polynomial is to follow no steeper one (M122): each power's coefficient is then 0 but for
   * what half a day's tide of that strength has, and runs may be fewer than the unknowns.
   */
  readonly stream?: MetresPerSecond;
}

/** Why runs cannot answer. */
export interface UnsolvedRuns {
  readonly status: "unsolved";
  readonly reason: "one way" | "too few runs" | "not told apart";
}

/** The current along the course, polynomial in (time − middle) / half the span of the runs. */
export interface RunsCurrent {
  readonly middle: Seconds;
  readonly halfSpan: Seconds;
  /** m/s, toward where the runs there go; lowest power first. */
  readonly coefficients: readonly MetresPerSecond[];
  /** Of the coefficients, row-major, m²/s². */
  readonly covariance: readonly number[];
}

interface SolvedRunsBase {
  readonly status: "solved";
  readonly current: RunsCurrent;
  /** What is left of each run's speed over the ground, positive there, m/s. */
  readonly residuals: readonly MetresPerSecond[];
  /** Runs beyond what the unknowns take up, in parts where a tide's strength is known; 0 where nothing checks the fit. */
  readonly spare: number;
  /** The runs' scatter over the deviation that was stated; NaN where `spare` is 0. */
  readonly scatter: number;
}

/** The speed through the water that runs show. */
export interface SolvedSpeed extends SolvedRunsBase {
  /** Through the water, along the course. */
  readonly speed: MetresPerSecond;
  readonly deviation: MetresPerSecond;
}

/** Intercept and gain of the log that runs show. */
export interface SolvedLog extends SolvedRunsBase {
  /** M20: speed = intercept + gain · reading. */
  readonly intercept: MetresPerSecond;
  /** Factor from reading to speed (M20). */
  readonly gain: number;
  readonly interceptDeviation: MetresPerSecond;
  /** Standard deviation of the gain, as a factor. */
  readonly gainDeviation: number;
  /** Of intercept with gain, m/s. */
  readonly covariance: number;
}

/** Means of the powers of the clock over a run: what a current's coefficients add to the run's mean speed. */
const powerMeans = (from: number, to: number, degree: number): readonly number[] =>
  Array.from({ length: degree + 1 }, (_, power) =>
    // Σ fromʲ · toᵖ⁻ʲ / (p + 1), which is (toᵖ⁺¹ − fromᵖ⁺¹) / (p + 1) / (to − from) without its cancellation
    Array.from({ length: power + 1 }, (_, j) => from ** j * to ** (power - j)).reduce(
      (sum, term) => sum + term / (power + 1),
      0,
    ),
  );

export function checkRuns(name: string, runs: readonly MeasuredRun[], options: MeasuredRunsOptions): void {
  const { deviation, degree } = options;
  if (!(deviation > 0 && deviation < Infinity))
    throw new RangeError(`${name}: deviation must be positive and finite, got ${deviation}`);
  if (!(Number.isInteger(degree) && degree >= 0))
    throw new RangeError(`${name}: degree must be a whole number from 0, got ${degree}`);
  runs.forEach(({ start, end, distance, way }, index) => {
    if (!(end > start && Number.isFinite(end - start)))
      throw new RangeError(`${name}: run ${index + 1} must end after it starts, got ${start} to ${end}`);
    if (!(distance > 0 && distance < Infinity))
      throw new RangeError(`${name}: distance of run ${index + 1} must be positive, got ${distance}`);
    if (way !== 1 && way !== -1)
      throw new RangeError(`${name}: way of run ${index + 1} must be 1 or −1, got ${way}`);
  });
}

/** What runs tell of the boat's own unknowns and of the current, with the deviation as stated. */
export interface RunsFit extends SolvedLinearFit {
  readonly current: Pick<RunsCurrent, "middle" | "halfSpan">;
}

/** The tide's half day, s (12.42 h, its period in trials at sea), as radians a second. */
const TIDE: number = (2 * Math.PI) / (12.42 * 3600);

/** M122. What is known beforehand of the powers from 1: 0 but for stream / √2 · (ω · half span)ᵏ / k!. */
function tidePriors(stream: MetresPerSecond | undefined, halfSpan: Seconds, degree: number) {
  let sd = (stream ?? Number.NaN) / Math.SQRT2;
  return Array.from({ length: degree }, (_, index): Prior | undefined => {
    sd *= (TIDE * halfSpan) / (index + 1);
    return stream === undefined ? undefined : { mean: 0, sd };
  });
}

/**
 * M57. Least squares of speeds over the ground on the boat's own columns and the powers of the clock; M122 with a stream.
 *
 * @param ownPriors one for each of the boat's own unknowns
 * Never throws for runs that `checkRuns` lets pass.
 */
export function fitRuns(
  runs: readonly MeasuredRun[],
  ownOf: (run: MeasuredRun) => readonly number[],
  ownPriors: readonly (Prior | undefined)[],
  { deviation, degree, stream }: MeasuredRunsOptions,
): RunsFit | UnsolvedRuns {
  const [first, ...others] = runs;
  if (!first) return { status: "unsolved", reason: "too few runs" };
  if (others.every(({ way }) => way === first.way)) return { status: "unsolved", reason: "one way" };
  const begin = Math.min(...runs.map(({ start }) => start));
  const halfSpan = (Math.max(...runs.map(({ end }) => end)) - begin) / 2;
  const middle = begin + halfSpan;
  const rows = runs.map((run) => ({
    columns: [
      ...ownOf(run).map((column) => run.way * column),
      ...powerMeans((run.start - middle) / halfSpan, (run.end - middle) / halfSpan, degree),
    ],
    value: (run.way * run.distance) / (run.end - run.start),
    deviation,
  }));
  const fit = linearFit(rows, [...ownPriors, undefined, ...tidePriors(stream, halfSpan, degree)]);
  if (fit.status === "unsolved")
    return { status: "unsolved", reason: fit.reason === "too few rows" ? "too few runs" : fit.reason };
  return { ...fit, current: { middle, halfSpan } };
}

interface Solution extends SolvedRunsBase {
  readonly own: readonly number[];
  /** Covariance of `own`, row-major. */
  readonly ownCovariance: readonly number[];
}

const block = (matrix: readonly number[], size: number, from: number, to: number): readonly number[] =>
  Array.from({ length: to - from }, (_, row) =>
    matrix.slice((row + from) * size + from, (row + from) * size + to),
  ).flat();

/** M57. The fit with its deviations widened where the runs scatter more than was stated. */
function solution(
  runs: readonly MeasuredRun[],
  ownOf: (run: MeasuredRun) => readonly number[],
  ownCount: number,
  options: MeasuredRunsOptions,
): Solution | UnsolvedRuns {
  const fit = fitRuns(runs, ownOf, Array(ownCount).fill(undefined), options);
  if (fit.status === "unsolved") return fit;
  const widened = Math.max(1, fit.scatter ** 2 || 0);
  const covariance = fit.covariance.map((value) => value * widened);
  const size = fit.values.length;
  return {
    status: "solved",
    own: fit.values.slice(0, ownCount),
    ownCovariance: block(covariance, size, 0, ownCount),
    current: {
      ...fit.current,
      coefficients: fit.values.slice(ownCount),
      covariance: block(covariance, size, ownCount, size),
    },
    residuals: fit.residuals,
    spare: fit.spare,
    scatter: fit.scatter,
  };
}

/**
 * M57. Speed through the water from runs over a measured distance, and the current along it as a polynomial in time, by least
 * squares. Any number of runs in any order; that all were sailed at one speed is assumed.
 *
 * @returns `unsolved` where all runs go one way, since speed and current are then one number; where runs are fewer than
 *   unknowns (2 + degree); or where these runs do not tell the unknowns apart
 * @throws RangeError where a run does not end after it starts, a distance, the deviation or the degree is out of range
 * @example
 * const runs = [{ start: 0, end: 100, distance: 600, way: 1 }, { start: 200, end: 300, distance: 400, way: -1 }];
 * speedOfRuns(runs, { deviation: 0.1, degree: 0 }).speed.toFixed(6) // "5.000000"
 */
export function speedOfRuns(
  runs: readonly MeasuredRun[],
  options: MeasuredRunsOptions,
): SolvedSpeed | UnsolvedRuns {
  checkRuns("speedOfRuns", runs, options);
  const found = solution(runs, () => [1], 1, options);
  if (found.status === "unsolved") return found;
  const { own, ownCovariance, ...rest } = found;
  return { ...rest, speed: own[0]!, deviation: Math.sqrt(ownCovariance[0]!) };
}

/**
 * M58. Intercept and gain of the log (M20) from runs at several speeds, with the current along them as in `speedOfRuns`.
 *
 * @returns as `speedOfRuns`, the unknowns being 3 + degree
 * @throws RangeError as `speedOfRuns`, and where a run has no reading above 0
 * @example
 * const runs = [[0, 600, 1, 4], [200, 400, -1, 4], [400, 800, 1, 6], [600, 600, -1, 6]].map(([start, distance, way, reading]) => ({ start, end: start + 100, distance, way, reading }));
 * logOfRuns(runs, { deviation: 0.1, degree: 0 }).gain.toFixed(6) // "1.000000"
 */
export function logOfRuns(
  runs: readonly MeasuredRun[],
  options: MeasuredRunsOptions,
): SolvedLog | UnsolvedRuns {
  checkRuns("logOfRuns", runs, options);
  runs.forEach(({ reading = Number.NaN }, index) => {
    if (!(reading > 0 && reading < Infinity))
      throw new RangeError(`logOfRuns: run ${index + 1} needs a reading above 0, got ${reading}`);
  });
  const found = solution(runs, ({ reading = Number.NaN }) => [1, reading], 2, options);
  if (found.status === "unsolved") return found;
  const { own, ownCovariance, ...rest } = found;
  const [interceptVariance, covariance, , gainVariance] = ownCovariance;
  return {
    ...rest,
    intercept: own[0]!,
    gain: own[1]!,
    interceptDeviation: Math.sqrt(interceptVariance!),
    gainDeviation: Math.sqrt(gainVariance!),
    covariance: covariance!,
  };
}

/**
 * M57. The current along the course at a time, toward where the runs there go.
 *
 * @returns m/s, with its standard deviation; only within the time of the runs is it more than a guess. Never throws.
 * @example
 * const runs = [{ start: 0, end: 100, distance: 600, way: 1 }, { start: 200, end: 300, distance: 400, way: -1 }];
 * currentOfRuns(speedOfRuns(runs, { deviation: 0.1, degree: 0 }).current, 150).speed.toFixed(6) // "1.000000"
 */
export function currentOfRuns(
  { middle, halfSpan, coefficients, covariance }: RunsCurrent,
  time: Seconds,
): { readonly speed: MetresPerSecond; readonly deviation: MetresPerSecond } {
  const powers = coefficients.map((_, power) => ((time - middle) / halfSpan) ** power);
  const variance = powers.reduce(
    (sum, one, row) =>
      sum + powers.reduce((part, other, at) => part + one * other * covariance[row * powers.length + at]!, 0),
    0,
  );
  return {
    speed: coefficients.reduce((sum, coefficient, power) => sum + coefficient * powers[power]!, 0),
    deviation: Math.sqrt(Math.max(0, variance)),
  };
}
