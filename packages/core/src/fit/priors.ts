import { METRES_PER_SECOND_IN_A_KNOT, metresPerSecond, radians } from "../units.ts";
import { PARAMETER_NAMES, type ParameterName } from "./boatFit.ts";

/** What is known of a parameter before any data: a normal distribution. */
export interface Prior {
  readonly mean: number;
  readonly sd: number;
}

const angle = (meanDegrees: number, sdDegrees: number): Prior => ({
  mean: radians(meanDegrees),
  sd: radians(sdDegrees),
});

/** Leeway coefficients are quoted in degrees of leeway per degree of heel, times the square of knots. */
const LEEWAY_UNIT = METRES_PER_SECOND_IN_A_KNOT ** 2;

/**
 * M46. Priors of the boat's parameters. Common practice where no source is named: what a racing boat's sensors show
 * when they were installed with ordinary care. They are wide enough that a log of an afternoon overrules them and narrow
 * enough that what the log cannot tell stays sensible, above all the upwash in winds that were not sailed.
 *
 * Leeway: 8.1 (R. Garrett, The Symmetry of Sailing, 1987, section 3.5.3, through a quotation) and 9.9 (P. van Oossanen,
 * SNAME Transactions 101, 1993, computed from one sailing state) deg·kn²/deg.
 */
export const BOAT_PRIORS: Readonly<Record<ParameterName, Prior>> = {
  // common practice 0.4 kn, or 0 in a log that corrects itself: both must stay plausible
  "speed.intercept": { mean: metresPerSecond(0.2), sd: metresPerSecond(0.2) },
  "speed.gain": { mean: 0, sd: 0.06 },
  "speed.gainDifference": { mean: 0, sd: 0.03 },
  "compass.a": angle(0, 2.5),
  "compass.b": angle(0, 1.5),
  "compass.c": angle(0, 1.5),
  "compass.d": angle(0, 0.6),
  "compass.e": angle(0, 0.6),
  "compass.heelingError": { mean: 0, sd: 0.045 },
  "heel.zero": angle(0, 2),
  "heelModel.fullHeel": angle(40, 12),
  "leeway.coefficient": { mean: 9.5 * LEEWAY_UNIT, sd: 1.4 * LEEWAY_UNIT },
  "vane.mastheadOffset": angle(0, 3),
  "vane.upwash": angle(2.5, 2.5),
  "vane.upwashSlope": angle(-0.4, 0.5),
  "vane.upwashBroad": angle(0, 0.7),
  "anemometer.threshold": { mean: 0.4, sd: 0.2 },
  "anemometer.gain": { mean: 0, sd: 0.06 },
  "anemometer.speedUp": { mean: 0.04, sd: 0.03 },
};

/** The means of the priors in the order of PARAMETER_NAMES. */
export const priorMeans = (): Float64Array =>
  Float64Array.from(PARAMETER_NAMES, (name) => BOAT_PRIORS[name].mean);

/** Their standard deviations, likewise. */
export const priorSds = (): Float64Array =>
  Float64Array.from(PARAMETER_NAMES, (name) => BOAT_PRIORS[name].sd);
