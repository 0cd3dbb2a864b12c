import { wrapDirection } from "../angles.ts";
import type { MetresPerSecond, Radians } from "../units.ts";

/**
 * A direction and a speed as components and back (M9). A motion's direction is where it goes, a wind's where it comes
 * from; the components point the way the direction does.
 */

/**
 * M9. Component to the east: speed · sin(direction); 0 at speed 0, which needs no direction. Never throws; NaN in, NaN out.
 *
 * @example
 * eastOf(radians(90), 5) // 5
 */
export const eastOf = (direction: Radians, speed: MetresPerSecond): MetresPerSecond =>
  speed === 0 ? 0 : speed * Math.sin(direction);

/**
 * M9. Component to the north: speed · cos(direction); 0 at speed 0, which needs no direction. Never throws; NaN in, NaN out.
 *
 * @example
 * northOf(0, 5) // 5
 */
export const northOf = (direction: Radians, speed: MetresPerSecond): MetresPerSecond =>
  speed === 0 ? 0 : speed * Math.cos(direction);

/**
 * M9. Direction of a vector, in [0, 2π): atan2(east, north).
 *
 * @returns rad; NaN where a component is, and where both are zero, since a calm comes from nowhere. Never throws.
 * @example
 * degrees(directionOf(-1, 0)) // 270
 */
export const directionOf = (east: MetresPerSecond, north: MetresPerSecond): Radians =>
  east === 0 && north === 0 ? Number.NaN : wrapDirection(Math.atan2(east, north));

/**
 * M9. Length of a vector: √(east² + north²). Never throws; NaN in, NaN out.
 *
 * @example
 * speedOf(3, 4) // 5
 */
export const speedOf = (east: MetresPerSecond, north: MetresPerSecond): MetresPerSecond =>
  Math.sqrt(east * east + north * north);
