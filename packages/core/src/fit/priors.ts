import type { LawErrors } from "../sensors/lawErrors.ts";
import { METRES_PER_SECOND_IN_A_KNOT, radians } from "../units.ts";
import { PARAMETER_NAMES, type ParameterName } from "./boatFit.ts";
import { DEFICIT_PRIOR } from "./deficitPrior.ts";

/** What is known of a parameter before any data: a normal distribution. */
export interface Prior {
  /** In the unit of what it is about, SI and radians. */
  readonly mean: number;
  /** Standard deviation, in the unit of what it is about, SI and radians. */
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
 *
 * @example
 * degrees(BOAT_PRIORS["vane.mastheadOffset"].sd).toFixed(6) // "3.000000"
 */
export const BOAT_PRIORS: Readonly<Record<ParameterName, Prior>> = {
  // tied to each other and to what of the deficit falls with speed (M190)
  "speed.intercept": DEFICIT_PRIOR.intercept,
  "speed.gain": DEFICIT_PRIOR.gain,
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
  // common practice 0.5 m/s, or 0 in a log that corrects itself: both must stay plausible
  "anemometer.threshold": { mean: 0.3, sd: 0.25 },
  "anemometer.gain": { mean: 0, sd: 0.06 },
  "anemometer.speedUp": { mean: 0.04, sd: 0.03 },
};

/**
 * M46. Priors of what the laws leave out (M29); common practice, no source. The tacks' gains have come together off the wind for the
 * most part; a wheel's deficit is of a kind that falls with speed or of one that does not; leeway goes with the square of
 * speed or a little less or more; a yacht under power slides half a degree or a whole one in a breeze from abeam; a
 * compass well placed has a few tenths of a degree of a third harmonic; waves at an angle to the wind make a tenth of leeway more on one
 * tack; a compass that drifts does so by half a degree in an hour.
 */
export const LAW_PRIORS: Readonly<Record<keyof LawErrors, Prior>> = {
  sidesMeet: { mean: 0.7, sd: 0.4 },
  deficitFalling: DEFICIT_PRIOR.falling,
  leewayPower: { mean: 0, sd: 0.25 },
  leewaySkew: { mean: 0, sd: 0.1 },
  windage: angle(0.5, 0.5),
  thirdSine: angle(0, 0.2),
  thirdCosine: angle(0, 0.2),
  compassDrift: { mean: 0, sd: radians(0.5) / 3600 },
};

export const LAW_ERROR_NAMES = Object.keys(LAW_PRIORS) as readonly (keyof LawErrors)[];

/** Everything that a fit may leave free: the parameters, then what the laws leave out. */
const ALL_PRIORS: readonly Prior[] = [
  ...PARAMETER_NAMES.map((name) => BOAT_PRIORS[name]),
  ...LAW_ERROR_NAMES.map((name) => LAW_PRIORS[name]),
];

/** The means of the priors in the order of PARAMETER_NAMES, then of LAW_ERROR_NAMES. */
export const priorMeans = (): Float64Array => Float64Array.from(ALL_PRIORS, ({ mean }) => mean);

/** Their standard deviations, likewise. */
export const priorSds = (): Float64Array => Float64Array.from(ALL_PRIORS, ({ sd }) => sd);
