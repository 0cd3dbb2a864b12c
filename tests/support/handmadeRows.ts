import {
  type LegRow,
  MOMENT_CHANNELS,
  type MomentChannel,
  type RowKind,
} from "../../packages/core/src/sailing/legRow.ts";

/** Half a minute in which nothing is known of any channel but those given. */
export interface HandmadeRow {
  readonly leg: number;
  /** Seconds since the first row's start. */
  readonly at: number;
  readonly mean: Partial<Record<MomentChannel, number>>;
  readonly kind?: RowKind;
  readonly covariance?: Float64Array;
}

const unknown = Object.fromEntries(MOMENT_CHANNELS.map((channel) => [channel, Number.NaN])) as Record<
  MomentChannel,
  number
>;

/** A row made by hand; its tack is that of its wind angle. */
export function handmadeRow({ leg, at, mean, kind = "sailing", covariance }: HandmadeRow): LegRow {
  return {
    leg,
    kind,
    tack: (mean.awa ?? 0) > 0 ? "starboard" : "port",
    start: 1_780_000_000 + at,
    duration: 30,
    count: 30,
    mean: { ...unknown, ...mean },
    covariance: covariance ?? new Float64Array(MOMENT_CHANNELS.length ** 2),
    autocovariance: new Float64Array(9),
    headingIsTrue: true,
    variation: Number.NaN,
    latitude: Number.NaN,
    longitude: Number.NaN,
  };
}
