import { EigenvalueDecomposition, inverse, Matrix } from "ml-matrix";
import { chiSquareTail } from "./chiSquare.ts";
import type { DataInformation } from "./dataInformation.ts";

/** What two fits say of the difference between their parameters: precision Λ and score h, in scaled units. */
export interface DifferenceEvidence {
  readonly precision: Matrix;
  readonly score: Matrix;
}

/** χ² of a difference, its degrees of freedom, and the probability of more where nothing moved. */
export interface JointTest {
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly probability: number;
}

/** The prior of what both share, so many times wider than a fit's: a boat that is none of the usual raises no alarm by that. */
const WIDER = 2;

/** A move that the data tell to no better than so many scales (prior standard deviations) is not told. */
export const TOLD = 1;

/**
 * M64. What the data of two fits say of δ, second less first: with the parameters in the middle between the two unknown but
 * for a prior of precision N, Λ = (J₁ + J₂) / 4 − D S⁻¹ D and h = (z₂ − z₁) / 2 − D S⁻¹ (z₁ + z₂), where
 * D = (J₂ − J₁) / 2 and S = N + J₁ + J₂. Where both tell all, Λ⁻¹ is J₁⁻¹ + J₂⁻¹. Never throws.
 */
export function differenceEvidence(first: DataInformation, second: DataInformation): DifferenceEvidence {
  const size = first.information.rows;
  const sum = Matrix.add(first.information, second.information);
  const half = Matrix.sub(second.information, first.information).mul(0.5);
  const middle = half.mmul(inverse(Matrix.add(sum, Matrix.eye(size, size, 1 / WIDER ** 2))));
  return {
    precision: Matrix.sub(Matrix.mul(sum, 0.25), middle.mmul(half)),
    score: Matrix.sub(
      Matrix.sub(second.score, first.score).mul(0.5),
      middle.mmul(Matrix.add(first.score, second.score)),
    ),
  };
}

/**
 * M80. χ² = Σ (vᵀ h)² / λ over the directions v of Λ in which a move is told, λ > 1 / TOLD².
 *
 * @param taken moves that were already taken out, each a degree of freedom less
 * Never throws.
 */
export function jointTest({ precision, score }: DifferenceEvidence, taken: number): JointTest {
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(precision, {
    assumeSymmetric: true,
  });
  const along = eigenvectorMatrix.transpose().mmul(score);
  const told = realEigenvalues.flatMap((value, index) => (value > 1 / TOLD ** 2 ? [index] : []));
  const chiSquare = told.reduce((total, at) => total + along.get(at, 0) ** 2 / realEigenvalues[at]!, 0);
  const degreesOfFreedom = Math.max(0, told.length - taken);
  return { chiSquare, degreesOfFreedom, probability: chiSquareTail(chiSquare, degreesOfFreedom) };
}

/** The evidence with some moves taken out. Never throws. */
export function lessMoves(
  { precision, score }: DifferenceEvidence,
  members: readonly number[],
  moves: readonly number[],
): DifferenceEvidence {
  const moved = Matrix.zeros(score.rows, 1);
  members.forEach((index, place) => {
    moved.set(index, 0, moves[place]!);
  });
  return { precision, score: Matrix.sub(score, precision.mmul(moved)) };
}

/** A hold of so many scales on each move, only that a matrix that leaves directions untold can be inverted. */
const HARDLY_HELD = 10;

/** M64. Covariance of the moves where each is as likely as a boat's own parameter, in scaled units: (Λ + 1)⁻¹. Never throws. */
export const likelyMoves = ({ precision }: DifferenceEvidence): Matrix =>
  inverse(Matrix.add(precision, Matrix.eye(precision.rows)));

/**
 * M64. Each parameter's move with all others free to move as well, and its standard deviation, in scaled units: Λ⁻¹ h and the
 * diagonal of Λ⁻¹. Never throws.
 */
export function freeMoves({ precision, score }: DifferenceEvidence): {
  readonly moves: readonly number[];
  readonly sds: readonly number[];
} {
  const size = precision.rows;
  const covariance = inverse(Matrix.add(precision, Matrix.eye(size, size, 1 / HARDLY_HELD ** 2)));
  return {
    moves: covariance.mmul(score).to1DArray(),
    sds: covariance.diagonal().map((variance) => Math.sqrt(variance)),
  };
}
