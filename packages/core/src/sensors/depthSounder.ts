import type { Metres } from "../units.ts";

/**
 * What a depth is counted from.
 *
 * @example
 * DEPTH_DATUMS.includes("keel") // true
 */
export const DEPTH_DATUMS = ["transducer", "waterline", "keel"] as const;
/** One of DEPTH_DATUMS. */
export type DepthDatum = (typeof DEPTH_DATUMS)[number];

/** A depth with what it is counted from. */
export interface DepthBelow {
  readonly depth: Metres;
  readonly below: DepthDatum;
}

/** Where the transducer sits in the hull. */
export interface TransducerPlace {
  /** Positive: how deep the transducer is. */
  readonly belowWaterline: Metres;
  /** Positive: how much deeper the keel reaches than the transducer. */
  readonly aboveKeel: Metres;
}

/**
 * M126. The depth that a depth below the transducer and its offset stand for: their sum, counted from the waterline where the offset
 * is positive, from the keel where it is negative, from the transducer itself where it is 0 or missing.
 *
 * @param belowTransducer m
 * @param offset as sent beside it, m; NaN where the field is empty
 * @returns NaN where the depth is. Never throws.
 * @see gpsd project, NMEA Revealed, DPT; SignalK n2k-signalk, environment.depth
 *
 * @example
 * depthWithOffset(4, -1.5) // { depth: 2.5, below: "keel" }
 */
export const depthWithOffset = (belowTransducer: Metres, offset: Metres): DepthBelow =>
  offset > 0
    ? { depth: belowTransducer + offset, below: "waterline" }
    : offset < 0
      ? { depth: belowTransducer + offset, below: "keel" }
      : { depth: belowTransducer, below: "transducer" };

/**
 * M126. The offset to be sent or entered for depths below a datum: positive to the waterline, negative to the keel, 0. Never throws.
 *
 * @example
 * offsetFor("keel", { belowWaterline: 0.5, aboveKeel: 1.25 }) // -1.25
 */
export const offsetFor = (below: DepthDatum, { belowWaterline, aboveKeel }: TransducerPlace): Metres =>
  below === "waterline" ? belowWaterline : below === "keel" ? -aboveKeel : 0;

/**
 * M126. Draught, from where the transducer sits. Never throws.
 *
 * @example
 * draught({ belowWaterline: 0.5, aboveKeel: 1.25 }) // 1.75
 */
export const draught = ({ belowWaterline, aboveKeel }: TransducerPlace): Metres => belowWaterline + aboveKeel;

/**
 * M126. The depth below the transducer that a sounding from the waterline means. Never throws; NaN in, NaN out.
 *
 * @example
 * belowTransducerOf(5, { belowWaterline: 0.5, aboveKeel: 1.25 }) // 4.5
 */
export const belowTransducerOf = (sounding: Metres, { belowWaterline }: TransducerPlace): Metres =>
  sounding - belowWaterline;
