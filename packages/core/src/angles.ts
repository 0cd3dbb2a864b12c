import type { Radians } from "./units.ts";

const TURN = 2 * Math.PI;

/**
 * M2. The same angle in (−π, π]: an angle to the bow, positive to starboard, or a difference of directions.
 * Never throws; NaN or infinite in, NaN out.
 *
 * @example
 * degrees(wrapAngle(radians(270))).toFixed(6) // "-90.000000"
 */
export function wrapAngle(angle: Radians): Radians {
  if (angle > -Math.PI && angle <= Math.PI) return angle;
  const wrapped = angle - TURN * Math.floor((angle + Math.PI) / TURN);
  return wrapped <= -Math.PI ? wrapped + TURN : wrapped > Math.PI ? wrapped - TURN : wrapped;
}

/**
 * M3. The same direction in [0, 2π), clockwise from north.
 * Never throws; NaN or infinite in, NaN out.
 *
 * @example
 * degrees(wrapDirection(radians(-90))).toFixed(6) // "270.000000"
 */
export function wrapDirection(direction: Radians): Radians {
  if (direction >= 0 && direction < TURN) return direction;
  const wrapped = direction - TURN * Math.floor(direction / TURN);
  return wrapped >= TURN || wrapped < 0 ? 0 : wrapped;
}

/**
 * M4. How far clockwise the first direction lies from the second, in (−π, π].
 * Never throws; NaN in, NaN out.
 *
 * @example
 * degrees(angleBetween(radians(5), radians(355))).toFixed(6) // "10.000000"
 */
export const angleBetween = (direction: Radians, from: Radians): Radians => wrapAngle(direction - from);
