import { wrapDirection } from "../angles.ts";
import { degrees, type Radians, type Seconds } from "../units.ts";
import { SECONDS_IN_A_DAY } from "./calendar.ts";

/**
 * Fields of NMEA 0183 sentences as text. A missing value (NaN or infinite) is an empty field, never 0.
 * None of these throws, unless `decimals` is no whole number from 0 to 100.
 */

const FULL_TURN_DEGREES = 360;
/** Ten-thousandths of a minute of arc (0.2 m) is what most receivers print; one digit more keeps a simulated boat smooth. */
const MINUTE_DECIMALS = 5;

const twoDigits = (value: number): string => String(value).padStart(2, "0");

/** A number with so many decimals; "-0.0" is written "0.0". */
export function decimalField(value: number, decimals: number): string {
  if (!Number.isFinite(value)) return "";
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? (0).toFixed(decimals) : text;
}

/** A direction in degrees, 0 ≤ direction < 360 also after rounding. */
export function directionField(direction: Radians, decimals: number): string {
  const text = decimalField(degrees(wrapDirection(direction)), decimals);
  return Number(text) === FULL_TURN_DEGREES ? (0).toFixed(decimals) : text;
}

/** Size and letter, such as "7.8,W": an angle with its sign as one of two letters; ",", both fields empty, if missing. */
export function letteredAngleFields(angle: Radians, decimals: number, letters: "EW" | "RL"): string {
  if (!Number.isFinite(angle)) return ",";
  return `${decimalField(Math.abs(degrees(angle)), decimals)},${letters.charAt(angle < 0 ? 1 : 0)}`;
}

/**
 * M31. An angle of position as whole degrees and decimal minutes, and its hemisphere: "5251.00940,N".
 *
 * @param wholeDigits digits for the degrees: 2 for latitude, 3 for longitude
 */
function positionFields(angle: Radians, wholeDigits: number, letters: "NS" | "EW"): string {
  if (!Number.isFinite(angle)) return ",";
  const scale = 10 ** MINUTE_DECIMALS;
  const units = Math.round(Math.abs(degrees(angle)) * 60 * scale);
  const whole = Math.floor(units / (60 * scale));
  const minutes = ((units - whole * 60 * scale) / scale).toFixed(MINUTE_DECIMALS);
  const letter = letters.charAt(angle < 0 ? 1 : 0);
  return `${String(whole).padStart(wholeDigits, "0")}${minutes.padStart(MINUTE_DECIMALS + 3, "0")},${letter}`;
}

/** M31. Latitude as "ddmm.mmmmm,N" or "…,S". */
export const latitudeFields = (latitude: Radians): string => positionFields(latitude, 2, "NS");

/** M31. Longitude as "dddmm.mmmmm,E" or "…,W". */
export const longitudeFields = (longitude: Radians): string => positionFields(longitude, 3, "EW");

const hundredths = (time: Seconds): number => Math.round(time * 100);

/** UTC time of day "hhmmss.ss". */
export function timeOfDayField(time: Seconds): string {
  if (!Number.isFinite(time)) return "";
  const day = SECONDS_IN_A_DAY * 100;
  const ofDay = hundredths(time) - day * Math.floor(hundredths(time) / day);
  const seconds = Math.floor(ofDay / 100);
  const hours = twoDigits(Math.floor(seconds / 3600));
  return `${hours}${twoDigits(Math.floor(seconds / 60) % 60)}${twoDigits(seconds % 60)}.${twoDigits(ofDay % 100)}`;
}

/** UTC date, joined as asked: "" gives "ddmmyy", "," gives "dd,mm,yyyy". */
export function dateField(time: Seconds, joint: "" | ","): string {
  if (!Number.isFinite(time)) return joint + joint;
  const date = new Date(hundredths(time) * 10);
  const year = String(date.getUTCFullYear());
  return [
    twoDigits(date.getUTCDate()),
    twoDigits(date.getUTCMonth() + 1),
    joint ? year : year.slice(-2),
  ].join(joint);
}
