import type { Metres, MetresPerSecond, Radians, RadiansPerSecond, Seconds } from "../units.ts";
import { degrees, knots } from "../units.ts";
import { nmea0183Sentence } from "./nmea0183Checksum.ts";
import {
  dateField,
  decimalField,
  directionField,
  latitudeFields,
  letteredAngleFields,
  longitudeFields,
  timeOfDayField,
} from "./nmea0183Fields.ts";
import { KILOMETRES_PER_HOUR_IN_A_METRE_PER_SECOND } from "./windDecoders.ts";

/**
 * NMEA 0183 sentences from values in SI units and radians, with checksum (M30) and without line end. Missing (NaN)
 * is an empty field. None of these throws, unless a form asks for decimals that are no whole number from 0 to 100.
 */

/** Who talks, and how many decimals its angles (degrees) and speeds (knots) have. */
export interface SentenceForm {
  /** Two letters; the default is the usual one for the sentence. */
  readonly talker?: string;
  /** Default 1. */
  readonly angleDecimals?: number;
  /** Default 2. */
  readonly speedDecimals?: number;
}

interface Form {
  readonly talker: string;
  readonly direction: (value: Radians) => string;
  readonly angle: (value: Radians) => string;
  readonly variation: (value: Radians) => string;
  readonly knots: (speed: MetresPerSecond) => string;
  readonly number: (value: number) => string;
}

function formOf({ talker, angleDecimals = 1, speedDecimals = 2 }: SentenceForm, usual: string): Form {
  return {
    talker: talker ?? usual,
    direction: (value) => directionField(value, angleDecimals),
    angle: (value) => decimalField(degrees(value), angleDecimals),
    variation: (value) => letteredAngleFields(value, angleDecimals, "EW"),
    knots: (speed) => decimalField(knots(speed), speedDecimals),
    number: (value) => decimalField(value, speedDecimals),
  };
}

const kilometresPerHour = (speed: MetresPerSecond): number =>
  speed * KILOMETRES_PER_HOUR_IN_A_METRE_PER_SECOND;

/** What an RMC sentence tells; NaN makes an empty field. */
export interface RmcValues {
  /** s since 1970 UTC. */
  readonly time: Seconds;
  readonly latitude: Radians;
  readonly longitude: Radians;
  /** Speed over ground. */
  readonly sog: MetresPerSecond;
  /** Course over ground, true. */
  readonly cog: Radians;
  /** East positive. */
  readonly variation: Radians;
}

/**
 * RMC: time, date, position, speed and course over ground, variation. Status V where there is no position.
 *
 * @returns without an end of line; NaN makes an empty field. Never throws.
 * @example
 * const values = { time: 0, latitude: radians(49), longitude: radians(-11), sog: 3, cog: 0 };
 * rmcSentence(values).startsWith("$GPRMC,000000") // true
 */
export function rmcSentence(values: RmcValues, form: SentenceForm = {}): string {
  const { talker, direction, knots, variation } = formOf(form, "GP");
  const valid = Number.isFinite(values.latitude) && Number.isFinite(values.longitude);
  return nmea0183Sentence(
    `${talker}RMC,${timeOfDayField(values.time)},${valid ? "A" : "V"},${latitudeFields(values.latitude)},` +
      `${longitudeFields(values.longitude)},${knots(values.sog)},${direction(values.cog)},` +
      `${dateField(values.time, "")},${variation(values.variation)},${valid ? "A" : "N"}`,
  );
}

/**
 * ZDA: UTC time and date, zone 00.
 *
 * @returns without an end of line; NaN makes an empty field. Never throws.
 * @example
 * zdaSentence({ time: 0 }).startsWith("$GPZDA,000000") // true
 */
export function zdaSentence(values: { readonly time: Seconds }, form: SentenceForm = {}): string {
  const { talker } = formOf(form, "GP");
  return nmea0183Sentence(`${talker}ZDA,${timeOfDayField(values.time)},${dateField(values.time, ",")},00,00`);
}

/**
 * VTG: course over ground (true and, where variation is given, magnetic) and speed over ground.
 *
 * @returns without an end of line; NaN makes an empty field. Never throws.
 * @example
 * vtgSentence({ cog: radians(90), sog: 3 }).startsWith("$GPVTG,90.0,T") // true
 */
export function vtgSentence(
  values: { readonly cog: Radians; readonly cogMagnetic?: Radians; readonly sog: MetresPerSecond },
  form: SentenceForm = {},
): string {
  const { talker, direction, knots, number } = formOf(form, "GP");
  return nmea0183Sentence(
    `${talker}VTG,${direction(values.cog)},T,${direction(values.cogMagnetic ?? Number.NaN)},M,` +
      `${knots(values.sog)},N,${number(kilometresPerHour(values.sog))},K,A`,
  );
}

/**
 * HDG: heading as the compass gives it (magnetic), no deviation applied, and variation, east positive.
 *
 * @returns without an end of line; NaN makes an empty field. Never throws.
 * @example
 * hdgSentence({ heading: radians(90) }).startsWith("$HCHDG,90.0,") // true
 */
