import { EigenvalueDecomposition, inverse, Matrix } from "ml-matrix";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import { errorCovariance } from "../fit/doubtOfPriors.ts";
import type { ParameterName } from "../sensors/parameterNames.ts";

/** A parameter of a group that the data can hardly tell apart; SI and radians. */
export interface GroupMember {
  readonly name: ParameterName;
  /** Standard deviation as it is, and what it would be were the group's other members known. */
  readonly sd: number;
  /** Its standard deviation if the others were known, in the unit of the parameter, SI and radians. */
  readonly sdIfOthersKnown: number;
  /** Part in the sum that is known best, a ratio: that of the first member is 1. */
  readonly weight: number;
}

/** Parameters that move together: the data know a sum of them, and hardly any of them alone. */
export interface ConfoundedGroup {
  readonly members: readonly GroupMember[];
  /** Standard deviation of Σ weight · parameter, in the unit of the first member. */
  readonly sdOfSum: number;
}

/** Parameters with their covariance: a fit's, or that of moves. */
type Covaried = Pick<SolvedBoatFit, "parameters" | "covariance">;

/** A direction known to this share of what boats differ by, or better, hides nothing. */
const KNOWN = 0.4;

/** A parameter takes part in a direction from this share of its square on. */
const TAKES_PART = 0.1;

/** Members lose at least this factor of their standard deviation once the others are known: a multiple correlation of 0.8. */
const GAINED = 0.6;

/** Sharpest direction of a group's covariance, in prior scales. */
function knownBest(covariance: Matrix): { readonly axis: readonly number[]; readonly sd: number } {
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(covariance, {
    assumeSymmetric: true,
  });
  const least = realEigenvalues.indexOf(Math.min(...realEigenvalues));
  return {
    axis: eigenvectorMatrix.getColumn(least),
    sd: Math.sqrt(Math.max(0, realEigenvalues[least]!)),
  };
}

/** What each keeps of its standard deviation once the others are known. */
function keptShares(covariance: Matrix): readonly number[] {
  const precision = inverse(covariance);
  return covariance
    .diagonal()
    .map((variance, index) => 1 / Math.sqrt(variance * precision.get(index, index)));
}

/** Members that gain from each other, the one that gains least dropped until all do. */
function gaining(scaled: Matrix, members: readonly number[]): readonly number[] {
  if (members.length < 2) return [];
  const kept = keptShares(scaled.selection([...members], [...members]));
  const most = Math.max(...kept);
  return most <= GAINED ? members : gaining(scaled, members.toSpliced(kept.indexOf(most), 1));
}

function groupOf({ parameters }: Covaried, scaled: Matrix, members: readonly number[]): ConfoundedGroup {
  const covariance = scaled.selection([...members], [...members]);
  const kept = keptShares(covariance);
  const { axis, sd } = knownBest(covariance);
  const scaleOf = (place: number): number => parameters[members[place]!]!.priorSd;
  const first = axis[0]! / scaleOf(0);
  return {
    members: members.map((index, place) => ({
      name: parameters[index]!.name,
      sd: parameters[index]!.sd,
      sdIfOthersKnown: parameters[index]!.sd * kept[place]!,
      weight: axis[place]! / scaleOf(place) / first,
    })),
    sdOfSum: sd / Math.abs(first),
  };
}

/**
 * M82. What a fit can hardly tell apart, its priors in doubt too (M184), as `confoundedGroups`. Never throws.
 *
 * @example
 * Array.isArray(confoundedIn(fit)) // true
 */
export const confoundedIn = ({ parameters, covariance }: SolvedBoatFit): readonly ConfoundedGroup[] =>
  confoundedGroups({ parameters, covariance: errorCovariance({ parameters, covariance }) });

/**
 * M82. The groups of parameters that can hardly be told apart: eigenvectors of the posterior covariance in prior scales that are known
 * to no better than 0.4 of a prior standard deviation, each with the parameters that take part in it, as far as each would be known
 * much better were the others known.
 *
 * @returns the least known first; no parameter is in two groups. Never throws.
 * @example
 * Array.isArray(confoundedGroups(fit)) // true
 */
export function confoundedGroups(fit: Covaried): readonly ConfoundedGroup[] {
  const { parameters, covariance } = fit;
  const size = parameters.length;
  const scaled = Matrix.from1DArray(size, size, covariance);
  scaled.apply((row, column) => {
    scaled.set(
      row,
      column,
      scaled.get(row, column) / (parameters[row]!.priorSd * parameters[column]!.priorSd),
    );
  });
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(scaled, {
    assumeSymmetric: true,
  });
  const loose = [...realEigenvalues.keys()]
    .filter((index) => realEigenvalues[index]! > KNOWN ** 2)
    .sort((a, b) => realEigenvalues[b]! - realEigenvalues[a]!);
  const taken = new Set<number>();
  return loose.flatMap((at) => {
    const part = [...eigenvectorMatrix.getColumn(at).keys()].filter(
      (index) => eigenvectorMatrix.get(index, at) ** 2 >= TAKES_PART && !taken.has(index),
    );
    const members = gaining(scaled, part);
    for (const member of members) taken.add(member);
    return members.length > 0 ? [groupOf(fit, scaled, members)] : [];
  });
}
