import { wrapDirection } from "../angles.ts";
import type { Radians, Seconds } from "../units.ts";

/**
 * Damping of what is shown live (M150). The memory is an array that the caller holds: DAMPING_MEMORY places for each quantity, NaN
 * while nothing is known.
 *
 * @example
 * const memory = new Float64Array(2 * DAMPING_MEMORY).fill(NaN); // for two quantities
 */
export const DAMPING_MEMORY = 3;

/** Places in the memory of one quantity: the damped number, or sine and cosine of an angle; when the last value came. */
const FIRST = 0;
const SECOND = 1;
const TIME = 2;

/**
 * M150. The share of the way to a new value that a damped one goes in a step: 1 − e^(−step / time constant), so that a sudden change
 * is followed to 63 % within the time constant, however the steps are spaced.
 *
 * @param step since the last value, s, not negative
 * @param timeConstant s; 0: no damping
 * @returns 0 to 1. Never throws; NaN in, NaN out.
 * @example
 * dampingShare(4, 4).toFixed(3) // "0.632"
 */
export const dampingShare = (step: Seconds, timeConstant: Seconds): number =>
  timeConstant > 0 ? -Math.expm1(-step / timeConstant) : 1;

/** How far to go towards a value that comes at a time: all the way at first, and after the clock was set back. */
function shareAt(memory: Float64Array, at: number, time: Seconds, timeConstant: Seconds): number {
  const step = time - memory[at + TIME]!;
  return step >= 0 ? dampingShare(step, timeConstant) : 1;
}

/**
 * M150. Damps a number that is no angle.
 *
 * @param memory that the caller holds, in the unit of the value; DAMPING_MEMORY places from `at` on are changed
 * @param at index of the first of its places
 * @param value in any unit; NaN, or a NaN time: the memory holds, and the next value counts for the longer step
 * @param time of the value, s, on any clock
 * @param timeConstant s; 0: the damped value is the value
 * @returns the damped value, in the unit of the value; NaN where value or time is. Never throws.
 * @example
 * const memory = new Float64Array(DAMPING_MEMORY).fill(NaN);
 * dampedNumber(memory, 0, 10, 0, 5);
 * dampedNumber(memory, 0, 20, 5, 5).toFixed(2) // "16.32"
 */
export function dampedNumber(
  memory: Float64Array,
  at: number,
  value: number,
  time: Seconds,
  timeConstant: Seconds,
): number {
  if (Number.isNaN(value) || Number.isNaN(time)) return Number.NaN;
  const share = shareAt(memory, at, time, timeConstant);
  const before = share === 1 ? value : memory[at + FIRST]!;
  memory[at + FIRST] = before + share * (value - before);
  memory[at + TIME] = time;
  return memory[at + FIRST]!;
}

/**
 * M150. Damps an angle as the vector (sine, cosine), never as a number: the way from 359° to 1° leads over north.
 *
 * @param memory as to `dampedNumber`, of sine and cosine: no unit
 * @param at index of the first of its places
 * @param angle rad; NaN, or a NaN time: the memory holds
 * @param time of the angle, s, on any clock
 * @param timeConstant s; 0: the damped angle is the angle
 * @returns rad, [0, 2π); NaN where angle or time is. Never throws.
 * @example
 * const memory = new Float64Array(DAMPING_MEMORY).fill(NaN);
 * dampedAngle(memory, 0, radians(359), 0, 5);
 * degrees(dampedAngle(memory, 0, radians(1), 5 * Math.LN2, 5)).toFixed(6) // "0.000000"
 */
export function dampedAngle(
  memory: Float64Array,
  at: number,
  angle: Radians,
  time: Seconds,
  timeConstant: Seconds,
): Radians {
  if (Number.isNaN(angle) || Number.isNaN(time)) return Number.NaN;
  const share = shareAt(memory, at, time, timeConstant);
  const sine = Math.sin(angle);
  const cosine = Math.cos(angle);
  const sineBefore = share === 1 ? sine : memory[at + FIRST]!;
  const cosineBefore = share === 1 ? cosine : memory[at + SECOND]!;
  memory[at + FIRST] = sineBefore + share * (sine - sineBefore);
  memory[at + SECOND] = cosineBefore + share * (cosine - cosineBefore);
  memory[at + TIME] = time;
  return wrapDirection(Math.atan2(memory[at + FIRST]!, memory[at + SECOND]!));
}
