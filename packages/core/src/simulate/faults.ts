import type { MetresPerSecond, Radians } from "../units.ts";

/**
 * The faults of an invented boat's sensors. What they do to readings (`faultShapes.ts`) has on purpose other forms
 * than those that a fit assumes: what a fit is worth shows on faults that it does not know.
 */

/** M75. What the paddle wheel does. */
export interface SpeedFault {
  /** By how much it lags at 5 kn, and which share of that falls with speed as friction would have it; the rest is constant. */
  readonly deficit: MetresPerSecond;
  readonly deficitFalling: number;
  /** True speed over what is read, but for the deficit: on starboard tack, heeled to port, and on port. */
  readonly gainStarboard: number;
  readonly gainPort: number;
}

/** M76. What has to be added to the compass heading c; `third` and `thirdPhase` of 3 c, heelingError in rad/rad. */
export interface CompassFault {
  readonly a: Radians;
  readonly b: Radians;
  readonly c: Radians;
  readonly d: Radians;
  readonly e: Radians;
  readonly third: Radians;
  readonly thirdPhase: Radians;
  readonly heelingError: number;
}

/** The heel sensor shows sign · gain · (heel + zero). */
export interface HeelFault {
  readonly sign: 1 | -1;
  readonly zero: Radians;
  readonly gain: number;
}

/** M77. How the vane is mounted, and how the sails bend the air ahead of them. */
export interface VaneFault {
  readonly mastheadOffset: Radians;
  /** The most that upwash can be, with sails well trimmed. */
  readonly upwash: Radians;
  /** Wind angle at the masthead at which it is largest, and how narrowly it is so. */
  readonly upwashAngle: Radians;
  readonly upwashNarrowness: number;
  /** Apparent wind speed at which it is largest, and the width of that in ln speed. */
  readonly upwashSpeed: MetresPerSecond;
  readonly upwashWidth: number;
  /** How much the trim of the sails changes it, standard deviation of its logarithm over minutes. */
  readonly trimWander: number;
}

/** M78. What the cups do. */
export interface AnemometerFault {
  readonly threshold: MetresPerSecond;
  /** True speed over what is read, but for the threshold. */
  readonly gain: number;
  /** By which share the air is faster over the sails dead downwind. */
  readonly speedUp: number;
}

/** M79. Her leeway: coefficient · heel / (7 kn)² · (7 kn / speed)^exponent; m²/s². No fault, but unknown too. */
export interface LeewayLaw {
  readonly coefficient: number;
  readonly exponent: number;
}

/** All that is wrong with a simulated boat's sensors, and her leeway. */
export interface BoatFaults {
  readonly speed: SpeedFault;
  readonly compass: CompassFault;
  readonly heel: HeelFault;
  readonly vane: VaneFault;
  readonly anemometer: AnemometerFault;
  readonly leeway: LeewayLaw;
}

/**
 * Sensors that show what is, on a boat that makes no leeway.
 *
 * @example
 * noFaults.leeway.coefficient // 0
 */
export const noFaults: BoatFaults = {
  speed: { deficit: 0, deficitFalling: 0, gainStarboard: 1, gainPort: 1 },
  compass: { a: 0, b: 0, c: 0, d: 0, e: 0, third: 0, thirdPhase: 0, heelingError: 0 },
  heel: { sign: 1, zero: 0, gain: 1 },
  vane: {
    mastheadOffset: 0,
    upwash: 0,
    upwashAngle: 0.6,
    upwashNarrowness: 2,
    upwashSpeed: 7,
    upwashWidth: 1,
    trimWander: 0,
  },
  anemometer: { threshold: 0, gain: 1, speedUp: 0 },
  leeway: { coefficient: 0, exponent: 2 },
};
