import { knots, type MetresPerSecond, metresPerSecond, type Radians, radians } from "../units.ts";

/**
 * M74. An invented boat, some 11 m long: how fast she sails, how high and low, how far she heels. Smooth formulas of no
 * boat in particular, in the true wind at the height of her sails. None of these throws; NaN in, NaN out.
 */

/** Closest that she moves to the wind, and by how much further off she has most of her drive. */
const NO_DRIVE: Radians = radians(18);
const FULL_DRIVE: Radians = radians(16);
/** Past this the wind comes too much from behind. */
const BEHIND: Radians = radians(105);
/** What she makes at most, and the wind in which she makes most of it. */
const MOST_SPEED: MetresPerSecond = metresPerSecond(9);
const STRONG_WIND: MetresPerSecond = 3.6;

/** Speed through the water at a true wind speed and angle. */
export function polarSpeed(windSpeed: MetresPerSecond, windAngle: Radians): MetresPerSecond {
  const angle = Math.abs(windAngle);
  const drive = 1 - Math.exp(-(Math.max(0, (angle - NO_DRIVE) / FULL_DRIVE) ** 1.3));
  const behind = 1 - 0.25 * Math.max(0, (angle - BEHIND) / (Math.PI - BEHIND)) ** 1.5;
  const ease = 1 - Math.exp(-windSpeed / STRONG_WIND) * (1 + 0.3 * Math.max(0, Math.cos(angle)));
  return MOST_SPEED * drive * behind * Math.max(0, ease);
}

/** True wind angle that she sails to windward: 45° in light air, 40° in a breeze. */
export const beatAngle = (windSpeed: MetresPerSecond): Radians =>
  radians(40 + 5 * Math.exp(-Math.max(0, knots(windSpeed) - 5) / 6));

/** True wind angle that she sails downwind: 138° in light air, towards 168° in a breeze. */
export const runAngle = (windSpeed: MetresPerSecond): Radians =>
  radians(138 + 30 * (1 - Math.exp(-Math.max(0, knots(windSpeed) - 5) / 9)));

/** Most that she heels before she is reefed or eased, and the apparent wind that makes her do so close-hauled. */
const MOST_HEEL: Radians = radians(26);
const HEELING_WIND: MetresPerSecond = 7.1;
/** Closer to the apparent wind than this her sails shake more and more. */
const SAILS_FILL: Radians = radians(20);

/** Heel in an apparent wind at the sails, positive to starboard: away from the wind, less so off it. */
export function steadyHeel(angle: Radians, speed: MetresPerSecond): Radians {
  const filled = 1 - Math.exp(-((angle / SAILS_FILL) ** 2));
  const pull = (filled * Math.sqrt(Math.abs(Math.sin(angle))) * (1 + Math.cos(angle))) / 2;
  return -Math.sign(angle) * MOST_HEEL * Math.tanh((speed / HEELING_WIND) ** 2 * pull);
}
