import { wrapAngle } from "../angles.ts";
import type { MetresPerSecond, Radians } from "../units.ts";
import { directionOf, eastOf, northOf, speedOf } from "./vectors.ts";

/** Wind felt on the moving boat: angle to the bow, positive to starboard, (−π, π]; in the level frame. */
export interface ApparentWind {
  readonly angle: Radians;
  readonly speed: MetresPerSecond;
}

/** Wind over the water or over the ground: where it comes from, clockwise from north, [0, 2π). */
export interface Wind {
  readonly direction: Radians;
  readonly speed: MetresPerSecond;
}

/** The boat's motion through the water or over the ground: where it goes, clockwise from north, [0, 2π). */
export interface Motion {
  readonly direction: Radians;
  readonly speed: MetresPerSecond;
}

function demandNotNegative(caller: string, argument: string, speed: MetresPerSecond): void {
  if (speed < 0)
    throw new RangeError(`${caller}: the speed of ${argument} must not be negative, got ${speed} m/s`);
}

function windOf(caller: string, apparent: ApparentWind, heading: Radians, motion: Motion): Wind {
  demandNotNegative(caller, "the apparent wind", apparent.speed);
  demandNotNegative(caller, "the motion", motion.speed);
  const from = heading + apparent.angle;
  const east = eastOf(from, apparent.speed) - eastOf(motion.direction, motion.speed);
  const north = northOf(from, apparent.speed) - northOf(motion.direction, motion.speed);
  return { direction: directionOf(east, north), speed: speedOf(east, north) };
}

/**
 * M10. The wind over the water, which sails and polars see: apparent wind less the boat's motion through the water,
 * w = a − v with all vectors pointing to where the wind comes from and where the boat goes.
 *
 * @param apparent in the level frame, free of the sensors' faults
 * @param heading rad, from the north that the answer shall count from
 * @param throughWater motion through the water, leeway included (see `motionThroughWater`)
 * @returns direction NaN in a calm; NaN where anything is NaN (a speed of 0 needs no direction)
 * @throws RangeError where a speed is negative
 * @see S. R. Smith, M. A. Bourassa, R. J. Sharp, 1999: Establishing More Truth in True Winds, J. Atmos. Oceanic
 *   Technol. 16, 939–952
 * @example
 * // a boat at 3 m/s on 270° feels 4 m/s from abeam to starboard: the set of the Florida State University, record 9
 * const { direction, speed } = windOverWater({ angle: radians(90), speed: 4 }, radians(270), { direction: radians(270), speed: 3 });
 * `${degrees(direction).toFixed(2)}°, ${speed.toFixed(1)} m/s` // "36.87°, 5.0 m/s"
 */
export const windOverWater = (apparent: ApparentWind, heading: Radians, throughWater: Motion): Wind =>
  windOf("windOverWater", apparent, heading, throughWater);

/**
 * M10. The wind over the ground, which the forecast speaks of: apparent wind less the boat's motion over the ground. It
 * differs from the wind over the water by the current and by nothing else.
 *
 * @returns direction NaN in a calm; NaN where anything is NaN (a speed of 0 needs no direction)
 * @throws RangeError where a speed is negative
 * @see as `windOverWater`
 * @example
 * // Florida State University's set, record 6
 * const { direction, speed } = windOverGround({ angle: radians(90), speed: 5 }, radians(90), { direction: radians(90), speed: 5 });
 * `${degrees(direction).toFixed(0)}°, ${speed.toFixed(4)} m/s` // "225°, 7.0711 m/s"
 */
export const windOverGround = (apparent: ApparentWind, heading: Radians, overGround: Motion): Wind =>
  windOf("windOverGround", apparent, heading, overGround);

/**
 * M10. The apparent wind in the level frame, a = w + v: the inverse of `windOverWater` and `windOverGround`, wind and
 * motion being both over the water or both over the ground.
 *
 * @returns angle NaN where nothing is felt; NaN where anything is NaN (a speed of 0 needs no direction)
 * @throws RangeError where a speed is negative
 * @example
 * const { angle, speed } = apparentWind({ direction: radians(90), speed: 4 }, 0, { direction: 0, speed: 3 });
 * `${degrees(angle).toFixed(1)}°, ${speed.toFixed(1)} m/s` // "53.1°, 5.0 m/s"
 */
export function apparentWind(wind: Wind, heading: Radians, motion: Motion): ApparentWind {
  demandNotNegative("apparentWind", "the wind", wind.speed);
  demandNotNegative("apparentWind", "the motion", motion.speed);
  const east = eastOf(wind.direction, wind.speed) + eastOf(motion.direction, motion.speed);
  const north = northOf(wind.direction, wind.speed) + northOf(motion.direction, motion.speed);
  return { angle: wrapAngle(directionOf(east, north) - heading), speed: speedOf(east, north) };
}

/**
 * M10. True wind angle: how far clockwise from the bow the wind comes from, (−π, π]. To the bow, not to the course: at
 * a heading, leeway does not change it.
 * Never throws; NaN in, NaN out.
 *
 * @example
 * degrees(trueWindAngle(radians(20), radians(350))).toFixed(6) // "30.000000"
 */
export const trueWindAngle = (direction: Radians, heading: Radians): Radians =>
  wrapAngle(direction - heading);
