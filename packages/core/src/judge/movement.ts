import { inverse, Matrix } from "ml-matrix";
import type { DifferenceEvidence } from "./difference.ts";

/** A set of parameters that are taken to have moved, all others not. */
export interface Explanation {
  readonly members: readonly number[];
  /** How much of the difference it explains: hᵀ Λ⁻¹ h of its members. */
  readonly chiSquare: number;
  /** Moves and their covariance, in scaled units. */
  readonly moves: readonly number[];
  readonly covariance: Matrix;
}

/** More sensors than this do not move at once; what they cannot explain is said. */
const MOST_MEMBERS = 4;

/** M81. The moves of some parameters, all others taken as unmoved: δ = Λ⁻¹ h, covariance Λ⁻¹, both of the members alone. */
export function explanation(
  { precision, score }: DifferenceEvidence,
  members: readonly number[],
): Explanation {
  const covariance = inverse(precision.selection([...members], [...members]));
  const part = Matrix.columnVector(members.map((index) => score.get(index, 0)));
  const moves = covariance.mmul(part).to1DArray();
  const chiSquare = members.reduce((sum, _, place) => sum + moves[place]! * part.get(place, 0), 0);
  return { members, chiSquare, moves, covariance };
}

/** How well an explanation does once moves count as the less likely the larger they are, by so many scales a standard deviation. */
function plausibility({ precision, score }: DifferenceEvidence, members: readonly number[]): number {
  const inner = precision.selection([...members], [...members]);
  const part = Matrix.columnVector(members.map((index) => score.get(index, 0)));
  const likely = inverse(Matrix.add(inner, Matrix.eye(members.length)));
  return part.transpose().mmul(likely).mmul(part).get(0, 0);
}

/** All sets of so many of some parameters. */
function subsets(from: readonly number[], size: number): readonly (readonly number[])[] {
  if (size === 0) return [[]];
  return from.flatMap((first, index) =>
    subsets(from.slice(index + 1), size - 1).map((rest) => [first, ...rest]),
  );
}

/** Sets whose members are nearly one and the same to the data say nothing of their own. */
const LEAST_OWN_SHARE = 0.02;

/** Smallest share of a member's precision that the other members leave. */
function ownShare({ precision }: DifferenceEvidence, { members, covariance }: Explanation): number {
  return Math.min(
    ...members.map((index, place) => 1 / (covariance.get(place, place) * precision.get(index, index))),
  );
}

/**
 * M81. The fewest moves that explain a difference: the most plausible set of each size, one member more as long as that explains a
 * further z² of the difference.
 *
 * @param candidates parameters that may have moved
 * @param limit z: standard deviations that a single move must exceed
 * @returns no members where nothing moved. Never throws.
 */
export function fewestMoves(
  evidence: DifferenceEvidence,
  candidates: readonly number[],
  limit: number,
): Explanation {
  let best: Explanation = { members: [], chiSquare: 0, moves: [], covariance: Matrix.zeros(0, 0) };
  for (let size = 1; size <= Math.min(MOST_MEMBERS, candidates.length); size++) {
    const found = likeliest(evidence, candidates, size);
    if (found === undefined || found.chiSquare - best.chiSquare <= limit ** 2) break;
    best = found;
  }
  return best;
}

function likeliest(
  evidence: DifferenceEvidence,
  candidates: readonly number[],
  size: number,
): Explanation | undefined {
  let found: Explanation | undefined;
  let most = Number.NEGATIVE_INFINITY;
  for (const members of subsets(candidates, size)) {
    const plausible = plausibility(evidence, members);
    if (plausible <= most) continue;
    const one = explanation(evidence, members);
    if (ownShare(evidence, one) < LEAST_OWN_SHARE) continue;
    [found, most] = [one, plausible];
  }
  return found;
}

/** Explanations that fall short of the best by less than this are as good: half of the 95 % point of χ² with one degree of freedom. */
const AS_GOOD = 3.84;

/** A move of more scales than this is no likely stand-in for another. */
const LARGEST_MOVE = 3;

/**
 * M81. What would explain the difference as well in a member's place: parameters that the data can hardly tell from it.
 *
 * @param place of the member within the explanation
 * @returns the best first, each with its own move and standard deviation in scaled units. Never throws.
 */
export function standIns(
  evidence: DifferenceEvidence,
  candidates: readonly number[],
  { members, chiSquare }: Explanation,
  place: number,
): readonly { readonly index: number; readonly move: number; readonly sd: number }[] {
  return candidates
    .filter((index) => !members.includes(index))
    .map((index) => ({ index, one: explanation(evidence, members.with(place, index)) }))
    .filter(({ one }) => chiSquare - one.chiSquare < AS_GOOD && Math.abs(one.moves[place]!) < LARGEST_MOVE)
    .sort((a, b) => b.one.chiSquare - a.one.chiSquare)
    .map(({ index, one }) => ({
      index,
      move: one.moves[place]!,
      sd: Math.sqrt(one.covariance.get(place, place)),
    }));
}
