import { anemometerReadingOf, cupSpeed, cupSpeedFromReading, flowSpeed } from "../sensors/anemometer.ts";
import type { BoatReadings } from "../sensors/boatState.ts";
import { headingFromReading, headingReadingOf } from "../sensors/compass.ts";
import { heelFromReading, heelReadingOf } from "../sensors/heelSensor.ts";
import { noCorrections } from "../sensors/noCorrections.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { speedFromReading, speedReadingOf } from "../sensors/speedSensor.ts";
import { flowAngleFromReading, vaneReadingOf } from "../sensors/vane.ts";

/** The groups of settings that change what the instruments put out. */
const CHANGING = ["speed", "compass", "heel", "vane", "anemometer"] as const;

const alike = (one: object, other: Readonly<Record<string, unknown>>): boolean =>
  Object.entries(one).every(([name, value]) => value === other[name]);

/** Whether settings change nothing at all of what the instruments put out. Never throws. */
export const changesNothing = (settings: SensorSettings): boolean =>
  CHANGING.every((group) => alike(settings[group], { ...noCorrections[group] }));

/**
 * M28. What the instruments put out when corrections are keyed into them: each sensor's reading with its own fault undone,
 * the vane's and anemometer's in the mast's own plane. Heel, leeway and the triangle stay as they are: they are no part of
 * a reading. A reading of 0 stays 0: there was nothing to correct.
 *
 * @param readings of the sensors without corrections
 * @param out filled and returned; NaN where a reading that it needs is. `readings` itself may be given
 * @returns `out`. Never throws.
 * @example
 * const active = { ...noCorrections, vane: { ...noCorrections.vane, mastheadOffset: 0.05 } };
 * const readings = { awa: 0.75, aws: 7, stw: 3.5, heading: 1, heel: 0, east: 3, north: 1 };
 * readingsWithActive(readings, active, unknownBoatReadings()).awa.toFixed(6) // "0.700000"
 */
export function readingsWithActive(
  readings: Readonly<BoatReadings>,
  active: SensorSettings,
  out: BoatReadings,
): BoatReadings {
  const { awa, aws, stw, heading, heel, east, north } = readings;
  const cups = cupSpeedFromReading(aws, active.anemometer);
  out.stw = stw === 0 ? 0 : speedFromReading(stw, awa, active.speed);
  out.heel = heelFromReading(heel, active.heel);
  out.heading = headingFromReading(heading, out.heel, active.compass);
  out.awa = flowAngleFromReading(awa, cups, active.vane);
  out.aws = aws === 0 ? 0 : flowSpeed(cups, out.awa, active.anemometer);
  out.east = east;
  out.north = north;
  return out;
}

/**
 * M28. The readings of the sensors without corrections, from what the instruments put out with corrections active: the
 * inverse of `readingsWithActive`, exact to rounding.
 *
 * @param out filled and returned; NaN where a reading that it needs is. `readings` itself may be given
 * @returns `out`. Never throws.
 * @example
 * const active = { ...noCorrections, vane: { ...noCorrections.vane, mastheadOffset: 0.05 } };
 * const shown = { awa: 0.7, aws: 7, stw: 3.5, heading: 1, heel: 0, east: 3, north: 1 };
 * readingsWithoutActive(shown, active, unknownBoatReadings()).awa.toFixed(6) // "0.750000"
 */
export function readingsWithoutActive(
  readings: Readonly<BoatReadings>,
  active: SensorSettings,
  out: BoatReadings,
): BoatReadings {
  const { awa, aws, stw, heading, heel, east, north } = readings;
  const cups = aws === 0 ? Number.NaN : cupSpeed(aws, awa, active.anemometer);
  out.awa = vaneReadingOf(awa, cups, active.vane);
  out.aws = aws === 0 ? 0 : anemometerReadingOf(cups, active.anemometer);
  out.stw = stw === 0 ? 0 : speedReadingOf(stw, out.awa, active.speed);
  out.heel = heelReadingOf(heel, active.heel);
  out.heading = headingReadingOf(heading, heel, active.compass);
  out.east = east;
  out.north = north;
  return out;
}
