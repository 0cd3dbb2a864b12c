import { directionOf, speedOf } from "../physics/vectors.ts";
import type { Wind } from "../physics/windTriangle.ts";
import type { MetresPerSecond, Radians, Seconds } from "../units.ts";
import { exactLaws, type LawErrors } from "./lawErrors.ts";
import type { SensorSettings } from "./parameters.ts";
import { flowOf, headingOf, heelAndLeewayOf, type StateStep, speedAheadOf, windsOf } from "./stateSteps.ts";

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

/**
 * The steps of M27, each needing those before it. They are called through a list so that the engine compiles each by itself: made
 * one, they are past what it expands in place, and every number that a call returns is then an object to be collected.
 */
const STEPS: readonly StateStep[] = [speedAheadOf, heelAndLeewayOf, headingOf, flowOf, windsOf];

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
