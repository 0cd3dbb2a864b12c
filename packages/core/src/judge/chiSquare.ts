import { errorFunction } from "simple-statistics";

/**
 * M80. Probability that a χ² number of so many degrees of freedom exceeds x: the finite sums that the incomplete Γ function comes to at
 * whole and half numbers.
 *
 * @param x not negative
 * @param freedom a whole number; 0 leaves nothing to exceed
 * @returns [0, 1]; NaN where x is. Never throws.
 * @see M. Abramowitz and I. A. Stegun, 1964: Handbook of Mathematical Functions, 26.4.4 and 26.4.5
 */
export function chiSquareTail(x: number, freedom: number): number {
  if (Number.isNaN(x)) return Number.NaN;
  if (freedom === 0) return x > 0 ? 0 : 1;
  const odd = freedom % 2 === 1;
  let term = odd ? Math.sqrt((2 * x) / Math.PI) : 1;
  let sum = odd ? 0 : 1;
  for (let at = odd ? 1 : 2; at < freedom; at += 2) {
    if (!odd || at > 1) term *= x / at;
    sum += term;
  }
  const beyond = odd ? 1 - errorFunction(Math.sqrt(x / 2)) : 0;
  return Math.min(1, beyond + Math.exp(-x / 2) * sum);
}
