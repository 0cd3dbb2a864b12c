import { wrapAngle } from "../angles.ts";
import { readingsWithoutActive } from "../calibration/activeReadings.ts";
import { mastheadMotionAhead, mastheadMotionAthwart } from "../physics/attitude.ts";
import { directionOf, speedOf } from "../physics/vectors.ts";
import { trueWindAngle } from "../physics/windTriangle.ts";
import type { CorrectedSecond } from "../sailing/correctedSeconds.ts";
import { boatStateOf } from "../sensors/boatState.ts";
import { attitudeRate, RATE_MEMORY } from "./attitudeRate.ts";
import { DAMPING_MEMORY, dampedAngle, dampedNumber } from "./damping.ts";
import { LIVE_SAMPLE, LIVE_WIND, type LiveSampleName } from "./liveArrays.ts";
import type { LiveState } from "./liveState.ts";

type Step = (sample: Float64Array, state: LiveState, out: Float64Array) => void;

/** What the sensors show, each reading freed of what the instruments did to it already (M28). */
const hear: Step = (sample, { readings, anythingActive, options }) => {
  readings.awa = sample[LIVE_SAMPLE.awa]!;
  readings.aws = sample[LIVE_SAMPLE.aws]!;
  readings.stw = sample[LIVE_SAMPLE.stw]!;
  readings.heading = sample[LIVE_SAMPLE.heading]!;
  readings.heel = sample[LIVE_SAMPLE.heel]!;
  readings.east = sample[LIVE_SAMPLE.east]!;
  readings.north = sample[LIVE_SAMPLE.north]!;
  if (anythingActive) readingsWithoutActive(readings, options.active, readings);
  if (!options.has.paddle) readings.stw = speedOf(readings.east, readings.north);
  if (!options.has.compass) readings.heading = directionOf(readings.east, readings.north);
};

/** Sails and variation. */
const learnCircumstances: Step = (sample, { circumstances, options }) => {
  circumstances.sailsUp = sample[LIVE_SAMPLE.underPower] !== 1;
  const given = sample[LIVE_SAMPLE.variation]!;
  const variation = Number.isNaN(given) ? options.variation : given;
  if (options.directionsAre === "magnetic") circumstances.variation = Number.NaN;
  else circumstances.variation = options.headingsAre === "true" ? 0 : variation;
};

/** A rate as measured, else from the angle's own changes (M151). */
function learnRate(
  sample: Float64Array,
  { rates, rate }: LiveState,
  index: number,
  angle: number,
  measured: number,
) {
  rate[index] = sample[measured]!;
  if (Number.isNaN(rate[index]))
    rate[index] = attitudeRate(rates, index * RATE_MEMORY, sample[angle]!, sample[LIVE_SAMPLE.time]!);
}

const learnHeelRate: Step = (sample, state) => {
  if (state.masthead) learnRate(sample, state, 0, LIVE_SAMPLE.heel, LIVE_SAMPLE.heelRate);
};

const learnPitchRate: Step = (sample, state) => {
  if (state.masthead) learnRate(sample, state, 1, LIVE_SAMPLE.pitch, LIVE_SAMPLE.pitchRate);
};

const learnRateOfTurn: Step = (sample, state) => {
  if (state.masthead) learnRate(sample, state, 2, LIVE_SAMPLE.heading, LIVE_SAMPLE.rateOfTurn);
};

/** M13: the masthead's own motion; a rate that cannot be told counts as 0, as in means over many waves. */
const feelMotion: Step = (_sample, { circumstances, masthead, rate, options }) => {
  const toStarboard = options.settings.heel.sign * options.active.heel.sign;
  const heelRate = Number.isNaN(rate[0]) ? 0 : toStarboard * rate[0]!;
  const pitchRate = Number.isNaN(rate[1]) ? 0 : rate[1]!;
  const rateOfTurn = Number.isNaN(rate[2]) ? 0 : rate[2]!;
  const height = masthead === undefined ? 0 : masthead.height;
  const forward = masthead === undefined ? 0 : masthead.forward;
  circumstances.mastheadAhead = mastheadMotionAhead(height, pitchRate);
  circumstances.mastheadAthwart = mastheadMotionAthwart(height, heelRate, forward, rateOfTurn);
};

