import { wrapAngle, wrapDirection } from "../angles.ts";
import { levelAthwart } from "../physics/attitude.ts";
import { leewayAngle } from "../physics/leeway.ts";
import { directionOf, speedOf } from "../physics/vectors.ts";
import type { Wind } from "../physics/windTriangle.ts";
import type { MetresPerSecond, Radians, Seconds } from "../units.ts";
import { cupSpeedFromReading, flowSpeed } from "./anemometer.ts";
import { headingFromReading } from "./compass.ts";
import { modelledHeel } from "./heelModel.ts";
import { heelFromReading } from "./heelSensor.ts";
import {
  exactLaws,
  gainsTogether,
  type LawErrors,
  leewayFactor,
  skewFactor,
  speedWithDeficit,
  thirdHarmonic,
  windageLeeway,
} from "./lawErrors.ts";
import type { SensorSettings } from "./parameters.ts";
import { speedFromReading, UPRIGHT } from "./speedSensor.ts";
import { flowAngleFromReading } from "./vane.ts";

/** What the instruments show at one moment (or in the mean of a leg's row), SI and radians; NaN where missing. */
export interface BoatReadings {
  /** Apparent wind, indicated: angle in (−π, π], speed. */
  awa: Radians;
  aws: MetresPerSecond;
  stw: MetresPerSecond;
  heading: Radians;
  heel: Radians;
  /** Velocity over ground, from true north. */
  east: MetresPerSecond;
  north: MetresPerSecond;
}

/** How readings are to be understood. */
export interface Circumstances {
  /** With sails down there is no upwash, no speed-up and no leeway. */
  readonly sailsUp: boolean;
  /** "true": `stw` is the speed along the boat already, free of faults (or speed over ground that stands in for it). */
  readonly stwIs: "reading" | "true";
  /**
   * "true": `heading` is free of faults and from true north. "course": it is the course made good, from true north,
   * where there is no compass: the heading is that less leeway.
   */
  readonly headingIs: "reading" | "true" | "course";
  /** "true": `heel` is free of faults, positive to starboard. "modelled": heel follows from the indicated wind (M25). */
  readonly heelIs: "reading" | "true" | "modelled";
  /**
   * Variation, rad, east positive, that turns the heading into one from true north; 0 where the log's headings are true.
   * NaN where it is unknown: directions are then magnetic, and nothing is told over the ground.
   */
  readonly variation: Radians;
  /** The masthead's own motion (M13), in the mast's plane; 0 in means over many waves. */
  readonly mastheadAhead: MetresPerSecond;
  readonly mastheadAthwart: MetresPerSecond;
  /** Time from the middle of the day's sailing, of which only what drifts in the course of it knows. */
  readonly sinceMiddle: Seconds;
}

/**
 * Every sensor there, its readings to be corrected; headings true or variation 0; the masthead at rest.
 *
 * @example
 * const circumstances = { ...underSail, variation: radians(-3) };
 */
export const underSail: Circumstances = {
  sailsUp: true,
  stwIs: "reading",
  headingIs: "reading",
  heelIs: "reading",
  variation: 0,
  mastheadAhead: 0,
  mastheadAthwart: 0,
  sinceMiddle: 0,
};

/** What is true once the sensors' faults are undone; all NaN where what it needs is. */
export interface BoatState {
  /** [0, 2π), from true north (magnetic where the variation is unknown). */
  heading: Radians;
  /** Positive to starboard. */
  heel: Radians;
  /** Through the water along the boat. */
  speedAhead: MetresPerSecond;
  /** Positive to starboard. */
  leeway: Radians;
  /** Motion through the water, leeway included. */
  throughWaterEast: MetresPerSecond;
  throughWaterNorth: MetresPerSecond;
  /** Wind in the mast's own plane, free of the sails and the masthead's motion. */
  flowAngle: Radians;
  flowSpeed: MetresPerSecond;
  /** Apparent wind in the level frame. */
  apparentAngle: Radians;
  apparentSpeed: MetresPerSecond;
  /** Wind over the water: the vector that points to where it comes from. */
  overWaterEast: MetresPerSecond;
  overWaterNorth: MetresPerSecond;
  /** Wind over the ground, likewise. */
  overGroundEast: MetresPerSecond;
  overGroundNorth: MetresPerSecond;
  /** Where the water goes over the ground. */
  currentEast: MetresPerSecond;
  currentNorth: MetresPerSecond;
}

