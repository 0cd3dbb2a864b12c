import type { OnboardComputer } from "../calibration/boat.ts";
import { levelWind, windInMastPlane } from "../physics/attitude.ts";
import { motionThroughWater } from "../physics/leeway.ts";
import {
  type ApparentWind,
  apparentWind,
  type Motion,
  trueWindAngle,
  windOverWater,
} from "../physics/windTriangle.ts";
import type { MetresPerSecond, Radians } from "../units.ts";

/** A wind as an instrument shows it, apparent or true: angle to the bow, rad, (−π, π], and speed, m/s. */
export type WindReading = ApparentWind;

/** What the computer reckons with beside the wind. */
export interface ComputerState {
  readonly boatSpeed: MetresPerSecond;
  readonly heel: Radians;
  /** By the coefficient that stands in the computer; positive to starboard. */
  readonly leeway: Radians;
}

/** Everything is counted from the bow. */
const BOW: Radians = 0;

/** The boat's motion as the computer has it: along the bow where it does not reckon with leeway. */
const motionOf = ({ boatSpeed, leeway }: ComputerState, { correctsLeeway }: OnboardComputer): Motion =>
  motionThroughWater(BOW, boatSpeed, correctsLeeway ? leeway : 0);

/**
 * M66. The true wind that the boat's own computer makes of an apparent wind: levelled (M11) if it corrects heel, less
 * the motion through the water (M10, M12), which has leeway in it if it corrects leeway.
 *
 * @returns angle to the bow, rad, and speed, m/s; NaN where what it reckons with is NaN. Never throws.
 */
export function computerTrueWind(
  apparent: WindReading,
  state: ComputerState,
  computer: OnboardComputer,
): WindReading {
  const level = computer.correctsHeel ? levelWind(apparent, state.heel, 0) : apparent;
  const { direction, speed } = windOverWater(level, BOW, motionOf(state, computer));
  return { angle: trueWindAngle(direction, BOW), speed };
}

/**
 * M66. The apparent wind that the computer must be given to make a true wind of it: the inverse of `computerTrueWind`.
 *
 * @returns angle to the bow, rad, and speed, m/s; NaN where what it reckons with is NaN. Never throws.
 */
export function apparentForComputer(
  trueWind: WindReading,
  state: ComputerState,
  computer: OnboardComputer,
): WindReading {
  const wind = { direction: trueWind.angle, speed: trueWind.speed };
  const level = apparentWind(wind, BOW, motionOf(state, computer));
  return computer.correctsHeel ? windInMastPlane(level, state.heel, 0) : level;
}