/** M27. */
const undoFaults: Step = (_sample, { readings, circumstances, options, boat }) => {
  boatStateOf(readings, circumstances, options.settings, boat);
};

/** Directions need a known north: the variation, or GPS where the course stands in for the heading. */
const hasNorth = ({ circumstances, options: { directionsAre, has } }: LiveState): boolean =>
  directionsAre === "magnetic" || !has.compass || !Number.isNaN(circumstances.variation);

const tellWaterWind: Step = (sample, state, out) => {
  const { overWaterEast, overWaterNorth, heading } = state.boat;
  out[LIVE_WIND.time] = sample[LIVE_SAMPLE.time]!;
  out[LIVE_WIND.twd] = directionOf(overWaterEast, overWaterNorth);
  out[LIVE_WIND.tws] = speedOf(overWaterEast, overWaterNorth);
  out[LIVE_WIND.twa] = trueWindAngle(out[LIVE_WIND.twd]!, heading);
  out[LIVE_WIND.heading] = heading;
  if (hasNorth(state)) return;
  out[LIVE_WIND.twd] = Number.NaN;
  out[LIVE_WIND.heading] = Number.NaN;
};

const tellGroundWind: Step = (_sample, state, out) => {
  const { overGroundEast, overGroundNorth } = state.boat;
  out[LIVE_WIND.gwd] = hasNorth(state) ? directionOf(overGroundEast, overGroundNorth) : Number.NaN;
  out[LIVE_WIND.gws] = speedOf(overGroundEast, overGroundNorth);
};

const tellBoat: Step = (_sample, { boat }, out) => {
  out[LIVE_WIND.awa] = boat.apparentAngle;
  out[LIVE_WIND.aws] = boat.apparentSpeed;
  out[LIVE_WIND.stw] = boat.speedAhead;
  out[LIVE_WIND.heel] = boat.heel;
  out[LIVE_WIND.leeway] = boat.leeway;
  out[LIVE_WIND.set] = directionOf(boat.currentEast, boat.currentNorth);
  out[LIVE_WIND.drift] = speedOf(boat.currentEast, boat.currentNorth);
};

/** M150: directions and the angle as vectors, speeds as numbers. */
const dampDirection: Step = (_sample, { damping, damped }, out) => {
  const { direction } = damping;
  if (direction > 0)
    out[LIVE_WIND.twd] = dampedAngle(damped, 0, out[LIVE_WIND.twd]!, out[LIVE_WIND.time]!, direction);
};

const dampSpeed: Step = (_sample, { damping, damped }, out) => {
  const { speed } = damping;
  if (speed > 0)
    out[LIVE_WIND.tws] = dampedNumber(
      damped,
      DAMPING_MEMORY,
      out[LIVE_WIND.tws]!,
      out[LIVE_WIND.time]!,
      speed,
    );
};

const dampAngle: Step = (_sample, { damping, damped }, out) => {
  const { angle } = damping;
  const at = 2 * DAMPING_MEMORY;
  if (angle > 0)
    out[LIVE_WIND.twa] = wrapAngle(dampedAngle(damped, at, out[LIVE_WIND.twa]!, out[LIVE_WIND.time]!, angle));
};

const dampGroundDirection: Step = (_sample, { damping, damped }, out) => {
  const { direction } = damping;
  const at = 3 * DAMPING_MEMORY;
  if (direction > 0)
    out[LIVE_WIND.gwd] = dampedAngle(damped, at, out[LIVE_WIND.gwd]!, out[LIVE_WIND.time]!, direction);
};

