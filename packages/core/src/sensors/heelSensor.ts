import type { Radians } from "../units.ts";
import type { HeelSensorParameters } from "./parameters.ts";

/**
 * M22. Heel, positive to starboard: sign · reading − zero; installations differ in sign.
 * Never throws; NaN in, NaN out.
 *
 * @example
 * degrees(heelFromReading(radians(-18), { sign: -1, zero: radians(2) })).toFixed(6) // "16.000000"
 */
export const heelFromReading = (reading: Radians, parameters: HeelSensorParameters): Radians =>
  parameters.sign * reading - parameters.zero;

/**
 * M22. What the sensor shows at a heel: the inverse of `heelFromReading`. Never throws; NaN in, NaN out.
 *
 * @example
 * degrees(heelReadingOf(radians(16), { sign: -1, zero: radians(2) })).toFixed(6) // "-18.000000"
 */
export const heelReadingOf = (heel: Radians, parameters: HeelSensorParameters): Radians =>
  parameters.sign * (heel + parameters.zero);
