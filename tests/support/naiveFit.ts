import type { FitSetting } from "../../packages/core/src/fit/fitSetting.ts";
import type { ImpliedStates } from "../../packages/core/src/fit/impliedState.ts";
import { leastSquares } from "../../packages/core/src/fit/leastSquares.ts";
import { priorMeans, priorSds } from "../../packages/core/src/fit/priors.ts";
import { measuredAt } from "../../packages/core/src/fit/roundProblem.ts";

/** Numbers that a fit is to make small, all of one kind. */
export type Residuals = (states: ImpliedStates) => readonly number[];

export interface NaiveFit {
  /** All parameters; those that are not free stay at the start. */
  readonly vector: Float64Array;
  /** Standard deviations of the free ones, in their order. */
  readonly sds: readonly number[];
}

/** Rounds in which the residuals' standard deviations are found anew. */
const ROUNDS = 4;

const rootMeanSquare = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / values.length);

/**
 * What one would write who takes each row for itself: least squares of kinds of residuals, each over its own standard deviation, with the
 * priors that the library has. The traps are in what is asked to be small.
 */
export function naiveFit(setting: FitSetting, start: Float64Array, kinds: readonly Residuals[]): NaiveFit {
  const { free } = setting;
  const [means, priors] = [priorMeans(), priorSds()];
  const vector = Float64Array.from(start);
  const statesAt = (values: ArrayLike<number>): ImpliedStates => {
    const trial = Float64Array.from(vector);
    free.forEach((index, place) => {
      trial[index] = values[place]!;
    });
    return measuredAt(setting, trial);
  };
  let sds: readonly number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const at = free.map((index) => vector[index]!);
    const spreads = kinds.map((kind) => rootMeanSquare(kind(statesAt(at))));
    const residualsAt = (values: ArrayLike<number>): readonly number[] => {
      const states = statesAt(values);
      const prior = free.map((index, place) => (values[place]! - means[index]!) / priors[index]!);
      return [...kinds.flatMap((kind, place) => kind(states).map((one) => one / spreads[place]!)), ...prior];
    };
    const fit = leastSquares({
      start: at,
      scale: free.map((index) => priors[index]!),
      count: residualsAt(at).length,
      residuals: (values, out) => out.set(residualsAt(values)),
    });
    if (fit.status !== "solved") throw new Error(`the naive fit was not solved: ${fit.reason}`);
    free.forEach((index, place) => {
      vector[index] = fit.parameters[place]!;
    });
    sds = free.map((_, place) => Math.sqrt(fit.covariance[place * (free.length + 1)]!));
  }
  return { vector, sds };
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Each less the mean of all. */
export const aboutTheirMean = (values: readonly number[]): readonly number[] => {
  const middle = mean(values);
  return values.map((value) => value - middle);
};

/** Directions of the implied wind about the first, rad. */
export const directionsOf = ({ windEast, windNorth }: ImpliedStates): readonly number[] => {
  const [east, north] = [windEast[0]!, windNorth[0]!];
  return [...windEast].map((own, row) =>
    Math.atan2(own * north - windNorth[row]! * east, own * east + windNorth[row]! * north),
  );
};

/** Speeds of the implied wind, m/s. */
export const speedsOf = ({ windEast, windNorth }: ImpliedStates): readonly number[] =>
  [...windEast].map((east, row) => Math.hypot(east, windNorth[row]!));
