import { wrapDirection } from "../angles.ts";
import {
  type Celsius,
  type Metres,
  type MetresPerSecond,
  type Radians,
  radians,
  type Seconds,
} from "../units.ts";
import { SECONDS_IN_A_DAY } from "./calendar.ts";
import type { PgnFields } from "./pgnFields.ts";

/** Angles are counted in ten-thousandths of a radian; a turn and half a turn, rounded up to them. */
const ANGLES_IN_A_RADIAN = 1e4;
const TURN = Math.ceil(2 * Math.PI * ANGLES_IN_A_RADIAN);
const HALF_TURN = Math.ceil(Math.PI * ANGLES_IN_A_RADIAN);

/** Of both, so much makes the unit of the field. */
const SPEEDS_IN_A_METRE_PER_SECOND = 100;
const DEPTHS_IN_A_METRE = 100;
const OFFSETS_IN_A_METRE = 1000;

/** Temperature of melting ice on the scale of Kelvin, by definition of the degree Celsius. */
export const ZERO_CELSIUS_IN_KELVIN = 273.15;

/** The day on which the time of GPS begins: 1980-01-06. What tells an earlier one does not know the date. */
const FIRST_DAY_OF_GPS = 3657;

const TIMES_IN_A_SECOND = 1e4;

/** A direction from north in two bytes, [0, 2π). */
export function direction(fields: PgnFields, at: number): Radians {
  const count = fields.unsigned(at, 2);
  if (count > TURN) return fields.fault("a direction from 0 to 2π rad");
  return wrapDirection(count / ANGLES_IN_A_RADIAN);
}

/** An angle in two bytes, [−π, π]. */
export function angle(fields: PgnFields, at: number): Radians {
  const count = fields.signed(at, 2);
  if (Math.abs(count) > HALF_TURN) return fields.fault("an angle from −π to π rad");
  return count / ANGLES_IN_A_RADIAN;
}

export const speed = (fields: PgnFields, at: number): MetresPerSecond =>
  fields.unsigned(at, 2) / SPEEDS_IN_A_METRE_PER_SECOND;

/** A depth in four bytes. */
export const depth = (fields: PgnFields, at: number): Metres => fields.unsigned(at, 4) / DEPTHS_IN_A_METRE;

/** A height in two bytes. */
export const offset = (fields: PgnFields, at: number): Metres => fields.signed(at, 2) / OFFSETS_IN_A_METRE;

/** A temperature in hundredths of a kelvin in two bytes, or in thousandths in three. */
export const temperature = (fields: PgnFields, at: number, bytes: 2 | 3): Celsius =>
  fields.unsigned(at, bytes) / (bytes === 2 ? 100 : 1000) - ZERO_CELSIUS_IN_KELVIN;

/** A latitude or longitude told as a count of parts of a degree. */
export function place(
  fields: PgnFields,
  count: number,
  partsOfADegree: number,
  highestDegrees: 90 | 180,
): Radians {
  const told = count / partsOfADegree;
  if (Math.abs(told) > highestDegrees) return fields.fault("a place on Earth");
  return radians(told);
}

/** Days since 1970 in two bytes and the time of day behind them; NaN where either is not known. */
export function dateAndTime(fields: PgnFields, at: number): Seconds {
  const days = fields.unsigned(at, 2);
  const time = fields.unsigned(at + 2, 4) / TIMES_IN_A_SECOND;
  if (time > SECONDS_IN_A_DAY + 1) return fields.fault("a time of day");
  return days < FIRST_DAY_OF_GPS ? Number.NaN : days * SECONDS_IN_A_DAY + time;
}
