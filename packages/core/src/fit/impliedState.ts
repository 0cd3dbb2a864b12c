import { wrapAngle } from "../angles.ts";
import type { LegRow } from "../sailing/legRow.ts";
import { type BoatReadings, type BoatState, boatStateOf, type Circumstances } from "../sensors/boatState.ts";
import type { LawErrors } from "../sensors/lawErrors.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { Radians } from "../units.ts";
import type { RecordingChannels } from "./fitContext.ts";

/** What a row implies once faults are undone, as far as the fit needs it; NaN where a channel is missing. */
export interface ImpliedStates {
  /** Where the wind comes from, as a vector of its speed (m/s): over the ground with GPS, else over the water. */
  readonly windEast: Float64Array;
  /** m/s. */
  readonly windNorth: Float64Array;
  /** Velocity over ground less velocity through water, m/s. */
  readonly currentEast: Float64Array;
  /** m/s. */
  readonly currentNorth: Float64Array;
  /** Level apparent wind angle, rad. */
  readonly apparentAngle: Float64Array;
  /** True wind angle over the water, rad. */
  readonly trueAngle: Float64Array;
  /** Heel, rad. */
  readonly heel: Float64Array;
  /** Speed through water, m/s; over ground where there is no paddle wheel. */
  readonly speed: Float64Array;
}

export type ImpliedPlace = keyof ImpliedStates;

export const IMPLIED_PLACES = [
  "windEast",
  "windNorth",
  "currentEast",
  "currentNorth",
  "apparentAngle",
  "trueAngle",
  "heel",
  "speed",
] as const satisfies readonly ImpliedPlace[];

/** States of so many rows, all 0. Never throws. */
export const impliedStates = (rows: number): ImpliedStates => ({
  windEast: new Float64Array(rows),
  windNorth: new Float64Array(rows),
  currentEast: new Float64Array(rows),
  currentNorth: new Float64Array(rows),
  apparentAngle: new Float64Array(rows),
  trueAngle: new Float64Array(rows),
  heel: new Float64Array(rows),
  speed: new Float64Array(rows),
});

/**
 * How a row's readings are to be understood, given what the recording offers (M27, M50). Variation matters only beside GPS,
 * whose north is the true one. Never throws.
 */
export function circumstancesOf(row: LegRow, channels: RecordingChannels): Circumstances {
  const heeled = channels.heel && !Number.isNaN(row.mean.heel);
  return {
    sailsUp: row.kind === "sailing",
    stwIs: channels.paddle ? "reading" : "true",
    headingIs: channels.compass ? "reading" : "course",
    heelIs: heeled ? "reading" : "modelled",
    variation: row.headingIsTrue || !channels.gps ? 0 : row.variation,
    mastheadAhead: 0,
    mastheadAthwart: 0,
    sinceMiddle: 0,
  };
}

/** A row's values in the order of MOMENT_CHANNELS as readings; GPS stands in for wheel and compass (M50). Never throws. */
export function readingsFrom(values: Float64Array, channels: RecordingChannels, out: BoatReadings): void {
  out.awa = values[0]!;
  out.aws = values[1]!;
  out.stw = values[2]!;
  out.heading = values[3]!;
  out.heel = values[4]!;
  out.east = values[5]!;
  out.north = values[6]!;
  if (!channels.paddle) out.stw = Math.hypot(out.east, out.north);
  if (!channels.compass) out.heading = Math.atan2(out.east, out.north);
}

/** True wind angle over the water, unwrapped to within half a turn of the apparent angle, so that both may be averaged. */
function trueAngleNear({
  overWaterEast,
  overWaterNorth,
  heading,
  apparentAngle,
}: Readonly<BoatState>): Radians {
  const angle = Math.atan2(overWaterEast, overWaterNorth) - heading;
  return apparentAngle + wrapAngle(angle - apparentAngle);
}

/**
 * M50. What values of a row's channels imply (M27), added to place `index` of `out` with a weight: of wind and current the
 * vectors, so that a mean over points is a mean of vectors.
 *
 * @param values in the order of MOMENT_CHANNELS, NaN where missing
 * @param weight of these values in the row's mean
 * @param out added to, at `index`; NaN where a channel is missing that the quantity needs
 * @param scratch working memory, overwritten
 * @param laws what the laws leave out
 * Never throws.
 */
export function addImpliedState(
  values: Float64Array,
  circumstances: Circumstances,
  settings: SensorSettings,
  channels: RecordingChannels,
  weight: number,
  out: ImpliedStates,
  index: number,
  scratch: { readonly readings: BoatReadings; readonly state: BoatState },
  laws: LawErrors,
): void {
  readingsFrom(values, channels, scratch.readings);
  const state = boatStateOf(scratch.readings, circumstances, settings, scratch.state, laws);
  out.windEast[index]! += weight * (channels.gps ? state.overGroundEast : state.overWaterEast);
  out.windNorth[index]! += weight * (channels.gps ? state.overGroundNorth : state.overWaterNorth);
  const drifts = channels.gps && channels.paddle && channels.compass;
  out.currentEast[index]! += weight * (drifts ? state.currentEast : Number.NaN);
  out.currentNorth[index]! += weight * (drifts ? state.currentNorth : Number.NaN);
  out.apparentAngle[index]! += weight * state.apparentAngle;
  out.trueAngle[index]! += weight * trueAngleNear(state);
  out.heel[index]! += weight * state.heel;
  out.speed[index]! += weight * state.speedAhead;
}
