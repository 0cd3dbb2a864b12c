/**
 * What readers hand on: batches of single readings in the order of the log, each with its time, quantity,
 * source and value in SI units and radians. A batch is a chunk of the log, never the whole.
 *
 * @example
 * QUANTITIES.includes("apparentWindAngle") // true
 */
export const QUANTITIES = [
  "apparentWindAngle", // rad, (−π, π], positive to starboard, as indicated (in the mast's plane)
  "apparentWindSpeed", // m/s
  "onboardTrueWindAngle", // rad: computed on board; never taken for apparent
  "onboardTrueWindSpeed", // m/s
  "onboardTrueWindDirection", // rad, true north, from
  "onboardTrueWindDirectionMagnetic", // rad, magnetic north, from
  "speedThroughWater", // m/s
  "headingMagnetic", // rad, magnetic
  "headingTrue", // rad, true
  "variation", // rad, east positive, as logged
  "heel", // rad, as logged (sign of the installation)
  "pitch", // rad, bow up positive
  "leeway", // rad, to starboard positive, as told on board: mostly computed, never taken for a measurement
  "rateOfTurn", // rad/s, to starboard positive
  "courseOverGround", // rad, true, toward
  "courseOverGroundMagnetic", // rad, magnetic, toward
  "speedOverGround", // m/s
  "latitude", // rad
  "longitude", // rad
  "depthBelowTransducer", // m
  "transducerOffset", // m, to waterline positive, to keel negative
  "waterTemperature", // °C
  "distanceThroughWater", // m, total log
] as const;

/** One of QUANTITIES. */
export type QuantityName = (typeof QUANTITIES)[number];

/** Where a quantity comes from: a talker and sentence ("WI MWV"), the sensor's own name where it has one. */
export interface Source {
  readonly quantity: QuantityName;
  /** Unique with `quantity` within a recording. */
  readonly name: string;
}

/** A batch of readings; columns of one length, rows in the order of the log, times never decreasing. */
export interface Readings {
  /** How many readings there are. */
  readonly length: number;
  /** s since 1970-01-01T00:00:00Z; NaN where the log has told no time at all. */
  readonly time: Float64Array;
  /** Index into the recording's `sources`, which grow as the log is read. */
  readonly source: Uint16Array;
  /** In the unit of its quantity, SI and radians; never NaN (an empty field makes no reading). */
  readonly value: Float64Array;
}

/**
 * Why a record of a log could not be read.
 *
 * @example
 * PROBLEM_KINDS.includes("checksum") // true
 */
export const PROBLEM_KINDS = [
  "checksum", // the checksum does not match
  "field", // a field that should hold a number or a letter of a set does not
  "cut", // a sentence that starts or ends in mid-line
  "binary", // bytes that are no text
  "too long", // a line longer than any sentence may be
  "clock", // a time that cannot be placed
  "column", // a column of a log in columns that is not read, since its unit is not told
  "compression", // a broken or truncated gzip stream
] as const;

/** A line that could not be read; reading goes on past it. */
export interface Problem {
  readonly kind: (typeof PROBLEM_KINDS)[number];
  readonly file: string;
  /** Number of the record, from 1. */
  readonly line: number;
  /** What stood there, at most 100 characters, unprintable characters shown as \\xNN. */
  readonly received: string;
  readonly expected: string;
}

/** Every line is one of the three; `lines = used + ignored + problems`. */
export interface LineCount {
  /** How many records there are. */
  readonly lines: number;
  /** How many gave a reading or told the time. */
  readonly used: number;
  /** How many told nothing that is wanted. */
  readonly ignored: number;
  /** How many could not be read. */
  readonly problems: number;
}
