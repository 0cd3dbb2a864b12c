import type { MetresPerSecond, Radians } from "../units.ts";
import type { SpeedSensorParameters } from "./parameters.ts";

/**
 * Where both tacks' gains come together: with the mast upright under power, or where the indicated angle has no side.
 *
 * @example
 * speedGain(radians(40), { intercept: 0, gainStarboard: 1.25, gainPort: 0.75 }, UPRIGHT) // 1
 */
export const UPRIGHT = 1;

/**
 * M20. The gain of the tack sailed: hull flow and heel differ by side. Head to wind and dead downwind, where the
 * indicated angle has no side, the mean of both; upright under power likewise.
 *
 * @param awa indicated apparent wind angle, rad, (−π, π]; positive on starboard tack
 * @param together share of the way that the gains have come together (M29): 0 they are apart, UPRIGHT they are one
 * @returns NaN where the angle is. Never throws.
 * @example
 * speedGain(radians(-40), { intercept: 0, gainStarboard: 1.02, gainPort: 0.98 }) // 0.98
 */
export function speedGain(awa: Radians, parameters: SpeedSensorParameters, together = 0): number {
  const { gainStarboard, gainPort } = parameters;
  if (Number.isNaN(awa)) return Number.NaN;
  const sided = awa === 0 || awa >= Math.PI ? 0 : (1 - together) * Math.sign(awa);
  return (gainStarboard * (1 + sided) + gainPort * (1 - sided)) / 2;
}

/**
 * M20. Speed through the water along the boat: intercept + gain · reading, the gain being that of the tack.
 *
 * @param reading m/s
 * @param awa indicated apparent wind angle, which tells the tack
 * @param together a share, as to `speedGain`
 * @returns m/s; NaN at a reading of 0, which means "somewhere below what turns the wheel". Never throws.
 * @example
 * speedFromReading(4, radians(40), { intercept: 0.25, gainStarboard: 1.5, gainPort: 1 }) // 6.25
 */
export const speedFromReading = (
  reading: MetresPerSecond,
  awa: Radians,
  parameters: SpeedSensorParameters,
  together = 0,
): MetresPerSecond =>
  reading > 0 ? parameters.intercept + speedGain(awa, parameters, together) * reading : Number.NaN;

/**
 * M20. What the sensor shows at a speed: (speed − intercept) / gain; the inverse of `speedFromReading`.
 *
 * @param speed m/s
 * @param awa indicated apparent wind angle, which tells the tack
 * @param together a share, as to `speedGain`
 * @returns m/s; 0 where the flow does not turn the wheel; NaN where speed or angle is. Never throws.
 * @example
 * speedReadingOf(6.25, radians(40), { intercept: 0.25, gainStarboard: 1.5, gainPort: 1 }) // 4
 */
export const speedReadingOf = (
  speed: MetresPerSecond,
  awa: Radians,
  parameters: SpeedSensorParameters,
  together = 0,
): MetresPerSecond => Math.max(0, (speed - parameters.intercept) / speedGain(awa, parameters, together));
