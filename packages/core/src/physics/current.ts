import { directionOf, eastOf, northOf, speedOf } from "./vectors.ts";
import type { Motion } from "./windTriangle.ts";

/** Sum of a motion and `sign` times another. */
function sum(one: Motion, sign: 1 | -1, other: Motion): Motion {
  const east = eastOf(one.direction, one.speed) + sign * eastOf(other.direction, other.speed);
  const north = northOf(one.direction, one.speed) + sign * northOf(other.direction, other.speed);
  return { direction: directionOf(east, north), speed: speedOf(east, north) };
}

/**
 * M14. The current, c = g − v: its set is the direction, toward which the water goes, its drift the speed.
 *
 * @param overGround motion over the ground, by GPS
 * @param throughWater motion through the water, leeway included
 * @returns direction NaN where the water stands still; NaN where anything is NaN. Never throws.
 * @example
 * const { direction, speed } = current({ direction: 0, speed: 5 }, { direction: 0, speed: 4 });
 * `sets ${degrees(direction)}°, ${speed} m/s` // "sets 0°, 1 m/s"
 */
export const current = (overGround: Motion, throughWater: Motion): Motion =>
  sum(overGround, -1, throughWater);

/**
 * M14. Motion over the ground, g = v + c: the inverse of `current`. Never throws; NaN as there.
 *
 * @example
 * motionOverGround({ direction: 0, speed: 4 }, { direction: radians(90), speed: 3 }).speed.toFixed(6) // "5.000000"
 */
export const motionOverGround = (throughWater: Motion, current: Motion): Motion =>
  sum(throughWater, 1, current);

/**
 * M14. Motion through the water where the current is known, v = g − c: what speed sensor and compass are checked against.
 * Never throws; NaN as in `current`.
 *
 * @example
 * motionLessCurrent({ direction: 0, speed: 5 }, { direction: 0, speed: 1 }) // { direction: 0, speed: 4 }
 */
export const motionLessCurrent = (overGround: Motion, current: Motion): Motion =>
  sum(overGround, -1, current);
