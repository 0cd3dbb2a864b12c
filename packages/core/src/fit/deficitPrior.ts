import { DEFICIT_LINE, exactLaws, speedWithDeficit } from "../sensors/lawErrors.ts";
import { type MetresPerSecond, metresPerSecond } from "../units.ts";

/**
 * What a paddle wheel misses at 5 kn, m/s. Common practice, no source: 0.4 kn, or nothing in a log that corrects itself, either as likely.
 */
const MISSED_BY_WHEEL = { mean: metresPerSecond(0.2), sd: metresPerSecond(0.2) } as const;

/** ln gain of the wheel itself, as far from 0 as a racing boat's is. Common practice. */
export const WHEEL_GAIN = { mean: 0, sd: 0.06 } as const;

const SQUARE = MISSED_BY_WHEEL.mean ** 2 + MISSED_BY_WHEEL.sd ** 2;

/** Mean and variance of either part of it, the one that falls with speed and the one that does not, and their covariance: no share of the one is likelier than another. */
const PART = {
  mean: MISSED_BY_WHEEL.mean / 2,
  variance: SQUARE / 3 - MISSED_BY_WHEEL.mean ** 2 / 4,
  covariance: SQUARE / 6 - MISSED_BY_WHEEL.mean ** 2 / 4,
} as const;

const { atRest, slope } = DEFICIT_LINE;

/** Between the part that falls and the intercept, which holds it at rest on its line (M29). */
const WITH_INTERCEPT = PART.covariance + atRest * PART.variance;

/**
 * M190. The joint prior of intercept, ln gain and what of the deficit falls with speed: all three hold the falling part, the first two by the straight line
 * that is nearest to it.
 */
export const DEFICIT_PRIOR = {
  intercept: {
    mean: PART.mean * (1 + atRest),
    sd: Math.sqrt(PART.variance + 2 * atRest * PART.covariance + atRest ** 2 * PART.variance),
  },
  gain: {
    mean: WHEEL_GAIN.mean + slope * PART.mean,
    sd: Math.sqrt(WHEEL_GAIN.sd ** 2 + slope ** 2 * PART.variance),
  },
  falling: { mean: PART.mean, sd: Math.sqrt(PART.variance) },
  interceptAndGain: slope * WITH_INTERCEPT,
  interceptAndFalling: WITH_INTERCEPT,
  gainAndFalling: slope * PART.variance,
} as const;

/** What falls of the deficit, about none, root mean square. */
const FALLING = Math.hypot(PART.mean, DEFICIT_PRIOR.falling.sd);

/**
 * M190. By how much a straight line of intercept and gain may miss a speed, since the deficit may fall with it: one standard deviation; 0 where line and curve cross.
 * Never throws; NaN in, NaN out.
 */
export const doubtOfLine = (speed: MetresPerSecond): MetresPerSecond =>
  Math.abs(speedWithDeficit(speed, { ...exactLaws, deficitFalling: FALLING }) - speed);
