import type { Metres } from "../units.ts";

/** What a depth is counted from. */
export const DEPTH_DATUMS = ["transducer", "waterline", "keel"] as const;
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
 */
export const depthWithOffset = (belowTransducer: Metres, offset: Metres): DepthBelow =>
  offset > 0
    ? { depth: belowTransducer + offset, below: "waterline" }
    : offset < 0
      ? { depth: belowTransducer + offset, below: "keel" }
      : { depth: belowTransducer, below: "transducer" };

/** M126. The offset to be sent or entered for depths below a datum: positive to the waterline, negative to the keel, 0. Never throws. */
export const offsetFor = (below: DepthDatum, { belowWaterline, aboveKeel }: TransducerPlace): Metres =>
  below === "waterline" ? belowWaterline : below === "keel" ? -aboveKeel : 0;

/** M126. Draught, from where the transducer sits. Never throws. */
export const draught = ({ belowWaterline, aboveKeel }: TransducerPlace): Metres => belowWaterline + aboveKeel;

/** M126. The depth below the transducer that a sounding from the waterline means. Never throws; NaN in, NaN out. */
export const belowTransducerOf = (sounding: Metres, { belowWaterline }: TransducerPlace): Metres =>
  sounding - belowWaterline;