/** A class for the reason that `unknownBoatReadings` gives. */
class UnknownState implements BoatState {
  heading = Number.NaN;
  heel = Number.NaN;
  speedAhead = Number.NaN;
  leeway = Number.NaN;
  throughWaterEast = Number.NaN;
  throughWaterNorth = Number.NaN;
  flowAngle = Number.NaN;
  flowSpeed = Number.NaN;
  apparentAngle = Number.NaN;
  apparentSpeed = Number.NaN;
  overWaterEast = Number.NaN;
  overWaterNorth = Number.NaN;
  overGroundEast = Number.NaN;
  overGroundNorth = Number.NaN;
  currentEast = Number.NaN;
  currentNorth = Number.NaN;
}

/**
 * A state of which nothing is known yet, to be filled by `boatStateOf`. Never throws.
 *
 * @example
 * unknownBoatState().heading // NaN
 */
export const unknownBoatState = (): BoatState => new UnknownState();

/** M20: speed along the boat. */
function speedAheadOf(
  readings: Readonly<BoatReadings>,
  circumstances: Circumstances,
  settings: SensorSettings,
  laws: LawErrors,
  out: BoatState,
): void {
  const { awa, stw } = readings;
  const { sailsUp, stwIs } = circumstances;
  const together = sailsUp ? gainsTogether(awa, laws) : UPRIGHT;
  out.speedAhead =
    stwIs === "true" ? stw : speedWithDeficit(speedFromReading(stw, awa, settings.speed, together), laws);
}

/** M22, M25, M12: heel and leeway. */
function heelAndLeewayOf(
  readings: Readonly<BoatReadings>,
  circumstances: Circumstances,
  settings: SensorSettings,
  laws: LawErrors,
  out: BoatState,
): void {
  const { awa, aws, heel } = readings;
  const { sailsUp, heelIs } = circumstances;
  if (heelIs === "reading") out.heel = heelFromReading(heel, settings.heel);
  else if (heelIs === "true") out.heel = heel;
  else out.heel = sailsUp ? modelledHeel(awa, aws, settings.heelModel) : 0;
  out.leeway = sailsUp
    ? leewayAngle(out.heel, out.speedAhead, settings.leeway.coefficient) *
      leewayFactor(out.speedAhead, laws) *
      skewFactor(awa, laws)
    : windageLeeway(awa, aws, out.speedAhead, laws);
}

/** M21: heading, from the north that the circumstances allow. */
function headingOf(
  readings: Readonly<BoatReadings>,
  circumstances: Circumstances,
  settings: SensorSettings,
  laws: LawErrors,
  out: BoatState,
): void {
  const { headingIs, variation } = circumstances;
  if (headingIs === "true") out.heading = wrapDirection(readings.heading);
  else if (headingIs === "course") out.heading = wrapDirection(readings.heading - out.leeway);
  else {
    const heading = wrapDirection(
      headingFromReading(readings.heading, out.heel, settings.compass) +
        thirdHarmonic(readings.heading, laws) +
        laws.compassDrift * circumstances.sinceMiddle,
    );
    out.heading = Number.isNaN(variation) ? heading : wrapDirection(heading + variation);
  }
}

/** M23, M24, M13: the wind in the mast's own plane. */
function flowOf(
  readings: Readonly<BoatReadings>,
  circumstances: Circumstances,
  settings: SensorSettings,
  _laws: LawErrors,
  out: BoatState,
): void {
  const { sailsUp, mastheadAhead, mastheadAthwart } = circumstances;
  const { vane, anemometer } = settings;
  const cups = cupSpeedFromReading(readings.aws, anemometer);
  const angle = sailsUp
    ? flowAngleFromReading(readings.awa, cups, vane)
    : wrapAngle(readings.awa - vane.mastheadOffset);
  const speed = sailsUp ? flowSpeed(cups, angle, anemometer) : cups;
  if (mastheadAhead === 0 && mastheadAthwart === 0) {
    out.flowAngle = angle;
    out.flowSpeed = speed;
  } else {
    const ahead = speed * Math.cos(angle) - mastheadAhead;
    const athwart = speed * Math.sin(angle) - mastheadAthwart;
    out.flowAngle = Math.atan2(athwart, ahead);
    out.flowSpeed = speedOf(ahead, athwart);
  }
}

