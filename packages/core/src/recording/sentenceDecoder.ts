import type { Seconds } from "../units.ts";
import type { QuantityName } from "./readings.ts";
import type { SentenceFields } from "./sentenceFields.ts";

/** What one sentence tells. */
export interface SentenceValues {
  /** Takes a reading of one of the decoder's quantities, by its place among them; NaN is none. */
  put(place: number, reading: number): void;
  /** UTC time of day and days since 1970-01-01; NaN where not told. */
  timeOfDay: Seconds;
  day: number;
}

/** How one kind of sentence is read. */
export interface SentenceDecoder {
  /** The quantities that it can hold, each with what tells its source from others of the same sentence. */
  readonly quantities: readonly (readonly [quantity: QuantityName, suffix?: string])[];
  /** Whether its readings are of transducers with names (XDR). */
  readonly hasTransducers?: true;
  /** Sets the values that the sentence has; all are NaN before. */
  readonly decode: (fields: SentenceFields, into: SentenceValues) => void;
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
