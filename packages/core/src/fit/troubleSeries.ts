import type { LegRow } from "../sailing/legRow.ts";
import { type Radians, radians, type Seconds } from "../units.ts";
import type { WanderModel } from "./stateSpace.ts";
import type { ScannedSeries } from "./troubleScan.ts";

/** A number of a row; NaN where the row does not tell. */
export type OfRow = (row: LegRow) => number;

/** How a fault that lasts all the time shows, and how far it may go: a standard deviation. */
export interface LastingFault {
  readonly sd: number;
  readonly shows: OfRow;
}

/** How much turbulence lasts in what the rows show, s, as in M51. */
const TURBULENCE: Seconds = 25;
const HALF_AN_HOUR = Math.sqrt(1800);

/** Wander by so much in half an hour, and so much turbulence. Never throws. */
export const wanderOf = (inHalfAnHour: number, turbulence: number): WanderModel => ({
  slow: inHalfAnHour / HALF_AN_HOUR,
  fast: turbulence,
  fastSeconds: TURBULENCE,
});

/** Heading from the north that GPS counts from, as far as the variation is known. Never throws. */
export const headingOf = ({ mean, headingIsTrue, variation }: LegRow): Radians =>
  mean.heading + (headingIsTrue || Number.isNaN(variation) ? 0 : variation);

/** 1 on starboard tack, −1 on port, 0 with the sails down. Never throws. */
export const sideOf = ({ mean, kind }: LegRow): number => (kind === "sailing" ? Math.sign(mean.awa) : 0);

/** A wheel or a compass that turns so far within a row says little of it: circles, lags. */
const STEADY: Radians = radians(6);

/** Place of the variance of the heading in a row's covariance (M39). */
const HEADING_VARIANCE = 3 * 7 + 3;

export const isStraight = ({ covariance }: LegRow): boolean => !(covariance[HEADING_VARIANCE]! > STEADY ** 2);

/** What a series is made of. */
export interface SeriesOfRows {
  readonly value: OfRow;
  /** Standard deviation of a row's own error. */
  readonly error: number;
  readonly model: WanderModel;
  readonly faults: readonly OfRow[];
  readonly trouble: OfRow;
  readonly onOtherTack?: OfRow;
}

/** A series to be scanned (M94), a value a row. Never throws. */
export function seriesOfRows(rows: readonly LegRow[], made: SeriesOfRows): ScannedSeries {
  const column = (of: OfRow): Float64Array => Float64Array.from(rows, of);
  const values = column(made.value);
  return {
    times: column(({ start, duration }) => start + duration / 2),
    durations: column(({ duration }) => duration),
    variances: values.map((value) => (Number.isNaN(value) ? Number.POSITIVE_INFINITY : made.error ** 2)),
    model: made.model,
    values,
    faults: made.faults.map(column),
    trouble: column(made.trouble),
    ...(made.onOtherTack ? { onOtherTack: column(made.onOtherTack) } : {}),
  };
}
