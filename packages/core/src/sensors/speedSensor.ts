import type { MetresPerSecond, Radians } from "../units.ts";
import type { SpeedSensorParameters } from "./parameters.ts";

/**
 * M20. The gain of the tack sailed: hull flow and heel differ by side. Head to wind and dead downwind, where the
 * indicated angle has no side, the mean of both.
 *
 * @param awa indicated apparent wind angle, rad, (−π, π]; positive on starboard tack
 * @returns NaN where the angle is. Never throws.
 */
export const speedGain = (awa: Radians, parameters: SpeedSensorParameters): number =>
  awa > 0 && awa < Math.PI
    ? parameters.gainStarboard
    : awa < 0
      ? parameters.gainPort
      : awa === 0 || awa >= Math.PI
        ? (parameters.gainStarboard + parameters.gainPort) / 2
        : Number.NaN;

/**
 * M20. Speed through the water along the boat: intercept + gain · reading, the gain being that of the tack.
 *
 * @param reading m/s
 * @param awa indicated apparent wind angle, which tells the tack
 * @returns m/s; NaN at a reading of 0, which means "somewhere below what turns the wheel". Never throws.
 */
export const speedFromReading = (
  reading: MetresPerSecond,
  awa: Radians,
  parameters: SpeedSensorParameters,
): MetresPerSecond =>
  reading > 0 ? parameters.intercept + speedGain(awa, parameters) * reading : Number.NaN;

/**
 * M20. What the sensor shows at a speed: (speed − intercept) / gain; the inverse of `speedFromReading`.
 *
 * @returns m/s; 0 where the flow does not turn the wheel; NaN where speed or angle is. Never throws.
 */
export const speedReadingOf = (
  speed: MetresPerSecond,
  awa: Radians,
  parameters: SpeedSensorParameters,
): MetresPerSecond => Math.max(0, (speed - parameters.intercept) / speedGain(awa, parameters));