/** M11, M10, M14: level, then the wind over the water and over the ground, and the current. */
function windsOf(
  readings: Readonly<BoatReadings>,
  circumstances: Circumstances,
  _settings: SensorSettings,
  _laws: LawErrors,
  out: BoatState,
): void {
  const magnetic = circumstances.headingIs === "reading" && Number.isNaN(circumstances.variation);
  const east = magnetic ? Number.NaN : readings.east;
  const north = magnetic ? Number.NaN : readings.north;
  const { heading, speedAhead } = out;
  const sine = Math.sin(heading);
  const cosine = Math.cos(heading);
  const ahead = out.flowSpeed * Math.cos(out.flowAngle);
  const athwart = levelAthwart(ahead, out.flowSpeed * Math.sin(out.flowAngle), out.heel, 0);
  const adrift = speedAhead * Math.tan(out.leeway);
  const waterEast = speedAhead * sine + adrift * cosine;
  const waterNorth = speedAhead * cosine - adrift * sine;
  const apparentEast = ahead * sine + athwart * cosine;
  const apparentNorth = ahead * cosine - athwart * sine;
  out.apparentAngle = Math.atan2(athwart, ahead);
  out.apparentSpeed = speedOf(ahead, athwart);
  out.throughWaterEast = waterEast;
  out.throughWaterNorth = waterNorth;
  out.overWaterEast = apparentEast - waterEast;
  out.overWaterNorth = apparentNorth - waterNorth;
  out.overGroundEast = apparentEast - east;
  out.overGroundNorth = apparentNorth - north;
  out.currentEast = east - waterEast;
  out.currentNorth = north - waterNorth;
}

/**
 * The steps of M27, each needing those before it. They are called through a list so that the engine compiles each by itself: made
 * one, they are past what it expands in place, and every number that a call returns is then an object to be collected.
 */
const STEPS = [speedAheadOf, heelAndLeewayOf, headingOf, flowOf, windsOf] as const;

/**
 * M27. What is true, from what the instruments show: the faults undone in the order in which each needs the one before:
 * boat speed, heel, heading, vane and anemometer in the mast's own plane, masthead motion, level, leeway, triangle.
 *
 * Allocates nothing: fits call it millions of times.
 *
 * @param readings as indicated, on the corrections that `settings` count from
 * @param out filled and returned; a field is NaN where a reading that it needs is missing. The wind over the ground needs
 *   no speed through the water, so a wheel at rest hides only what is relative to the water
 * @param laws what the laws leave out (M29); they are taken at their word unless told
 * @returns `out`. Never throws.
 * @example
 * const readings = { awa: radians(45), aws: 7, stw: 3.5, heading: 0, heel: 0, east: 0, north: 3.5 };
 * const state = boatStateOf(readings, underSail, noCorrections, unknownBoatState());
 * overWaterWind(state).speed.toFixed(2) // "5.16"
 */
export function boatStateOf(
  readings: Readonly<BoatReadings>,
  circumstances: Circumstances,
  settings: SensorSettings,
  out: BoatState,
  laws: LawErrors = exactLaws,
): BoatState {
  for (const step of STEPS) step(readings, circumstances, settings, laws, out);
  return out;
}

/**
 * Direction and speed of a state's wind over the water (M9). Never throws; NaN where unknown, direction also in a calm.
 *
 * @example
 * overWaterWind({ ...unknownBoatState(), overWaterEast: 3, overWaterNorth: 4 }).speed // 5
 */
export const overWaterWind = ({ overWaterEast, overWaterNorth }: Readonly<BoatState>): Wind => ({
  direction: directionOf(overWaterEast, overWaterNorth),
  speed: speedOf(overWaterEast, overWaterNorth),
});

/**
 * Direction and speed of a state's wind over the ground (M9). Never throws; NaN where unknown, direction also in a calm.
 *
 * @example
 * overGroundWind({ ...unknownBoatState(), overGroundEast: 3, overGroundNorth: 4 }).speed // 5
 */
export const overGroundWind = ({ overGroundEast, overGroundNorth }: Readonly<BoatState>): Wind => ({
  direction: directionOf(overGroundEast, overGroundNorth),
  speed: speedOf(overGroundEast, overGroundNorth),
});
