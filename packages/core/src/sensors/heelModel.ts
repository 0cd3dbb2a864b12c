import type { MetresPerSecond, Radians } from "../units.ts";
import type { HeelModelParameters } from "./parameters.ts";

/** Apparent wind speed at which a close-hauled boat reaches about half its full heel; a choice of scale, not a fact. */
const HALF_HEEL_SPEED: MetresPerSecond = 10;

/**
 * M25. Heel of a boat under sail that has no heel sensor, from the indicated apparent wind:
 * heel = −sign(a) · fullHeel · q / (1 + q), q = (speed / 10 m/s)² cos²(a / 2). A stand-in with a wide prior on
 * `fullHeel`, never a measurement.
 *
 * @param angle indicated apparent wind angle, rad, (−π, π]
 * @param speed indicated apparent wind speed, m/s
 * @returns heel, rad, positive to starboard; NaN where either is NaN. Never throws.
 * @example
 * // at 10 m/s from ahead half of the full heel, away from the wind
 * modelledHeel(1e-9, 10, { fullHeel: 0.5 }).toFixed(6) // "-0.250000"
 */
export function modelledHeel(
  angle: Radians,
  speed: MetresPerSecond,
  parameters: HeelModelParameters,
): Radians {
  const q = (speed / HALF_HEEL_SPEED) ** 2 * Math.cos(angle / 2) ** 2;
  return (-Math.sign(angle) * parameters.fullHeel * q) / (1 + q);
}
