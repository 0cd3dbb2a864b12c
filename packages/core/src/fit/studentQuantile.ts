import { increasingRoot } from "../sensors/increasingRoot.ts";

/**
 * M120. Probability that a number of Student's distribution lies within ±t: with θ = arctan(t / √ν), the finite sums of cosines that it
 * comes to at whole degrees of freedom.
 *
 * @see M. Abramowitz and I. A. Stegun, 1964: Handbook of Mathematical Functions, 26.7.3 and 26.7.4
 */
function within(theta: number, freedom: number): number {
  const [sine, cosine] = [Math.sin(theta), Math.cos(theta)];
  const odd = freedom % 2 === 1;
  let term = odd ? cosine : 1;
  let sum = freedom === 1 ? 0 : term;
  for (let power = odd ? 3 : 2; power <= freedom - 2; power += 2) {
    term *= (cosine * cosine * (power - 1)) / power;
    sum += term;
  }
  return odd ? (2 / Math.PI) * (theta + sine * sum) : sine * sum;
}

/** M120. How fast that probability grows with θ: twice the density of t, times √ν / cos² θ; in proportion to cosᵛ⁻¹ θ. */
function slope(theta: number, freedom: number): number {
  let scale = freedom % 2 === 1 ? 2 / Math.PI : 1;
  for (let at = freedom % 2 === 1 ? 3 : 4; at <= freedom; at += 2) scale *= (at - 1) / (at - 2);
  return scale * Math.cos(theta) ** (freedom - 1);
}

/**
 * M120. Half the width of the interval that holds a number of Student's distribution with a probability, in standard deviations.
 *
 * @param freedom degrees of freedom, a whole number from 1
 * @param probability between 0 and 1, 0.95 by default
 * @returns 12.7 at one degree of freedom, 1.96 at very many
 * @throws RangeError where an argument is out of range
 */
export function studentQuantile(freedom: number, probability = 0.95): number {
  if (!(Number.isInteger(freedom) && freedom >= 1))
    throw new RangeError(`studentQuantile: freedom must be a whole number from 1, got ${freedom}`);
  if (!(probability > 0 && probability < 1))
    throw new RangeError(`studentQuantile: probability must lie between 0 and 1, got ${probability}`);
  const theta = increasingRoot(
    (angle) => within(angle, freedom) - probability,
    (angle) => slope(angle, freedom),
    0,
    Math.PI / 2,
  );
  return Math.sqrt(freedom) * Math.tan(theta);
}
