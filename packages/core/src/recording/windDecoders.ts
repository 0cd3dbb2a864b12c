import { wrapAngle, wrapDirection } from "../angles.ts";
import { type MetresPerSecond, metresPerSecond } from "../units.ts";
import { LETTER, type SentenceDecoder } from "./sentenceDecoder.ts";
import type { SentenceFields } from "./sentenceFields.ts";

const { A, K, L, M, N, R, S, T } = LETTER;

/** M1. Metres in a statute mile, exactly: what a few wind displays count in. */
export const METRES_IN_A_STATUTE_MILE = 1609.344;

/** By definition of both. */
export const KILOMETRES_PER_HOUR_IN_A_METRE_PER_SECOND = 3.6;

/** Speed in the unit whose letter stands in the next field. */
function speedWithUnit(fields: SentenceFields, field: number): MetresPerSecond {
  const speed = fields.size(field);
  if (Number.isNaN(speed)) return speed;
  switch (fields.letter(field + 1)) {
    case N:
      return metresPerSecond(speed);
    case M:
      return speed;
    case K:
      return speed / KILOMETRES_PER_HOUR_IN_A_METRE_PER_SECOND;
    case S:
      return (speed * METRES_IN_A_STATUTE_MILE) / 3600;
    default:
      return fields.fault(field + 1, "N, M, K or S");
  }
}

/** The first speed of several fields that has one, in knots (N), m/s (M) or km/h (K), each with its letter behind it. */
function firstSpeed(fields: SentenceFields, ...places: readonly number[]): MetresPerSecond {
  for (const field of places) {
    const speed = speedWithUnit(fields, field);
    if (!Number.isNaN(speed)) return speed;
  }
  return Number.NaN;
}

/** MWV, wind angle and speed: angle, R or T, speed, unit, status. R is the wind as measured; T was computed on board. */
const mwv: SentenceDecoder = {
  quantities: [
    ["apparentWindAngle", "R"],
    ["apparentWindSpeed", "R"],
    ["onboardTrueWindAngle", "T"],
    ["onboardTrueWindSpeed", "T"],
  ],
  decode(fields, into) {
    if (fields.letter(5) !== A) return;
    const side = fields.side(2, R, T);
    if (Number.isNaN(side)) {
      fields.fault(2, "R or T");
      return;
    }
    const first = side > 0 ? 0 : 2;
    into.put(first, wrapAngle(fields.direction(1)));
    into.put(first + 1, speedWithUnit(fields, 3));
  },
};

/** VWR and VWT: angle to the bow, L or R, speed in knots, m/s and km/h. */
const sidedWind = (quantities: SentenceDecoder["quantities"]): SentenceDecoder => ({
  quantities,
  decode(fields, into) {
    into.put(0, wrapAngle(fields.sidedAngle(1, R, L)));
    into.put(1, firstSpeed(fields, 3, 5, 7));
  },
});

/** MWD: direction the wind comes from, by true and by magnetic north, and its speed; all computed on board. */
const mwd: SentenceDecoder = {
  quantities: [["onboardTrueWindDirection"], ["onboardTrueWindDirectionMagnetic"], ["onboardTrueWindSpeed"]],
  decode(fields, into) {
    into.put(0, wrapDirection(fields.direction(1)));
    into.put(1, wrapDirection(fields.direction(3)));
    into.put(2, firstSpeed(fields, 5, 7));
  },
};

export const WIND_DECODERS: Readonly<Record<string, SentenceDecoder>> = {
  MWV: mwv,
  VWR: sidedWind([["apparentWindAngle"], ["apparentWindSpeed"]]),
  VWT: sidedWind([["onboardTrueWindAngle"], ["onboardTrueWindSpeed"]]),
  MWD: mwd,
};
