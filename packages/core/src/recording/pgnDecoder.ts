import type { Seconds } from "../units.ts";
import type { PgnFields } from "./pgnFields.ts";
import type { QuantityName } from "./readings.ts";

/** What one message tells. */
export interface PgnValues {
  /** One value for each of the decoder's quantities, in their order; NaN where there is no reading. */
  readonly readings: Float64Array;
  /** s since 1970-01-01T00:00:00Z; NaN where not told. */
  time: Seconds;
}

/** How the messages of one parameter group are read. */
export interface PgnDecoder {
  readonly pgn: number;
  /** Whether its messages are longer than a frame and come as fast packets. */
  readonly isFast?: true;
  /** The quantities that it can hold, each with what tells its source from others of the same message. */
  readonly quantities: readonly (readonly [quantity: QuantityName, suffix?: string])[];
  /** Where the instance stands that tells sensors of one device apart. */
  readonly instanceAt?: number;
  /** Sets the values that the message has; all are NaN before. */
  readonly decode: (fields: PgnFields, into: PgnValues) => void;
}

/** The most quantities that a message holds. */
export const MOST_PGN_QUANTITIES = 10;
