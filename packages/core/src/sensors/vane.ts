import { wrapAngle } from "../angles.ts";
import type { MetresPerSecond, Radians } from "../units.ts";
import { increasingRoot } from "./increasingRoot.ts";
import type { VaneParameters } from "./parameters.ts";

/** Wind speed at which `upwash` is the whole amplitude: a moderate breeze (14.6 kn), the middle of what is sailed in. */
const MODERATE: MetresPerSecond = 7.5;
/** Maximum of sin a (1 + cos a)³, where cos a = 3/4: (√7 / 4) (7/4)³. */
const PEAK = (Math.sqrt(7) / 4) * (7 / 4) ** 3;
/** Steepest slopes of g(a): at a = 0, (1 + 1)³ / PEAK; and down again at cos a = 5/16, (21/16)³ (3 − 5/4) / PEAK. */
const STEEPEST_RISE = 8 / PEAK;
const STEEPEST_FALL = ((21 / 16) ** 3 * (3 - 5 / 4)) / PEAK;

/** M23. Amplitude of the close-hauled part: upwash + upwashSlope · 2 (v − v₀)/(v + v₀), rad. */
const amplitude = (speed: MetresPerSecond, parameters: VaneParameters): Radians =>
  parameters.upwash + (parameters.upwashSlope * 2 * (speed - MODERATE)) / (speed + MODERATE);

/**
 * M23. Upwash: how far the sails turn the air at the masthead away from the bow, so that a vane reads too wide;
 * amplitude(v) · g(a) + upwashBroad · sin a, where g(a) = sin a (1 + cos a)³ / its maximum: largest at 41.4°, opposite on
 * the other tack, small off the wind, zero ahead and astern. The shape is a choice that behaves well where nothing was
 * sailed; no published magnitude or shape supports it.
 *
 * @param angle indicated less the masthead offset, rad
 * @param speed anemometer speed after threshold and gain, m/s, not negative
 * @returns rad, to be taken off the angle. Never throws; NaN in, NaN out.
 * @example
 * const vane = { mastheadOffset: 0, upwash: radians(4), upwashSlope: 0, upwashBroad: 0 };
 * degrees(upwash(Math.acos(3 / 4), 7.5, vane)).toFixed(6) // "4.000000"
 */
export function upwash(angle: Radians, speed: MetresPerSecond, parameters: VaneParameters): Radians {
  const sine = Math.sin(angle);
  const lift = 1 + Math.cos(angle);
  return sine * ((amplitude(speed, parameters) * lift * lift * lift) / PEAK + parameters.upwashBroad);
}

/** M23. How fast upwash changes with the angle, rad/rad: g'(a) = (1 + cos a)³ (4 cos a − 3) / its maximum of g. */
function upwashSlope(angle: Radians, speed: MetresPerSecond, parameters: VaneParameters): number {
  const cosine = Math.cos(angle);
  const steepness = ((1 + cosine) ** 3 * (4 * cosine - 3)) / PEAK;
  return amplitude(speed, parameters) * steepness + parameters.upwashBroad * cosine;
}

/**
 * M23. Flow angle in the mast's own plane, free of offset and sails: with a = reading − mastheadOffset, a − upwash(a, speed).
 *
 * @param reading indicated apparent wind angle, rad
 * @param speed anemometer speed after threshold and gain, before speed-up, m/s
 * @returns rad, (−π, π]. Never throws; NaN in, NaN out.
 * @example
 * const vane = { mastheadOffset: radians(2), upwash: 0, upwashSlope: 0, upwashBroad: 0 };
 * degrees(flowAngleFromReading(radians(30), 8, vane)).toFixed(6) // "28.000000"
 */
export function flowAngleFromReading(
  reading: Radians,
  speed: MetresPerSecond,
  parameters: VaneParameters,
): Radians {
  const angle = wrapAngle(reading - parameters.mastheadOffset);
  return wrapAngle(angle - upwash(angle, speed, parameters));
}

/**
 * M23. What the vane shows in a flow: the inverse of `flowAngleFromReading`, by Newton's method. It exists where upwash
 * changes by less than a degree a degree: amplitudes below some 25°.
 *
 * @returns rad, (−π, π], exact to rounding; NaN where an argument is, or where upwash is so steep that several readings
 *   answer. Never throws.
 * @example
 * const vane = { mastheadOffset: radians(2), upwash: radians(4), upwashSlope: 0, upwashBroad: 0 };
 * degrees(flowAngleFromReading(vaneReadingOf(radians(28), 8, vane), 8, vane)).toFixed(6) // "28.000000"
 */
export function vaneReadingOf(
  flowAngle: Radians,
  speed: MetresPerSecond,
  parameters: VaneParameters,
): Radians {
  const size = amplitude(speed, parameters);
  const broad = Math.abs(parameters.upwashBroad);
  const steepest = size > 0 ? size * STEEPEST_RISE : -size * STEEPEST_FALL;
  if (!(steepest + broad < 1)) return Number.NaN;
  const wanted = wrapAngle(flowAngle);
  const most = Math.abs(size) + broad;
  const angle = increasingRoot(
    (reading) => reading - upwash(reading, speed, parameters) - wanted,
    (reading) => 1 - upwashSlope(reading, speed, parameters),
    wanted - most,
    wanted + most,
  );
  return wrapAngle(angle + parameters.mastheadOffset);
}
