import { angleBetween } from "../angles.ts";
import type { Radians, RadiansPerSecond, Seconds } from "../units.ts";
import { dampingShare } from "./damping.ts";

/**
 * Places in the memory of one rate; all NaN while nothing is known.
 *
 * @example
 * const memory = new Float64Array(RATE_MEMORY).fill(NaN);
 */
export const RATE_MEMORY = 3;

const ANGLE = 0;
const RATE = 1;
const TIME = 2;

/**
 * Samples further apart than this tell no rate. A boat rolls and pitches in some 3 to 6 s: a difference over half a second of a roll
 * of 4 s leaves 0.4 of the masthead's motion, over a second 0.8, and the motion had better be left to average out.
 *
 * @example
 * const memory = new Float64Array(RATE_MEMORY).fill(NaN);
 * attitudeRate(memory, 0, 0.1, 0);
 * attitudeRate(memory, 0, 0.2, LONGEST_RATE_STEP + 0.1) // NaN
 */
export const LONGEST_RATE_STEP: Seconds = 0.5;

/**
 * The rate is the mean slope over about this time. It trades the sensor's noise (0.1° of it makes 0.35 °/s, 0.1 m/s at a masthead of 15 m)
 * against delay.
 */
const RATE_DAMPING: Seconds = 0.2;

/**
 * M151. How fast an angle changes: slopes from sample to sample, the short way round, damped (M150) with 0.2 s.
 *
 * @param memory that the caller holds, rad, rad/s and s; RATE_MEMORY places from `at` on are changed
 * @param at index of the first of its places
 * @param angle rad; NaN: the rate holds while it is fresh
 * @param time s, on any clock
 * @returns rad/s; NaN before the second sample, and where samples are more than half a second apart. Never throws.
 * @example
 * const memory = new Float64Array(RATE_MEMORY).fill(NaN);
 * attitudeRate(memory, 0, radians(10), 0);
 * degrees(attitudeRate(memory, 0, radians(11), 0.1)).toFixed(3) // "10.000"
 */
export function attitudeRate(
  memory: Float64Array,
  at: number,
  angle: Radians,
  time: Seconds,
): RadiansPerSecond {
  const step = time - memory[at + TIME]!;
  const fresh = step >= 0 && step <= LONGEST_RATE_STEP;
  if (Number.isNaN(angle) || Number.isNaN(time) || step === 0) return fresh ? memory[at + RATE]! : Number.NaN;
  const slope = fresh ? angleBetween(angle, memory[at + ANGLE]!) / step : Number.NaN;
  const before = memory[at + RATE]!;
  memory[at + RATE] = Number.isNaN(before)
    ? slope
    : before + dampingShare(step, RATE_DAMPING) * (slope - before);
  memory[at + ANGLE] = angle;
  memory[at + TIME] = time;
  return memory[at + RATE]!;
}
