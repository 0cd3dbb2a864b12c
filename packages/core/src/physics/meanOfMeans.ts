/**
 * M18. Binomial weights 1, n − 1, (n − 1)(n − 2)/2 … 1 over their sum 2ⁿ⁻¹: what is left of each number after averaging
 * neighbours, and those averages again, down to one number.
 *
 * @param count how many numbers there are
 * @throws RangeError where the count is no whole number from 1 to 50
 * @example
 * binomialWeights(4) // [1 / 8, 3 / 8, 3 / 8, 1 / 8]
 */
export function binomialWeights(count: number): readonly number[] {
  if (!(Number.isInteger(count) && count >= 1 && count <= 50))
    throw new RangeError(`binomialWeights: count must be a whole number from 1 to 50, got ${count}`);
  let weight = 2 ** (1 - count);
  return Array.from({ length: count }, (_, index) => {
    const own = weight;
    weight = (weight * (count - 1 - index)) / (index + 1);
    return own;
  });
}

/**
 * M18. Mean of means: the speed through the water from speeds over the ground of runs that go there and back in turn, each run
 * at its sign-less speed. It takes out a current along the course that changes as a polynomial of degree n − 2, where the
 * runs last equally long and follow each other at equal intervals.
 *
 * @param speeds one a run, in the order of the runs, in any one unit
 * @returns in that unit; NaN where a speed is
 * @throws RangeError where there are fewer than two runs, which no current can be taken out of, or more than 50
 * @see E. C. Tupper, Introduction to Naval Architecture, the measured mile; International Towing Tank Conference,
 *   procedure 7.5-04-01-01.1, appendix H
 * @example
 * // International Towing Tank Conference, procedure 7.5-04-01-01.1, appendix H
 * meanOfMeans([10, 12.6, 12.6, 11]).toFixed(3) // "12.075"
 */
export function meanOfMeans(speeds: ArrayLike<number>): number {
  if (speeds.length < 2)
    throw new RangeError(`meanOfMeans: needs two runs at least, there and back, got ${speeds.length}`);
  return binomialWeights(speeds.length).reduce((sum, weight, run) => sum + weight * speeds[run]!, 0);
}
