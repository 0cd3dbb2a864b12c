import { wrapDirection } from "../angles.ts";
import { type MetresPerSecond, metresPerSecond } from "../units.ts";
import { dayNumber } from "./calendar.ts";
import { LETTER, type SentenceDecoder, type SentenceValues } from "./sentenceDecoder.ts";
import type { SentenceFields } from "./sentenceFields.ts";
import { KILOMETRES_PER_HOUR_IN_A_METRE_PER_SECOND } from "./windDecoders.ts";

const { A, E, M, N, S, T, W } = LETTER;

/** GGA's kinds of fix that are no measurement: none, estimated, keyed in by hand. */
const NO_FIX = new Set([0, 6, 7]);

/** Whether the mode letter (absent before 2001) says that the fix is none (N), estimated (E) or keyed in by hand (M). */
function isUnmeasured(fields: SentenceFields, field: number): boolean {
  const mode = fields.letter(field);
  return mode === N || mode === E || mode === M;
}

function addPosition(fields: SentenceFields, into: SentenceValues, field: number): void {
  const latitude = fields.position(field, N, S, 90);
  const longitude = fields.position(field + 2, E, W, 180);
  if (Number.isNaN(latitude + longitude)) return;
  into.put(0, latitude);
  into.put(1, longitude);
}

/** RMC: time, status, position, speed (kn) and course over ground, date, variation, mode. */
const rmc: SentenceDecoder = {
  quantities: [["latitude"], ["longitude"], ["speedOverGround"], ["courseOverGround"], ["variation"]],
  decode(fields, into) {
    if (fields.letter(2) !== A || isUnmeasured(fields, 12)) return;
    into.timeOfDay = fields.timeOfDay(1);
    into.day = fields.date(9);
    addPosition(fields, into, 3);
    into.put(2, metresPerSecond(fields.size(7)));
    into.put(3, wrapDirection(fields.direction(8)));
    into.put(4, fields.sidedAngle(10, E, W));
  },
};

/** GLL: position, time, status (absent in old ones), mode. */
const gll: SentenceDecoder = {
  quantities: [["latitude"], ["longitude"]],
  decode(fields, into) {
    const status = fields.letter(6);
    if (isUnmeasured(fields, 7) || (status !== A && !fields.isEmpty(6))) return;
    into.timeOfDay = fields.timeOfDay(5);
    addPosition(fields, into, 1);
  },
};

/** GGA: time, position, kind of fix. */
const gga: SentenceDecoder = {
  quantities: [["latitude"], ["longitude"]],
  decode(fields, into) {
    const kind = fields.number(6);
    if (Number.isNaN(kind) || NO_FIX.has(kind)) return;
    into.timeOfDay = fields.timeOfDay(1);
    addPosition(fields, into, 2);
  },
};

/** ZDA: UTC time, day, month, year; the local zone after them is not used. */
const zda: SentenceDecoder = {
  quantities: [],
  decode(fields, into) {
    const [year, month, day] = [fields.number(4), fields.number(3), fields.number(2)];
    const days = dayNumber(year, month, day);
    if (Number.isNaN(days) && !Number.isNaN(year + month + day)) fields.fault(2, "a date");
    into.timeOfDay = fields.timeOfDay(1);
    into.day = days;
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
    if (fields.letter(2) !== T && !fields.isEmpty(2)) fields.fault(2, "T");
    into.put(0, wrapDirection(fields.direction(1)));
    into.put(1, wrapDirection(fields.direction(3)));
    into.put(2, groundSpeed(fields, 5, 7));
  },
};

export const POSITION_DECODERS: Readonly<Record<string, SentenceDecoder>> = {
  RMC: rmc,
  GLL: gll,
  GGA: gga,
  ZDA: zda,
  VTG: vtg,
};
