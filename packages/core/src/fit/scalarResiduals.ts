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
 * M56. Means of several days made independent and of variance one: each has an error of its own day, and all share one. Each day's
 * mean is set against what those before it say of the shared error.
 *
 * @param errors as many as there are means; of what is shared the first one's counts
 * @returns as many as there are means; their squares sum to the means' weighted square. Never throws.
 */
export function independentMeans(
  means: readonly number[],
  errors: readonly SymmetryError[],
): readonly number[] {
  let [common, variance] = [0, (errors[0]?.shared ?? 0) ** 2];
  return means.map((mean, day) => {
    const innovation = mean - common;
    const total = variance + errors[day]!.day ** 2;
    common += (variance / total) * innovation;
    variance *= 1 - variance / total;
    return innovation / Math.sqrt(total);
  });
}

/**
 * M53, M56. The residuals of all means that ought to vanish, or their slopes: linear in the means.
 *
 * @param means one a scalar, in the same order
 * @returns as many, those of one kind one after the other. Never throws.
 */
export const residualsOfMeans = (
  scalars: readonly ScalarEvidence[],
  means: readonly number[],
): readonly number[] =>
  [...new Set(scalars.map(({ name }) => name))].flatMap((kind) => {
    const days = [...scalars.keys()].filter((place) => scalars[place]!.name === kind);
    return independentMeans(
      days.map((place) => means[place]!),
      days.map((place) => scalars[place]!.error),
    );
  });

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
  residualsOfMeans(
    scalars,
    scalars.map((scalar) => movedMean(scalar, base, from, to)),
  );