export function hdgSentence(
  values: { readonly heading: Radians; readonly variation?: Radians },
  form: SentenceForm = {},
): string {
  const { talker, direction, variation } = formOf(form, "HC");
  return nmea0183Sentence(
    `${talker}HDG,${direction(values.heading)},,,${variation(values.variation ?? Number.NaN)}`,
  );
}

/**
 * HDT: true heading.
 *
 * @returns without an end of line; NaN makes an empty field. Never throws.
 * @example
 * hdtSentence({ heading: radians(90) }).startsWith("$HEHDT,90.0,T*") // true
 */
export function hdtSentence(values: { readonly heading: Radians }, form: SentenceForm = {}): string {
  const { talker, direction } = formOf(form, "HE");
  return nmea0183Sentence(`${talker}HDT,${direction(values.heading)},T`);
}

/**
 * VHW: speed through water, with the headings, true and magnetic, that go with it.
 *
 * @returns without an end of line; NaN makes an empty field. Never throws.
 * @example
 * vhwSentence({ stw: metresPerSecond(6) }).includes("6.00,N") // true
 */
export function vhwSentence(
  values: {
    readonly stw: MetresPerSecond;
    readonly headingTrue?: Radians;
    readonly headingMagnetic?: Radians;
  },
  form: SentenceForm = {},
): string {
  const { talker, direction, knots, number } = formOf(form, "VW");
  const { headingTrue = Number.NaN, headingMagnetic = Number.NaN, stw } = values;
  return nmea0183Sentence(
    `${talker}VHW,${direction(headingTrue)},T,${direction(headingMagnetic)},M,` +
      `${knots(stw)},N,${number(kilometresPerHour(stw))},K`,
  );
}

/**
 * MWV: wind angle to the bow and wind speed; reference R, apparent (as measured), or T, true. Status V where either is missing.
 *
 * @returns without an end of line; NaN makes an empty field. Never throws.
 * @example
 * mwvSentence({ angle: radians(30), speed: metresPerSecond(12), reference: "R" }).startsWith("$WIMWV,30.0,R,12.00,N,A*") // true
 */
export function mwvSentence(
  values: { readonly angle: Radians; readonly speed: MetresPerSecond; readonly reference: "R" | "T" },
  form: SentenceForm = {},
): string {
  const { talker, direction, knots } = formOf(form, "WI");
  const valid = Number.isFinite(values.angle) && Number.isFinite(values.speed);
  return nmea0183Sentence(
    `${talker}MWV,${direction(values.angle)},${values.reference},${knots(values.speed)},N,${valid ? "A" : "V"}`,
  );
}

/**
 * MWD: true wind direction (from, by true and magnetic north) and true wind speed.
 *
 * @returns without an end of line; NaN makes an empty field. Never throws.
 * @example
 * mwdSentence({ direction: radians(90), speed: metresPerSecond(12) }).includes("90.0,T") // true
 */
export function mwdSentence(
  values: {
    readonly direction: Radians;
    readonly directionMagnetic?: Radians;
    readonly speed: MetresPerSecond;
  },
  form: SentenceForm = {},
): string {
  const { talker, direction, knots, number } = formOf(form, "WI");
  return nmea0183Sentence(
    `${talker}MWD,${direction(values.direction)},T,${direction(values.directionMagnetic ?? Number.NaN)},M,` +
      `${knots(values.speed)},N,${number(values.speed)},M`,
  );
}

/**
 * XDR with two angular transducers, HEEL and PITCH, in degrees, each left out where it is not given.
 *
 * @returns without an end of line; NaN makes an empty field. Never throws.
 * @example
 * xdrAttitudeSentence({ heel: radians(-12) }).includes("-12.0,D") // true
 */
export function xdrAttitudeSentence(
  values: { readonly heel?: Radians; readonly pitch?: Radians },
  form: SentenceForm = {},
): string {
  const { talker, angle } = formOf(form, "II");
  const heel = values.heel === undefined ? "" : `,A,${angle(values.heel)},D,HEEL`;
  const pitch = values.pitch === undefined ? "" : `,A,${angle(values.pitch)},D,PITCH`;
  return nmea0183Sentence(`${talker}XDR${heel}${pitch}`);
}

/**
 * ROT: rate of turn, to starboard positive, in degrees a minute.
 *
 * @returns without an end of line; NaN makes an empty field. Never throws.
 * @example
 * rotSentence({ rate: radians(1) }).includes("60.0,A") // true
 */
export function rotSentence(values: { readonly rate: RadiansPerSecond }, form: SentenceForm = {}): string {
  const { talker, angle } = formOf(form, "TI");
  return nmea0183Sentence(`${talker}ROT,${angle(values.rate * 60)},A`);
}

/**
 * DPT: depth below the transducer and the transducer's offset (to the waterline positive, to the keel negative).
 *
 * @returns without an end of line; NaN makes an empty field. Never throws.
 * @example
 * dptSentence({ depth: 12.5 }).includes("12.5") // true
 */
export function dptSentence(
  values: { readonly depth: Metres; readonly offset?: Metres },
  form: SentenceForm = {},
): string {
  const { talker, number } = formOf(form, "SD");
  return nmea0183Sentence(`${talker}DPT,${number(values.depth)},${number(values.offset ?? Number.NaN)}`);
}