const dampGroundSpeed: Step = (_sample, { damping, damped }, out) => {
  const { speed } = damping;
  const at = 4 * DAMPING_MEMORY;
  if (speed > 0)
    out[LIVE_WIND.gws] = dampedNumber(damped, at, out[LIVE_WIND.gws]!, out[LIVE_WIND.time]!, speed);
};

/** Called through a list for the reason that `boatStateOf` gives: nothing is left to be collected. */
const STEPS: readonly Step[] = [
  hear,
  learnCircumstances,
  learnHeelRate,
  learnPitchRate,
  learnRateOfTurn,
  feelMotion,
  undoFaults,
  tellWaterWind,
  tellGroundWind,
  tellBoat,
  dampDirection,
  dampSpeed,
  dampAngle,
  dampGroundDirection,
  dampGroundSpeed,
];

/**
 * M27, live: one sample in, the true wind out, written into an array that the caller holds. Allocates nothing where nothing is active in
 * the instruments.
 *
 * @param sample LIVE_SAMPLE_LENGTH numbers, laid out as LIVE_SAMPLE says: rad, m/s, rad/s, s
 * @param state of this stream of samples, changed
 * @param out LIVE_WIND_LENGTH numbers, laid out as LIVE_WIND says: rad, m/s, s; NaN where what it needs is missing in this sample
 *   (damping holds its memory, and goes on from there)
 * @returns `out`. Never throws.
 * @example
 * const state = liveState({ headingsAre: "true" });
 * const [sample, out] = [new Float64Array(LIVE_SAMPLE_LENGTH).fill(NaN), new Float64Array(LIVE_WIND_LENGTH)];
 * sample.set([0, radians(45), 7, 3.5, 0, 0]);
 * liveWindInto(sample, state, out)[LIVE_WIND.tws].toFixed(2) // "5.16"
 */
export function liveWindInto(sample: Float64Array, state: LiveState, out: Float64Array): Float64Array {
  for (const step of STEPS) step(sample, state, out);
  return out;
}

/** A live sample by name; SI, signs and ranges as in LIVE_SAMPLE; what is left out is missing. */
export type LiveSample = Readonly<Partial<Record<LiveSampleName, number>>>;

const SAMPLE_PLACES = Object.entries(LIVE_SAMPLE) as readonly (readonly [LiveSampleName, number])[];

/**
 * M27, live: one sample in, the true wind out, by name. The same numbers as `liveWindInto`, bit for bit.
 *
 * @param sample SI and radians; what is left out is missing
 * @param state of this stream of samples, changed
 * @returns a new object: rad, m/s, s; NaN where what it needs is missing. Never throws.
 * @example
 * const state = liveState({ headingsAre: "true" });
 * const { twa, tws } = liveWind({ awa: radians(45), aws: 7, stw: 3.5, heading: 0, heel: 0 }, state);
 * `${degrees(twa).toFixed(1)}° ${tws.toFixed(2)} m/s` // "73.7° 5.16 m/s"
 */
export function liveWind(sample: LiveSample, state: LiveState): CorrectedSecond {
  for (const [name, place] of SAMPLE_PLACES) state.sample[place] = sample[name] ?? Number.NaN;
  const out = liveWindInto(state.sample, state, state.answer);
  const of = (place: number): number => out[place]!;
  return {
    time: of(LIVE_WIND.time),
    twd: of(LIVE_WIND.twd),
    tws: of(LIVE_WIND.tws),
    twa: of(LIVE_WIND.twa),
    gwd: of(LIVE_WIND.gwd),
    gws: of(LIVE_WIND.gws),
    awa: of(LIVE_WIND.awa),
    aws: of(LIVE_WIND.aws),
    stw: of(LIVE_WIND.stw),
    heading: of(LIVE_WIND.heading),
    heel: of(LIVE_WIND.heel),
    leeway: of(LIVE_WIND.leeway),
    set: of(LIVE_WIND.set),
    drift: of(LIVE_WIND.drift),
  };
}
