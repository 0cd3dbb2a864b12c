/**
 * Numbers from 0 to 1, the same in every run: a linear congruential generator, good enough to fill fields.
 *
 * @see W. H. Press and others, 1992, Numerical Recipes, section 7.1 (from memory; nothing is judged by them)
 */
export function uniform(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
