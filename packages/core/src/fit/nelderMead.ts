/** A point and the value there. */
interface Vertex {
  readonly at: readonly number[];
  readonly value: number;
}

/** Rounds after which the search stops where it is; two dimensions take some 60. */
const MOST_ROUNDS = 400;

/**
 * M45. A point where a function of few variables is smallest, by the simplex of Nelder and Mead with its usual
 * reflections (1), expansion (2), contraction and shrinking (1/2). Deterministic; finds a minimum near its start.
 *
 * @param value may be Infinity where the point is not allowed
 * @param start a point that is allowed
 * @param reach size of the first simplex along each axis
 * @param within stops when the simplex is smaller than this along every axis
 * Never throws by itself.
 * @see J. A. Nelder and R. Mead, 1965: A simplex method for function minimization, Computer Journal 7, 308-313
 */
export function lowestPoint(
  value: (at: readonly number[]) => number,
  start: readonly number[],
  reach: number,
  within: number,
): Vertex {
  const vertex = (at: readonly number[]): Vertex => ({ at, value: value(at) });
  let simplex = [vertex(start), ...start.map((_, axis) => vertex(start.with(axis, start[axis]! + reach)))];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    simplex.sort((a, b) => a.value - b.value);
    const best = simplex[0]!;
    if (simplex.every(({ at }) => at.every((x, axis) => Math.abs(x - best.at[axis]!) <= within))) break;
    const worst = simplex.at(-1)!;
    const others = simplex.slice(0, -1);
    const centre = start.map((_, axis) => others.reduce((sum, { at }) => sum + at[axis]!, 0) / others.length);
    const along = (share: number): Vertex =>
      vertex(centre.map((middle, axis) => middle + share * (middle - worst.at[axis]!)));
    const better = betterVertex(along, best, others.at(-1)!, worst);
    simplex = better
      ? [...others, better]
      : [best, ...simplex.slice(1).map(({ at }) => vertex(at.map((x, axis) => (x + best.at[axis]!) / 2)))];
  }
  return simplex.reduce((lowest, one) => (one.value < lowest.value ? one : lowest));
}

/** What replaces the worst vertex, or nothing if the simplex has to shrink. */
function betterVertex(
  along: (share: number) => Vertex,
  best: Vertex,
  nextToWorst: Vertex,
  worst: Vertex,
): Vertex | undefined {
  const reflected = along(1);
  if (reflected.value < best.value) {
    const expanded = along(2);
    return expanded.value < reflected.value ? expanded : reflected;
  }
  if (reflected.value < nextToWorst.value) return reflected;
  const contracted = along(reflected.value < worst.value ? 0.5 : -0.5);
  return contracted.value < Math.min(reflected.value, worst.value) ? contracted : undefined;
}
