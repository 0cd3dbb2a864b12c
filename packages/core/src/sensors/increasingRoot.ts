/** Newton's method doubles the digits a step, halving adds one of base 2; this many of both are never needed. */
const STEPS = 200;
/** Steps smaller than this, in radians, no longer change an angle. */
const SETTLED = 4e-16;

/**
 * The angle at which an increasing function is 0, by Newton's method, kept between bounds by halving where a step would
 * leave them.
 *
 * @param value of the function, continuous and increasing
 * @param slope its derivative, positive
 * @param low a place where it is not positive
 * @param high a place where it is not negative
 * @returns rad, exact to rounding; NaN where a bound or the function is. Never throws.
 */
export function increasingRoot(
  value: (angle: number) => number,
  slope: (angle: number) => number,
  low: number,
  high: number,
): number {
  let [below, above] = [low, high];
  let angle = (low + high) / 2;
  for (let step = 0; step < STEPS; step++) {
    const miss = value(angle);
    if (miss > 0) above = angle;
    else below = angle;
    const newton = angle - miss / slope(angle);
    if (!(Math.abs(newton - angle) > SETTLED)) return newton;
    angle = newton > below && newton < above ? newton : (below + above) / 2;
  }
  return angle;
}
