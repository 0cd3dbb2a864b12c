import type { ImpliedStates } from "./impliedState.ts";
import { meanOver, type ScalarEvidence, type SymmetryError } from "./scalarEvidence.ts";

/** A day's mean that ought to vanish, moved from the settings of the round to others by way of the nominal states. */
function movedMean(
  { groups, place }: ScalarEvidence,
  base: ImpliedStates,
  from: ImpliedStates,
  to: ImpliedStates,
): number {
  const sum = groups.reduce(
    (total, rows) =>
      total + meanOver(rows, base, place) + meanOver(rows, to, place) - meanOver(rows, from, place),
    0,
  );
  return sum / groups.length;
}

/**
 * M56. Means of several days made independent and of variance one: each has an error of its own day, and all share one.
 * With covariance day² I + shared² 1 1ᵀ its symmetric root's inverse takes from each mean the share c of their average,
 * c = 1 − 1/√(1 + n shared²/day²), and divides by the day's sd.
 *
 * @returns as many as there are means; their squares sum to the means' weighted square. Never throws.
 */
export function independentMeans(
  means: readonly number[],
  { day, shared }: SymmetryError,
): readonly number[] {
  const average = means.reduce((sum, mean) => sum + mean, 0) / means.length;
  const common = 1 - 1 / Math.sqrt(1 + (means.length * shared ** 2) / day ** 2);
  return means.map((mean) => (mean - common * average) / day);
}

/** Days' evidence of one kind, which share an error. */
const ofOneKind = (scalars: readonly ScalarEvidence[]): readonly (readonly ScalarEvidence[])[] =>
  [...new Set(scalars.map(({ name }) => name))].map((name) =>
    scalars.filter((scalar) => scalar.name === name),
  );

/**
 * M53, M56. The residuals of all means that ought to vanish, as many as there are scalars.
 *
 * @param base implied states of the round
 * @param from usual states at the settings of the round
 * @param to usual states at the settings asked for
 * Never throws.
 */
export const scalarResiduals = (
  scalars: readonly ScalarEvidence[],
  base: ImpliedStates,
  from: ImpliedStates,
  to: ImpliedStates,
): readonly number[] =>
  ofOneKind(scalars).flatMap((days) =>
    independentMeans(
      days.map((scalar) => movedMean(scalar, base, from, to)),
      days[0]!.error,
    ),
  );
