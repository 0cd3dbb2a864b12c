import type { Seconds } from "../units.ts";
import type { QuantityName } from "./readings.ts";
import type { SentenceFields } from "./sentenceFields.ts";

/** Where the readings and times of one sentence go. */
export interface SentenceSink {
  /** One reading of the sentence's quantity of that place in `quantities`; NaN makes no reading. */
  add(place: number, value: number): void;
  /** The angle (degrees) in a field, if the transducer whose name stands in another is one of heel or pitch. */
  addAttitude(nameField: number, valueField: number): void;
  /** UTC time of day and days since 1970-01-01, either NaN if not told. */
  tell(timeOfDay: Seconds, day: number): void;
}

/** How one kind of sentence is read. */
export interface SentenceDecoder {
  /** The quantities that it can hold, each with what tells its source from others of the same sentence. */
  readonly quantities: readonly (readonly [quantity: QuantityName, suffix?: string])[];
  readonly decode: (fields: SentenceFields, into: SentenceSink) => void;
}

/** Codes of the letters that stand for sides, units and states. */
export const LETTER = {
  A: 0x41,
  C: 0x43,
  D: 0x44,
  E: 0x45,
  F: 0x46,
  K: 0x4b,
  L: 0x4c,
  M: 0x4d,
  N: 0x4e,
  R: 0x52,
  S: 0x53,
  T: 0x54,
  V: 0x56,
  W: 0x57,
  f: 0x66,
} as const;
