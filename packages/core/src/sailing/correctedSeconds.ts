import { changesNothing, readingsWithoutActive } from "../calibration/activeReadings.ts";
import { type Boat, leewayLawBreakers } from "../calibration/boat.ts";
import { mastheadMotionAhead, mastheadMotionAthwart } from "../physics/attitude.ts";
import { directionOf, speedOf } from "../physics/vectors.ts";
import { trueWindAngle } from "../physics/windTriangle.ts";
import { unknownBoatReadings } from "../sensors/boatReadings.ts";
import {
  type BoatReadings,
  type BoatState,
  boatStateOf,
  type Circumstances,
  overGroundWind,
  overWaterWind,
  unknownBoatState,
} from "../sensors/boatState.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { MetresPerSecond, Radians, Seconds } from "../units.ts";
import type { SecondsBlock } from "./series.ts";

/** What a second of the log becomes once the faults are undone; NaN where it cannot be told. */
export interface CorrectedSecond {
  /** s since 1970 UTC. */
  readonly time: Seconds;
  /** Over the water: where the wind comes from, its speed, its angle to the bow. */
  readonly twd: Radians;
  readonly tws: MetresPerSecond;
  readonly twa: Radians;
  /** Over the ground. */
  readonly gwd: Radians;
  readonly gws: MetresPerSecond;
  /** Apparent wind, level. */
  readonly awa: Radians;
  readonly aws: MetresPerSecond;
  readonly stw: MetresPerSecond;
  readonly heading: Radians;
  readonly heel: Radians;
  readonly leeway: Radians;
  /** Current: where the water goes, and how fast. */
  readonly set: Radians;
  readonly drift: MetresPerSecond;
}

/** What a correction of seconds needs to know besides them. */
export interface CorrectionOptions {
  /** Total settings, counted from the base. */
  readonly settings: SensorSettings;
  readonly boat: Boat;
  /** Which instruments the recording has at all; something else stands in for those that it lacks. */
  readonly has: { readonly paddle: boolean; readonly compass: boolean; readonly heel: boolean };
  /** "true" where variation is known somewhere in the recording: seconds without it then have no directions. */
  readonly directionsAre: "true" | "magnetic";
  /** Whether the sails are down at that second. */
  readonly isMotoring: (time: Seconds) => boolean;
}

const orElse = (value: number, otherwise: number): number => (Number.isNaN(value) ? otherwise : value);

function fillReadings({ columns }: SecondsBlock, index: number, out: BoatReadings): void {
  out.awa = columns.awa[index]!;
  out.aws = columns.aws[index]!;
  out.stw = columns.stw[index]!;
  out.heading = columns.heading[index]!;
  out.heel = columns.heel[index]!;
  out.east = columns.east[index]!;
  out.north = columns.north[index]!;
}

/** Motion over the ground where the recording has no paddle wheel or no compass. */
function fillStandIns(has: CorrectionOptions["has"], out: BoatReadings): void {
  if (!has.paddle) out.stw = speedOf(out.east, out.north);
  if (!has.compass) out.heading = directionOf(out.east, out.north);
}

function circumstancesOf(block: SecondsBlock, index: number, options: CorrectionOptions): Circumstances {
  const { has, boat, isMotoring, settings } = options;
  const { columns, headingIsTrue, time } = block;
  const { windSensorHeight, windSensorForward } = boat;
  const toStarboard = settings.heel.sign * boat.settings.active.heel.sign;
  const heelRate = toStarboard * orElse(columns.heelRate[index]!, 0);
  const pitchRate = orElse(columns.pitchRate[index]!, 0);
  return {
    sailsUp: !isMotoring(time[index]!),
    stwIs: has.paddle ? "reading" : "true",
    headingIs: has.compass ? "reading" : "course",
    heelIs: has.heel ? "reading" : "modelled",
    variation: headingIsTrue ? 0 : orElse(columns.variation[index]!, boat.variation),
    mastheadAhead: mastheadMotionAhead(windSensorHeight, pitchRate),
    mastheadAthwart: mastheadMotionAthwart(windSensorHeight, heelRate, windSensorForward, 0),
    sinceMiddle: 0,
  };
}

function secondOf(
  time: Seconds,
  state: Readonly<BoatState>,
  leewayHolds: boolean,
  hasNorth: boolean,
): CorrectedSecond {
  const [water, ground] = [overWaterWind(state), overGroundWind(state)];
  const direction = (value: Radians): Radians => (hasNorth ? value : Number.NaN);
  return {
    time,
    twd: direction(water.direction),
    tws: water.speed,
    twa: trueWindAngle(water.direction, state.heading),
    gwd: direction(ground.direction),
    gws: ground.speed,
    awa: state.apparentAngle,
    aws: state.apparentSpeed,
    stw: state.speedAhead,
    heading: direction(state.heading),
    heel: state.heel,
    leeway: leewayHolds ? state.leeway : Number.NaN,
    set: directionOf(state.currentEast, state.currentNorth),
    drift: speedOf(state.currentEast, state.currentNorth),
  };
}

/**
 * M27, M28. The seconds of a block with the faults of the sensors undone: what was active in the instruments first, then
 * the total settings.
 *
 * @returns one for each second of the block; NaN where what it needs is missing. Never throws.
 * @example
 * const has = { paddle: true, compass: true, heel: true };
 * const options = { settings: noCorrections, boat, has, directionsAre: "true", isMotoring: () => false };
 * const [second] = correctedSeconds(block, options);
 * second.time === block.time[0] // true
 */
export function* correctedSeconds(
  block: SecondsBlock,
  options: CorrectionOptions,
): Generator<CorrectedSecond, void, undefined> {
  const { settings, boat, has, directionsAre } = options;
  const { active } = boat.settings;
  const nothingActive = changesNothing(active);
  const leewayHolds = leewayLawBreakers(boat.rig).length === 0;
  const readings = unknownBoatReadings();
  const state = unknownBoatState();
  for (let index = 0; index < block.length; index++) {
    fillReadings(block, index, readings);
    if (!nothingActive) readingsWithoutActive(readings, active, readings);
    fillStandIns(has, readings);
    const circumstances = circumstancesOf(block, index, options);
    boatStateOf(readings, circumstances, settings, state);
    const hasNorth = directionsAre === "magnetic" || !has.compass || !Number.isNaN(circumstances.variation);
    yield secondOf(block.time[index]!, state, leewayHolds, hasNorth);
  }
}
