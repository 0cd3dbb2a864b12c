import type { StraySecond } from "./straySeconds.ts";

/**
 * The summary row: some 30 seconds of steady sailing (or of motoring) with the counts, means and spreads
 * that the fit needs. Rows of many files and days add up; no column of a whole recording is kept.
 */

/**
 * The channels of a row's moments, in the order of the covariance matrix.
 *
 * @example
 * rows[0].covariance.length === MOMENT_CHANNELS.length ** 2 // true
 */
export const MOMENT_CHANNELS = ["awa", "aws", "stw", "heading", "heel", "east", "north"] as const;
/** One of MOMENT_CHANNELS. */
export type MomentChannel = (typeof MOMENT_CHANNELS)[number];

/**
 * Lags (s) at which rows carry autocovariances.
 *
 * @example
 * rows[0].autocovariance.length === 3 * AUTOCOVARIANCE_LAGS.length // true
 */
export const AUTOCOVARIANCE_LAGS = [1, 5, 10] as const;

/** The side that the wind comes over. */
export type Tack = "starboard" | "port";
/** Whether the sails drive her, or the engine with the sails down. */
export type RowKind = "sailing" | "motoring";

/** The summary of some 30 s of a steady leg. */
export interface LegRow {
  /** Number of the steady leg that it belongs to, from 0, in time order over the whole recording. */
  readonly leg: number;
  readonly kind: RowKind;
  /** Starboard: the wind comes over the starboard side (indicated angle positive). */
  readonly tack: Tack;
  /** s since 1970 UTC: start of the first second, and how many seconds lie between start and end. */
  readonly start: number;
  /** s between start and end. */
  readonly duration: number;
  /** How many seconds have all of the channels that the recording has. */
  readonly count: number;
  /** Means (angles: direction of the mean vector; heading in [0, 2π), awa in (−π, π]); NaN where missing. */
  readonly mean: Readonly<Record<MomentChannel, number>>;
  /** Covariances about the means, row-major 7 × 7, NaN where a channel is missing. */
  readonly covariance: Float64Array;
  /** Autocovariances at AUTOCOVARIANCE_LAGS of awa, ln aws, heading: 3 × lags, row-major. */
  readonly autocovariance: Float64Array;
  readonly headingIsTrue: boolean;
  /** Variation (rad, east positive) at the row's place; NaN where it cannot be known. */
  readonly variation: number;
  /** rad, north positive; NaN where it is not known. */
  readonly latitude: number;
  /** rad, east positive; NaN where it is not known. */
  readonly longitude: number;
  /** Seconds that were left out of it since a sensor stood off (M92); absent where there are none. */
  readonly strays?: readonly StraySecond[];
  /** How many turns before it are left out: the wind of rows that differ in this is not compared (M61). 0 unless given. */
  readonly turnsLeftOut?: number;
}

/**
 * What a turn may be: across the wind, before it, or neither.
 *
 * @example
 * answer.turns.every(({ kind }) => TURN_KINDS.includes(kind)) // true
 */
export const TURN_KINDS = ["tack", "gybe", "other"] as const;

/** A change of heading between steady sailing. */
export interface Turn {
  readonly kind: (typeof TURN_KINDS)[number];
  /** s since 1970 UTC. */
  readonly start: number;
  /** s since 1970 UTC. */
  readonly end: number;
  /** Change of heading (rad), clockwise positive; of the velocity over ground where there is no compass. */
  readonly change: number;
}

/** A steady stretch. */
export interface Leg {
  /** Its number, from 0, in the order of time. */
  readonly number: number;
  readonly kind: RowKind;
  readonly tack: Tack;
  /** s since 1970 UTC. */
  readonly start: number;
  /** s since 1970 UTC. */
  readonly end: number;
  /** Mean indicated apparent wind angle, rad. */
  readonly meanAwa: number;
}
