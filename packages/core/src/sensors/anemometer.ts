import type { MetresPerSecond, Radians } from "../units.ts";
import type { AnemometerParameters } from "./parameters.ts";

/**
 * M24. Speed of the air at the cups: threshold + gain · reading, the sails' speed-up still in it.
 *
 * @param reading m/s
 * @returns m/s; NaN at a reading of 0, which means "somewhere below what turns the cups". Never throws.
 * @example
 * cupSpeedFromReading(8, { threshold: 0.5, gain: 1.25, speedUp: 0 }) // 10.5
 */
export const cupSpeedFromReading = (
  reading: MetresPerSecond,
  parameters: AnemometerParameters,
): MetresPerSecond => (reading > 0 ? parameters.threshold + parameters.gain * reading : Number.NaN);

/**
 * M24. The inverse of `cupSpeedFromReading`.
 *
 * @returns m/s; 0 where the cups stand still; NaN for NaN. Never throws.
 *
 * @example
 * anemometerReadingOf(10.5, { threshold: 0.5, gain: 1.25, speedUp: 0 }) // 8
 */
export const anemometerReadingOf = (
  cupSpeed: MetresPerSecond,
  parameters: AnemometerParameters,
): MetresPerSecond => Math.max(0, (cupSpeed - parameters.threshold) / parameters.gain);

/**
 * M24. Factor by which the air speeds up over the top of the sails: 1 + speedUp · sin²(flow angle / 2), most off the wind.
 * Never throws; NaN in, NaN out.
 *
 * @example
 * speedUpFactor(Math.PI, { threshold: 0, gain: 1, speedUp: 0.06 }) // 1.06
 */
export const speedUpFactor = (flowAngle: Radians, parameters: AnemometerParameters): number =>
  1 + parameters.speedUp * Math.sin(flowAngle / 2) ** 2;

/**
 * M24. Speed of the flow, free of sensor and sails: cup speed / speed-up. Never throws; NaN in, NaN out.
 *
 * @example
 * flowSpeed(10.6, Math.PI, { threshold: 0, gain: 1, speedUp: 0.06 }) // 10
 */
export const flowSpeed = (
  cupSpeed: MetresPerSecond,
  flowAngle: Radians,
  parameters: AnemometerParameters,
): MetresPerSecond => cupSpeed / speedUpFactor(flowAngle, parameters);

/**
 * M24. Speed at the cups in a flow: the inverse of `flowSpeed`. Never throws; NaN in, NaN out.
 *
 * @example
 * cupSpeed(10, Math.PI, { threshold: 0, gain: 1, speedUp: 0.06 }).toFixed(6) // "10.600000"
 */
export const cupSpeed = (
  flowSpeed: MetresPerSecond,
  flowAngle: Radians,
  parameters: AnemometerParameters,
): MetresPerSecond => flowSpeed * speedUpFactor(flowAngle, parameters);
