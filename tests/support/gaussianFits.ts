import { CholeskyDecomposition, inverse, Matrix, QrDecomposition } from "ml-matrix";
import { PARAMETER_NAMES, type SolvedBoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { priorCorrelation } from "../../packages/core/src/fit/priorCovariance.ts";
import { BOAT_PRIORS } from "../../packages/core/src/fit/priors.ts";
import { settingsOf } from "../../packages/core/src/fit/settingsVector.ts";
import type { RandomNumbers } from "../../packages/core/src/simulate/random.ts";

/** How many parameters there are. */
export const SIZE = PARAMETER_NAMES.length;

const priors = PARAMETER_NAMES.map((name) => BOAT_PRIORS[name]);

/**
 * Directions at random, about as sharp as the data of an afternoon: from hardly told to a twentieth of the prior.
 *
 * @param least log₁₀ of the smallest precision
 */
export function drawInformation({ normal, between }: RandomNumbers, least = -2): Matrix {
  const axes = new QrDecomposition(
    Matrix.from1DArray(SIZE, SIZE, Float64Array.from({ length: SIZE ** 2 }, normal)),
  ).orthogonalMatrix;
  const sharpness = Matrix.diag(Array.from({ length: SIZE }, () => 10 ** between(least, 2.6)));
  const information = axes.mmul(sharpness).mmul(axes.transpose());
  return Matrix.add(information, information.transpose()).mul(0.5);
}

/** A boat at random: parameters in prior standard deviations from the priors' means. */
export const drawBoat = ({ normal }: RandomNumbers): readonly number[] =>
  Array.from({ length: SIZE }, () => normal());

/** What the priors know, in their standard deviations (M190). */
const PRIOR_PRECISION = inverse(
  new Matrix(PARAMETER_NAMES.map((one) => PARAMETER_NAMES.map((other) => priorCorrelation(one, other)))),
);

/**
 * A fit of data with a given information (in prior standard deviations), of a boat whose parameters are known: what a
 * linear fit with normal errors would give.
 */
export function gaussianFit(
  boat: readonly number[],
  information: Matrix,
  { normal }: RandomNumbers,
): SolvedBoatFit {
  const covariance = inverse(Matrix.add(information, PRIOR_PRECISION));
  const root = new CholeskyDecomposition(information).lowerTriangularMatrix;
  const noise = root.mmul(Matrix.columnVector(Array.from({ length: SIZE }, normal)));
  const score = Matrix.add(information.mmul(Matrix.columnVector([...boat])), noise);
  const mean = covariance.mmul(score).to1DArray();
  const parameters = PARAMETER_NAMES.map((name, index) => {
    const { mean: priorMean, sd: priorSd } = priors[index]!;
    const variance = covariance.get(index, index);
    return {
      name,
      value: priorMean + mean[index]! * priorSd,
      sd: Math.sqrt(variance) * priorSd,
      priorMean,
      priorSd,
      informed: 1 - variance,
    };
  });
  return {
    status: "solved",
    settings: settingsOf(
      parameters.map(({ value }) => value),
      1,
    ),
    parameters,
    covariance: Float64Array.from(
      { length: SIZE ** 2 },
      (_, at) =>
        covariance.get(Math.floor(at / SIZE), at % SIZE) *
        priors[Math.floor(at / SIZE)]!.sd *
        priors[at % SIZE]!.sd,
    ),
    wander: {
      slowDirection: 0.0016,
      slowLogSpeed: 0.002,
      fastDirection: 0.07,
      fastLogSpeed: 0.08,
      fastSeconds: 25,
    },
    rows: 250,
    outliers: [],
    notes: [],
  };
}

/** The same boat with the day's own doubt about each parameter, given in prior standard deviations. */
export const onSomeDay = (
  boat: readonly number[],
  doubts: readonly number[],
  { normal }: RandomNumbers,
): readonly number[] => boat.map((value, index) => value + doubts[index]! * normal());

/** Probability of at most so many successes of n, each with probability p: the exact binomial sum. */
export function binomialAtMost(successes: number, n: number, p: number): number {
  let term = (1 - p) ** n;
  let sum = term;
  for (let k = 1; k <= successes; k++) {
    term *= ((n - k + 1) / k) * (p / (1 - p));
    sum += term;
  }
  return sum;
}
