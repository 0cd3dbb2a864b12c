import { wrapAngle, wrapDirection } from "../angles.ts";
import { speedOf } from "../physics/vectors.ts";
import type { MetresPerSecond, Radians } from "../units.ts";
import { anemometerReadingOf, cupSpeed } from "./anemometer.ts";
import type { BoatReadings, BoatState, Circumstances } from "./boatState.ts";
import { headingReadingOf } from "./compass.ts";
import { heelReadingOf } from "./heelSensor.ts";
import type { SensorSettings } from "./parameters.ts";
import { speedReadingOf, UPRIGHT } from "./speedSensor.ts";
import { vaneReadingOf } from "./vane.ts";

/** What of a state the instruments answer to. */
export type SensedState = Readonly<
  Pick<
    BoatState,
    | "heading"
    | "heel"
    | "speedAhead"
    | "leeway"
    | "apparentAngle"
    | "apparentSpeed"
    | "currentEast"
    | "currentNorth"
  >
>;

/** A class, so that the engine keeps the numbers of readings in place: object literals share what they hold with others of the same names. */
class UnknownReadings implements BoatReadings {
  awa = Number.NaN;
  aws = Number.NaN;
  stw = Number.NaN;
  heading = Number.NaN;
  heel = Number.NaN;
  east = Number.NaN;
  north = Number.NaN;
}

/**
 * Readings of which nothing is known yet, to be filled by `readingsOf`. Never throws.
 *
 * @example
 * unknownBoatReadings().awa // NaN
 */
export const unknownBoatReadings = (): BoatReadings => new UnknownReadings();

/** M11, M13, M24, M23 backwards: the level wind into the mast's plane, then onto cups and vane. */
function windReadings(
  state: SensedState,
  circumstances: Circumstances,
  settings: SensorSettings,
  out: BoatReadings,
): void {
  const { vane, anemometer } = settings;
  const { sailsUp, mastheadAhead, mastheadAthwart } = circumstances;
  const cosine = Math.abs(state.heel) < Math.PI / 2 ? Math.cos(state.heel) : Number.NaN;
  const ahead = state.apparentSpeed * Math.cos(state.apparentAngle) + mastheadAhead;
  const athwart = state.apparentSpeed * Math.sin(state.apparentAngle) * cosine + mastheadAthwart;
  const angle: Radians = Math.atan2(athwart, ahead);
  const speed: MetresPerSecond = speedOf(ahead, athwart);
  const cups = sailsUp ? cupSpeed(speed, angle, anemometer) : speed;
  out.aws = anemometerReadingOf(cups, anemometer);
  out.awa = sailsUp ? vaneReadingOf(angle, cups, vane) : wrapAngle(angle + vane.mastheadOffset);
}

/** M21 backwards; the course made good where that stands in for the heading. */
function headingReading(state: SensedState, circumstances: Circumstances, settings: SensorSettings): Radians {
  const { headingIs, variation } = circumstances;
  if (headingIs === "true") return wrapDirection(state.heading);
  if (headingIs === "course") return wrapDirection(state.heading + state.leeway);
  const fromSameNorth = Number.isNaN(variation) ? state.heading : state.heading - variation;
  return headingReadingOf(fromSameNorth, state.heel, settings.compass);
}

/**
 * M27. What the instruments would show in a state: the inverse of `boatStateOf`, each fault put back in the opposite
 * order. Exact to rounding; the readings below which cups and wheel stand still come out as 0.
 *
 * @param state heading from true north, or magnetic where the variation is unknown (velocity over ground is then NaN)
 * @param out filled and returned; NaN where a part of the state that it needs is; heel NaN where it is modelled, since
 *   then no sensor shows it
 * @returns `out`. Never throws.
 * @example
 * const readings = { awa: 0.7, aws: 7, stw: 3.5, heading: 1, heel: -0.2, east: 3, north: 1 };
 * const state = boatStateOf(readings, underSail, noCorrections, unknownBoatState());
 * readingsOf(state, underSail, noCorrections, unknownBoatReadings()).awa.toFixed(6) // "0.700000"
 */
export function readingsOf(
  state: SensedState,
  circumstances: Circumstances,
  settings: SensorSettings,
  out: BoatReadings,
): BoatReadings {
  const { sailsUp, stwIs, heelIs } = circumstances;
  windReadings(state, circumstances, settings, out);
  out.stw =
    stwIs === "true"
      ? state.speedAhead
      : speedReadingOf(state.speedAhead, out.awa, settings.speed, sailsUp ? 0 : UPRIGHT);
  out.heading = headingReading(state, circumstances, settings);
  if (heelIs === "reading") out.heel = heelReadingOf(state.heel, settings.heel);
  else out.heel = heelIs === "true" ? state.heel : Number.NaN;
  const sine = Math.sin(state.heading);
  const cosine = Math.cos(state.heading);
  const athwart = state.speedAhead * Math.tan(state.leeway);
  out.east = state.speedAhead * sine + athwart * cosine + state.currentEast;
  out.north = state.speedAhead * cosine - athwart * sine + state.currentNorth;
  return out;
}
