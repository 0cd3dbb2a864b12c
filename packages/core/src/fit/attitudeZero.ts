import { type Radians, radians, type Seconds } from "../units.ts";
import { correlatedMean } from "./correlatedMean.ts";

/** What a heel or pitch sensor reads of a boat that lies level. */
export interface AttitudeZero {
  readonly zero: Radians;
  readonly half: Radians;
  /** Spread of single readings: lines that jerk, people that walk. */
  readonly spread: Radians;
}

/** Why a stay alongside cannot answer. */
export interface UnsolvedAttitude {
  readonly status: "unsolved";
  readonly reason: "too short" | "not at rest";
}

/** A boat alongside that moves more than this is not at rest. */
const AT_REST: Radians = radians(3);

const SHORTEST: Seconds = 60;

/** How well a reading is read by eye off an instrument at rest: its steps and what it still moves. Judgement. */
const BY_EYE: Radians = radians(0.3);

/**
 * M131. The zero of a heel or pitch sensor from a stay in which the boat lay still: its mean reading, with what her own list or trim is not known.
 *
 * @param readings rad, at equal steps
 * @param level how level she lay, by a spirit level, plumb line or eye: a standard deviation
 * @returns `unsolved` for less than a minute, and where readings spread by more than 3°. Never throws.
 *
 * @example
 * degrees(attitudeZero(new Float64Array(120).fill(radians(1.5)), 1, radians(0.3)).zero).toFixed(3) // "1.500"
 */
export function attitudeZero(
  readings: ArrayLike<number>,
  step: Seconds,
  level: Radians,
): ({ readonly status: "solved" } & AttitudeZero) | UnsolvedAttitude {
  const { mean, spread, deviation } = correlatedMean(readings, step);
  if (!(readings.length * step >= SHORTEST) || Number.isNaN(mean))
    return { status: "unsolved", reason: "too short" };
  if (spread > AT_REST) return { status: "unsolved", reason: "not at rest" };
  return { status: "solved", zero: mean, half: 1.96 * Math.hypot(deviation, level), spread };
}

/**
 * M131. The same where the reading was noted by eye and not logged: ±0.3° of its own, one standard deviation.
 *
 * @param level as for `attitudeZero`
 * @returns NaN where the reading is. Never throws.
 *
 * @example
 * degrees(attitudeZeroByEye(radians(1.5), radians(0.4)).half).toFixed(2) // "0.98"
 */
export const attitudeZeroByEye = (reading: Radians, level: Radians): AttitudeZero => ({
  zero: reading,
  half: 1.96 * Math.hypot(BY_EYE, level),
  spread: BY_EYE,
});
