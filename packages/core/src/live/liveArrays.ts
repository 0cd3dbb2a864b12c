/**
 * Places of the quantities in a live sample; SI, NaN where missing, each what was last heard of its sensor. Signs and ranges as in
 * `CHANNELS`; rates are needed only where they are measured.
 *
 * @example
 * const sample = new Float64Array(LIVE_SAMPLE_LENGTH).fill(NaN);
 * sample[LIVE_SAMPLE.aws] = metresPerSecond(14);
 */
export const LIVE_SAMPLE = {
  /** s, on any clock that runs on evenly: damping and rates rest on it. */
  time: 0,
  /** Indicated apparent wind: rad, (−π, π]; m/s. */
  awa: 1,
  aws: 2,
  /** Indicated speed through the water, m/s. */
  stw: 3,
  /** As the compass shows it, rad, [0, 2π). */
  heading: 4,
  /** As the sensor shows it, rad. */
  heel: 5,
  /** rad, bow up positive: for its rate only. */
  pitch: 6,
  /** rad/s, in the sign of the heel sensor, bow up, to starboard. */
  heelRate: 7,
  pitchRate: 8,
  rateOfTurn: 9,
  /** Velocity over ground from true north, m/s. */
  east: 10,
  north: 11,
  /** rad, east positive. */
  variation: 12,
  /** 1 with the sails down, under power: no upwash, speed-up or leeway then; 0 or NaN under sail. */
  underPower: 13,
} as const;

/**
 * How many numbers a live sample holds.
 *
 * @example
 * Object.keys(LIVE_SAMPLE).length === LIVE_SAMPLE_LENGTH // true
 */
export const LIVE_SAMPLE_LENGTH = 14;

/**
 * Places of the quantities in a live answer; SI, NaN where it cannot be told. Meaning, signs and ranges as in `CorrectedSecond`.
 *
 * @example
 * const answer = new Float64Array(LIVE_WIND_LENGTH);
 * const speed = knots(answer[LIVE_WIND.tws]);
 */
export const LIVE_WIND = {
  time: 0,
  /** Wind over the water, damped: rad, m/s, rad. */
  twd: 1,
  tws: 2,
  twa: 3,
  /** Wind over the ground, damped: rad, m/s. */
  gwd: 4,
  gws: 5,
  /** Apparent wind in the level frame, not damped: rad, m/s. */
  awa: 6,
  aws: 7,
  /** Boat speed, heading, heel, leeway, free of faults, not damped: m/s, rad. */
  stw: 8,
  heading: 9,
  heel: 10,
  leeway: 11,
  /** Current, not damped: rad, m/s. */
  set: 12,
  drift: 13,
} as const;

/**
 * How many numbers a live answer holds.
 *
 * @example
 * Object.keys(LIVE_WIND).length === LIVE_WIND_LENGTH // true
 */
export const LIVE_WIND_LENGTH = 14;

/** The name of a quantity in a live sample. */
export type LiveSampleName = keyof typeof LIVE_SAMPLE;

/** The name of a quantity in a live answer. */
export type LiveWindName = keyof typeof LIVE_WIND;
