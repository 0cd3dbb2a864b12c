import { wrapDirection } from "../angles.ts";
import { METRES_PER_SECOND_IN_A_KNOT, type MetresPerSecond, metresPerSecond, radians } from "../units.ts";
import type { QuantityName } from "./readings.ts";
import { LETTER, type SentenceDecoder } from "./sentenceDecoder.ts";
import type { SentenceFields } from "./sentenceFields.ts";
import { KILOMETRES_PER_HOUR_IN_A_METRE_PER_SECOND } from "./windDecoders.ts";

const { A, C, E, M, T, W } = LETTER;

export const METRES_IN_A_NAUTICAL_MILE = METRES_PER_SECOND_IN_A_KNOT * 3600;

/** The international foot of 1959, exactly; six to a fathom. */
export const METRES_IN_A_FOOT = 0.3048;
export const METRES_IN_A_FATHOM = 6 * METRES_IN_A_FOOT;

/** HDG: heading as the sensor gives it, deviation (applied here) and variation, each with E or W. */
const hdg: SentenceDecoder = {
  quantities: [["headingMagnetic"], ["variation"]],
  decode(fields, into) {
    const deviation = fields.sidedAngle(2, E, W);
    const heading = fields.direction(1);
    into.put(0, wrapDirection(Number.isNaN(deviation) ? heading : heading + deviation));
    into.put(1, fields.sidedAngle(4, E, W));
  },
};

/** HDM and HDT: one heading and its letter. */
const heading = (quantity: QuantityName, letter: number): SentenceDecoder => ({
  quantities: [[quantity]],
  decode(fields, into) {
    const north = fields.letter(2);
    if (north !== letter && north !== 0) fields.fault(2, String.fromCharCode(letter));
    into.put(0, wrapDirection(fields.direction(1)));
  },
});

function waterSpeed(fields: SentenceFields): MetresPerSecond {
  const speed = metresPerSecond(fields.number(5));
  const other = fields.number(7) / KILOMETRES_PER_HOUR_IN_A_METRE_PER_SECOND;
  return Number.isNaN(speed) ? other : speed;
}

/** VHW: heading by true and by magnetic north, speed through water in knots and km/h. */
const vhw: SentenceDecoder = {
  quantities: [["headingTrue"], ["headingMagnetic"], ["speedThroughWater"]],
  decode(fields, into) {
    into.put(0, wrapDirection(fields.direction(1)));
    into.put(1, wrapDirection(fields.direction(3)));
    into.put(2, waterSpeed(fields));
  },
};

/** ROT: degrees a minute, to starboard positive, and status. */
const rot: SentenceDecoder = {
  quantities: [["rateOfTurn"]],
  decode(fields, into) {
    if (fields.letter(2) === A) into.put(0, radians(fields.number(1)) / 60);
  },
};

/** DPT: metres below the transducer; its offset to the waterline (positive) or to the keel (negative). */
const dpt: SentenceDecoder = {
  quantities: [["depthBelowTransducer"], ["transducerOffset"]],
  decode(fields, into) {
    into.put(0, fields.size(1));
    into.put(1, fields.number(2));
  },
};

/** DBT: depth below the transducer in feet, metres and fathoms. */
const dbt: SentenceDecoder = {
  quantities: [["depthBelowTransducer"]],
  decode(fields, into) {
    const feet = fields.size(1) * METRES_IN_A_FOOT;
    const metres = fields.size(3);
    const fathoms = fields.size(5) * METRES_IN_A_FATHOM;
    into.put(0, !Number.isNaN(metres) ? metres : !Number.isNaN(feet) ? feet : fathoms);
  },
};

/** MTW: temperature of the water in degrees Celsius. */
const mtw: SentenceDecoder = {
  quantities: [["waterTemperature"]],
  decode(fields, into) {
    const temperature = fields.number(1);
    const unit = fields.letter(2);
    if (unit !== C && unit !== 0) fields.fault(2, "C");
    into.put(0, temperature);
  },
};

/** VLW: total distance through the water, in nautical miles. */
const vlw: SentenceDecoder = {
  quantities: [["distanceThroughWater"]],
  decode(fields, into) {
    into.put(0, fields.size(1) * METRES_IN_A_NAUTICAL_MILE);
  },
};

/** XDR: transducers with names, each told apart by its origin. */
const xdr: SentenceDecoder = {
  quantities: [],
  hasTransducers: true,
  decode() {},
};

export const BOAT_DECODERS: Readonly<Record<string, SentenceDecoder>> = {
  HDG: hdg,
  HDM: heading("headingMagnetic", M),
  HDT: heading("headingTrue", T),
  VHW: vhw,
  ROT: rot,
  DPT: dpt,
  DBT: dbt,
  MTW: mtw,
  VLW: vlw,
  XDR: xdr,
};
