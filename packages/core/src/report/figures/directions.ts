import { angleBetween } from "../../angles.ts";
import { meanDirection } from "../../circular.ts";
import { NIGHT } from "../../recording/stretches.ts";
import type { Radians, Seconds } from "../../units.ts";

/** How fast the reference follows: some ten rows, so that a wild row does not carry the line round the compass. */
const FOLLOW = 0.1;

/**
 * Directions laid out as a line that does not jump at north: each is written as reference + (direction − reference)
 * wrapped to (−π, π], and the reference then follows a tenth of the way. A day begins on the turn that is nearest to the mean of all
 * days: how often the wind went round the compass in the night is not known.
 *
 * @param directions rad, in time order; NaN where missing
 * @param time s since 1970 UTC of each
 * @returns the same directions but for whole turns; NaN stays. Never throws.
 */
export function unwrappedDirections(directions: ArrayLike<Radians>, time: ArrayLike<Seconds>): Float64Array {
  const middle = meanDirection(Array.from(directions).filter((direction) => !Number.isNaN(direction)));
  const turn = Number.isNaN(middle) ? 0 : middle;
  let [reference, last] = [Number.NaN, Number.NEGATIVE_INFINITY];
  return Float64Array.from(directions, (direction, index) => {
    if (Number.isNaN(direction)) return direction;
    if (time[index]! - last >= NIGHT) reference = turn + angleBetween(direction, turn);
    last = time[index]!;
    const unwrapped = reference + angleBetween(direction, reference);
    reference += FOLLOW * (unwrapped - reference);
    return unwrapped;
  });
}

/**
 * The mean of its day for each of some directions that do not jump at north; nothing where all are of one day. Never throws.
 *
 * @param directions rad, in time order; NaN where missing
 * @param time s since 1970 UTC of each
 */
export function meansOfDays(
  directions: ArrayLike<Radians>,
  time: ArrayLike<Seconds>,
): Float64Array | undefined {
  const days: { sum: number; count: number }[] = [];
  const dayOf = Array.from(directions, (direction, index) => {
    if (index === 0 || time[index]! - time[index - 1]! >= NIGHT) days.push({ sum: 0, count: 0 });
    const day = days.at(-1)!;
    if (!Number.isNaN(direction)) {
      day.sum += direction;
      day.count++;
    }
    return day;
  });
  return days.length < 2 ? undefined : Float64Array.from(dayOf, ({ sum, count }) => sum / count);
}

/** Directions written on the same turn as those beside them: so that before and after share one axis. */
export const besideDirections = (directions: ArrayLike<Radians>, beside: ArrayLike<Radians>): Float64Array =>
  Float64Array.from(directions, (direction, index) => {
    const other = beside[index] ?? Number.NaN;
    return Number.isNaN(other) ? direction : other + angleBetween(direction, other);
  });
