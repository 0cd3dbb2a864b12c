import { wrapDirection } from "../angles.ts";
import { type MetresPerSecond, metresPerSecond } from "../units.ts";
import { LETTER, type SentenceDecoder, type SentenceSink } from "./sentenceDecoder.ts";
import type { SentenceFields } from "./sentenceFields.ts";
import { KILOMETRES_PER_HOUR_IN_A_METRE_PER_SECOND } from "./windDecoders.ts";

const SECONDS_IN_A_DAY = 86_400;

/** Two-digit years from here on are of the last century: the first receivers counted time from 1980. */
const FIRST_YEAR = 1980;

/** GGA's kinds of fix that are no measurement: none, estimated, keyed in by hand. */
const NO_FIX = new Set([0, 6, 7]);

/** Whether the mode letter (absent before 2001) says that the fix is none (N), estimated (E) or keyed in by hand (M). */
function isUnmeasured(fields: SentenceFields, field: number): boolean {
  const mode = fields.letter(field);
  return mode === LETTER.N || mode === LETTER.E || mode === LETTER.M;
}

/** Days since 1970-01-01; NaN with a fault where there is no such date. */
function dayNumber(fields: SentenceFields, field: number, year: number, month: number, day: number): number {
  if (Number.isNaN(year + month + day)) return Number.NaN;
  const time = Date.UTC(year, month - 1, day);
  const exists = month >= 1 && month <= 12 && day >= 1 && new Date(time).getUTCDate() === day;
  return exists ? time / (SECONDS_IN_A_DAY * 1000) : fields.fault(field, "a date");
}

/** Days since 1970-01-01 from ddmmyy. */
function dateField(fields: SentenceFields, field: number): number {
  if (fields.isEmpty(field)) return Number.NaN;
  const from = fields.from(field);
  const day = fields.twoDigits(from, field);
  const month = fields.twoDigits(from + 2, field);
  const year = fields.twoDigits(from + 4, field);
  if (Number.isNaN(day + month + year)) return fields.fault(field, "a date ddmmyy");
  return dayNumber(fields, field, year + (year < FIRST_YEAR - 1900 ? 2000 : 1900), month, day);
}

function addPosition(fields: SentenceFields, into: SentenceSink, field: number): void {
  const latitude = fields.position(field, LETTER.N, LETTER.S, 90);
  const longitude = fields.position(field + 2, LETTER.E, LETTER.W, 180);
  if (Number.isNaN(latitude + longitude)) return;
  into.add(0, latitude);
  into.add(1, longitude);
}

/** RMC: time, status, position, speed (kn) and course over ground, date, variation, mode. */
const rmc: SentenceDecoder = {
  quantities: [["latitude"], ["longitude"], ["speedOverGround"], ["courseOverGround"], ["variation"]],
  decode(fields, into) {
    if (fields.letter(2) !== LETTER.A || isUnmeasured(fields, 12)) return;
    into.tell(fields.timeOfDay(1), dateField(fields, 9));
    addPosition(fields, into, 3);
    into.add(2, metresPerSecond(fields.size(7)));
    into.add(3, wrapDirection(fields.direction(8)));
    into.add(4, fields.sidedAngle(10, LETTER.E, LETTER.W));
  },
};

/** GLL: position, time, status (absent in old ones), mode. */
const gll: SentenceDecoder = {
  quantities: [["latitude"], ["longitude"]],
  decode(fields, into) {
    const status = fields.letter(6);
    if (isUnmeasured(fields, 7) || (status !== LETTER.A && !fields.isEmpty(6))) return;
    into.tell(fields.timeOfDay(5), Number.NaN);
    addPosition(fields, into, 1);
  },
};

/** GGA: time, position, kind of fix. */
const gga: SentenceDecoder = {
  quantities: [["latitude"], ["longitude"]],
  decode(fields, into) {
    const kind = fields.number(6);
    if (Number.isNaN(kind) || NO_FIX.has(kind)) return;
    into.tell(fields.timeOfDay(1), Number.NaN);
    addPosition(fields, into, 2);
  },
};

/** ZDA: UTC time, day, month, year; the local zone after them is not used. */
const zda: SentenceDecoder = {
  quantities: [],
  decode(fields, into) {
    const time = fields.timeOfDay(1);
    into.tell(time, dayNumber(fields, 2, fields.number(4), fields.number(3), fields.number(2)));
  },
};

/** Speed over ground from knots, else from km/h. */
function groundSpeed(fields: SentenceFields, knotsField: number, kilometresField: number): MetresPerSecond {
  const speed = metresPerSecond(fields.size(knotsField));
  const other = fields.size(kilometresField) / KILOMETRES_PER_HOUR_IN_A_METRE_PER_SECOND;
  return Number.isNaN(speed) ? other : speed;
}

/** VTG: course over ground by true and by magnetic north, speed in knots and km/h, mode. */
const vtg: SentenceDecoder = {
  quantities: [["courseOverGround"], ["courseOverGroundMagnetic"], ["speedOverGround"]],
  decode(fields, into) {
    if (isUnmeasured(fields, 9)) return;
    if (fields.letter(2) !== LETTER.T && !fields.isEmpty(2)) fields.fault(2, "T");
    into.add(0, wrapDirection(fields.direction(1)));
    into.add(1, wrapDirection(fields.direction(3)));
    into.add(2, groundSpeed(fields, 5, 7));
  },
};

export const POSITION_DECODERS: Readonly<Record<string, SentenceDecoder>> = {
  RMC: rmc,
  GLL: gll,
  GGA: gga,
  ZDA: zda,
  VTG: vtg,
};
