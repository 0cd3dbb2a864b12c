import {
  METRES_PER_SECOND_IN_A_KNOT,
  type MetresPerSecond,
  metresPerSecond,
  type Radians,
} from "../units.ts";

/**
 * M29. What the laws of M12, M20 and M21 leave out, as far as a boat's own motion shows it. Never keyed in, never reported:
 * a fit leaves it free within narrow priors, so that what a law cannot say does not pass for a fault of a sensor.
 */
export interface LawErrors {
  /** Share by which the two tacks' boat speed gains have come together dead downwind, where she sails upright. */
  readonly sidesMeet: number;
  /** What the paddle wheel's deficit at 5 kn has of a kind that falls with speed: it bends the line of intercept and gain. */
  readonly deficitFalling: MetresPerSecond;
  /** Leeway goes with speed to the power −(2 + this), as the law says at 5.6 kn. */
  readonly leewayPower: number;
  /** Share by which leeway on starboard tack is more than the law says, and on port less: waves that meet her on one tack and pass her on the other. */
  readonly leewaySkew: number;
  /** Leeway under power, sails down, in a wind of 10 m/s from abeam at a boat speed of 3 m/s. */
  readonly windage: Radians;
  /** The deviation's third harmonic. */
  readonly thirdSine: Radians;
  readonly thirdCosine: Radians;
  /** What headings of a day lack more and more as it goes on, in a second: a compass that drifts. */
  readonly compassDrift: Radians;
}

/** The laws taken at their word. */
export const exactLaws: LawErrors = {
  sidesMeet: 0,
  deficitFalling: 0,
  leewayPower: 0,
  leewaySkew: 0,
  windage: 0,
  thirdSine: 0,
  thirdCosine: 0,
  compassDrift: 0,
};

const DEFICIT_SPEED = metresPerSecond(5);
/** Geometric mean of 4 and 7.5 kn, near enough, between which a boat that heels makes way: the law holds on the average of them. */
const LEEWAY_SPEED = metresPerSecond(5.6);
/** Below this the powers of speed are held, lest a boat at rest were everything. */
const LEAST_SPEED: MetresPerSecond = 2 * METRES_PER_SECOND_IN_A_KNOT;

/** M29. How far the two tacks' gains have come together at an apparent wind angle: 0 they are apart, 1 they are one. Never throws. */
export const gainsTogether = (awa: Radians, { sidesMeet }: LawErrors): number =>
  sidesMeet * Math.sin(awa / 2) ** 2;

/** Speeds at which boats sail: the bend of the deficit is what no straight line through them holds. */
const SLOWEST = metresPerSecond(3);
const FASTEST = metresPerSecond(8);
const MIDDLE = (SLOWEST + FASTEST) / 2;
const BREADTH = FASTEST - SLOWEST;
const LOGARITHM = Math.log(FASTEST / SLOWEST);
/** The straight line nearest to 5 kn / speed there, by least squares: its value in the middle, and its slope. */
const LINE_MIDDLE = (DEFICIT_SPEED * LOGARITHM) / BREADTH;
const LINE_SLOPE = (12 * DEFICIT_SPEED * (BREADTH - MIDDLE * LOGARITHM)) / BREADTH ** 3;

/** M29. That line for a deficit of one at 5 kn: what it makes at rest, and a m/s of speed. */
export const DEFICIT_LINE = { atRest: LINE_MIDDLE - LINE_SLOPE * MIDDLE, slope: LINE_SLOPE } as const;

/**
 * M29. Speed with the bend of a deficit that falls with it: speed + d · (5 kn / speed less the straight line nearest to it from 3 to 8 kn,
 * which intercept and gain hold). Never throws.
 */
export const speedWithDeficit = (speed: MetresPerSecond, { deficitFalling }: LawErrors): MetresPerSecond =>
  deficitFalling === 0
    ? speed
    : speed +
      deficitFalling *
        (DEFICIT_SPEED / Math.max(LEAST_SPEED, speed) - LINE_MIDDLE - LINE_SLOPE * (speed - MIDDLE));

/** M29. Factor of the leeway that the law gives: (5.6 kn / speed)^leewayPower. Never throws. */
export const leewayFactor = (speed: MetresPerSecond, { leewayPower }: LawErrors): number =>
  leewayPower === 0 ? 1 : (LEEWAY_SPEED / Math.max(LEAST_SPEED, speed)) ** leewayPower;

/** M29. Factor of the leeway that the law gives, by tack: 1 + leewaySkew on starboard, 1 − leewaySkew on port. Never throws. */
export const skewFactor = (awa: Radians, { leewaySkew }: LawErrors): number =>
  leewaySkew === 0 ? 1 : 1 + (awa > 0 ? leewaySkew : -leewaySkew);

/**
 * M29. Leeway under power: away from the wind, with the force of the wind from abeam and in inverse proportion to speed.
 *
 * @param awa indicated
 * @param aws indicated
 * @returns positive to starboard; NaN where a reading is and there is windage. Never throws.
 */
export function windageLeeway(
  awa: Radians,
  aws: MetresPerSecond,
  speed: MetresPerSecond,
  { windage }: LawErrors,
): Radians {
  if (windage === 0) return 0;
  const abeam = aws * Math.sin(awa);
  return -windage * ((abeam * Math.abs(abeam)) / 100) * (3 / Math.max(LEAST_SPEED, speed));
}

/** M29. Deviation beyond the series of M21, on a compass heading. Never throws. */
export const thirdHarmonic = (compassHeading: Radians, { thirdSine, thirdCosine }: LawErrors): Radians =>
  thirdSine === 0 && thirdCosine === 0
    ? 0
    : thirdSine * Math.sin(3 * compassHeading) + thirdCosine * Math.cos(3 * compassHeading);
