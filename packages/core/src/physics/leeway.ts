import { type MetresPerSecond, metresPerSecond, type Radians, radians } from "../units.ts";
import { directionOf, speedOf } from "./vectors.ts";
import type { Motion } from "./windTriangle.ts";

/**
 * Below this speed leeway no longer grows: a boat nearly stopped drifts, and the law, ever larger, says nothing.
 *
 * @example
 * knots(LEEWAY_SPEED_FLOOR).toFixed(6) // "3.000000"
 */
export const LEEWAY_SPEED_FLOOR: MetresPerSecond = metresPerSecond(3);

/**
 * The most that the law may say: 20° is the upper end of what is quoted for shallow keels (references.md).
 *
 * @example
 * degrees(LEEWAY_LIMIT).toFixed(6) // "20.000000"
 */
export const LEEWAY_LIMIT: Radians = radians(20);

/**
 * M12. Leeway: coefficient · heel / speed², the side force of the keel balancing that of the sails. The speed counts as
 * at least 3 kn and the angle as at most 20°. It holds for a displacement hull with a fixed keel under sail; not for
 * rotating masts, canting keels, foils and multihulls, and a boat under power makes none.
 *
 * @param heel rad, positive to starboard
 * @param speed along the boat, through the water, m/s
 * @param coefficient m²/s² (rad of leeway a rad of heel, times speed squared); 0 declares that there is no leeway
 * @returns rad, positive to starboard: course through the water = heading + leeway; 0 where the coefficient is 0, else
 *   NaN where heel or speed is. Never throws.
 * @see R. Garrett, 1987: The Symmetry of Sailing, section 3.5.3; P. van Oossanen, 1993: Predicting the Speed of
 *   Sailing Yachts, SNAME Transactions 101
 * @example
 * // 8 deg·kn² a degree of heel (Ocean Navigator 45): at 20° and 6 kn 8 · 20/6²
 * degrees(leewayAngle(radians(20), metresPerSecond(6), 8 * metresPerSecond(1) ** 2)).toFixed(2) // "4.44"
 */
export function leewayAngle(heel: Radians, speed: MetresPerSecond, coefficient: number): Radians {
  if (coefficient === 0) return 0;
  const law = (coefficient * heel) / Math.max(speed, LEEWAY_SPEED_FLOOR) ** 2;
  return Math.min(LEEWAY_LIMIT, Math.max(-LEEWAY_LIMIT, law));
}

/**
 * M12. The coefficient that a leeway observed at some heel and speed shows: leeway · speed² / heel.
 *
 * @returns m²/s²; NaN where anything is NaN or the boat is upright, which shows nothing. Never throws.
 * @example
 * // van Oossanen 1993: 2.33° at 13.5° of heel and 7.58 kn
 * (leewayCoefficient(radians(2.33), radians(13.5), metresPerSecond(7.58)) / metresPerSecond(1) ** 2).toFixed(1) // "9.9"
 */
export const leewayCoefficient = (leeway: Radians, heel: Radians, speed: MetresPerSecond): number =>
  heel === 0 ? Number.NaN : (leeway * Math.max(speed, LEEWAY_SPEED_FLOOR) ** 2) / heel;

/**
 * M12. The boat's motion through the water: a paddle wheel measures the component along the boat; athwart it makes
 * speedAhead · tan(leeway), so that the course is heading + leeway.
 *
 * @param speedAhead along the boat, m/s; negative going astern
 * @returns direction in [0, 2π), NaN at rest; NaN where anything is NaN. Never throws.
 * @example
 * const { direction, speed } = motionThroughWater(radians(90), 4, Math.atan(3 / 4));
 * `${degrees(direction).toFixed(1)}°, ${speed.toFixed(1)} m/s` // "126.9°, 5.0 m/s"
 */
export function motionThroughWater(heading: Radians, speedAhead: MetresPerSecond, leeway: Radians): Motion {
  const athwart = speedAhead * Math.tan(leeway);
  const east = speedAhead * Math.sin(heading) + athwart * Math.cos(heading);
  const north = speedAhead * Math.cos(heading) - athwart * Math.sin(heading);
  return { direction: directionOf(east, north), speed: speedOf(east, north) };
}
