import { angleBetween } from "../../angles.ts";
import type { Radians } from "../../units.ts";

/** How fast the reference follows: some ten rows, so that a wild row does not carry the line round the compass. */
const FOLLOW = 0.1;

/**
 * Directions laid out as a line that does not jump at north: each is written as reference + (direction − reference)
 * wrapped to (−π, π], and the reference then follows a tenth of the way.
 *
 * @param directions rad, in time order; NaN where missing
 * @returns the same directions but for whole turns; NaN stays. Never throws.
 */
export function unwrappedDirections(directions: ArrayLike<Radians>): Float64Array {
  let reference = Number.NaN;
  return Float64Array.from(directions, (direction) => {
    if (Number.isNaN(direction)) return direction;
    if (Number.isNaN(reference)) reference = direction;
    const unwrapped = reference + angleBetween(direction, reference);
    reference += FOLLOW * (unwrapped - reference);
    return unwrapped;
  });
}

/** Directions written on the same turn as those beside them : so that before and after share one axis. */
export const besideDirections = (directions: ArrayLike<Radians>, beside: ArrayLike<Radians>): Float64Array =>
  Float64Array.from(directions, (direction, index) => {
    const other = beside[index] ?? Number.NaN;
    return Number.isNaN(other) ? direction : other + angleBetween(direction, other);
  });
