/**
 * Half normal consistency: 1 / Φ⁻¹(3/4), so that the median absolute deviation of normal errors gives their sd.
 *
 * @example
 * (1 / MEDIAN_DEVIATION_FACTOR).toFixed(4) // "0.6745"
 */
export const MEDIAN_DEVIATION_FACTOR = 1.482602218505602;

/**
 * Where Huber's weight begins to fall: 95 % efficiency with normal errors.
 *
 * @example
 * huberWeight(HUBER_BEND) // 1
 */
export const HUBER_BEND = 1.345;

/**
 * Where Tukey's bisquare weight reaches 0: 95 % efficiency with normal errors.
 *
 * @example
 * bisquareWeight(BISQUARE_REACH) // 0
 */
export const BISQUARE_REACH = 4.685;

/**
 * M43. Huber's weight of a standardised residual: min(1, k / |r|).
 *
 * @param residual r, over its standard deviation: no unit
 * @param bend k, in the unit of the residual
 * @returns in (0, 1]; NaN for NaN. Never throws.
 * @see P. J. Huber, 1981: Robust Statistics, section 7.8
 * @example
 * huberWeight(4, 1) // 0.25
 */
export const huberWeight = (residual: number, bend: number = HUBER_BEND): number =>
  Math.abs(residual) <= bend ? 1 : bend / Math.abs(residual);

/**
 * M43. Tukey's bisquare weight of a standardised residual: (1 − (r / c)²)², 0 from |r| = c on.
 *
 * @param residual r, over its standard deviation: no unit
 * @param reach c, in the unit of the residual
 * @returns in [0, 1]; NaN for NaN. Never throws.
 * @see A. E. Beaton and J. W. Tukey, 1974: The fitting of power series, Technometrics 16, 147-185
 * @example
 * bisquareWeight(1, 2) // 0.5625
 */
export const bisquareWeight = (residual: number, reach: number = BISQUARE_REACH): number =>
  Math.abs(residual) >= reach ? 0 : (1 - (residual / reach) ** 2) ** 2;

/**
 * M43. Weight of a standardised residual whose law is Student's t: (ν + 1) / (ν + r²), here divided through by ν.
 *
 * @param residual r, over its standard deviation: no unit
 * @param degreesOfFreedom ν, a number without unit, positive; Infinity gives 1
 * @returns in (0, (ν + 1) / ν]; NaN for NaN. Never throws.
 * @see K. L. Lange, R. J. A. Little and J. M. G. Taylor, 1989: Robust statistical modeling using the t distribution,
 *   Journal of the American Statistical Association 84, 881-896
 * @example
 * studentWeight(0, 4) // 5 / 4
 */
export const studentWeight = (residual: number, degreesOfFreedom: number): number =>
  (1 + 1 / degreesOfFreedom) / (1 + residual ** 2 / degreesOfFreedom);
