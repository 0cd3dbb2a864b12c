import { wrapAngle, wrapDirection } from "../angles.ts";
import { AUTOCOVARIANCE_LAGS, type LegRow, MOMENT_CHANNELS, type MomentChannel } from "../sailing/legRow.ts";
import type { BoatReadings } from "../sensors/boatState.ts";

const CHANNELS = MOMENT_CHANNELS.length;

/** One moment's readings in the order of MOMENT_CHANNELS. */
export type Moment = Float64Array;

export const momentOf = (readings: Readonly<BoatReadings>): Moment =>
  Float64Array.from(MOMENT_CHANNELS, (channel) => readings[channel]);

const isAngle = (channel: number): boolean =>
  MOMENT_CHANNELS[channel] === "awa" ||
  MOMENT_CHANNELS[channel] === "heading" ||
  MOMENT_CHANNELS[channel] === "heel";

const mean = (moments: readonly Moment[], of: (moment: Moment) => number): number =>
  moments.reduce((sum, moment) => sum + of(moment), 0) / moments.length;

/** Means of moments, angles as vectors, as M39 has them. Never throws. */
export function meansOf(moments: readonly Moment[]): Float64Array {
  return Float64Array.from(MOMENT_CHANNELS, (name, channel) => {
    if (!isAngle(channel)) return mean(moments, (moment) => moment[channel]!);
    const angle = Math.atan2(
      mean(moments, (moment) => Math.sin(moment[channel]!)),
      mean(moments, (moment) => Math.cos(moment[channel]!)),
    );
    return name === "heading" ? wrapDirection(angle) : wrapAngle(angle);
  });
}

/** Covariances about the means, row-major. */
function covarianceOf(moments: readonly Moment[], means: Float64Array): Float64Array {
  const covariance = new Float64Array(CHANNELS ** 2);
  for (const moment of moments) {
    const deviation = moment.map((value, channel) => {
      const from = value - means[channel]!;
      return isAngle(channel) ? wrapAngle(from) : from;
    });
    for (let row = 0; row < CHANNELS; row++)
      for (let column = 0; column < CHANNELS; column++)
        covariance[row * CHANNELS + column]! +=
          (deviation[row]! * deviation[column]!) / Math.max(1, moments.length - 1);
  }
  return covariance;
}

/** What a row is besides its moments. */
export type RowFrame = Pick<LegRow, "leg" | "kind" | "start" | "duration">;

/** A summary row (M39) of some moments, from true north; its tack is the side of the mean indicated wind. Never throws. */
export function rowOfMoments(moments: readonly Moment[], frame: RowFrame): LegRow {
  const means = meansOf(moments);
  const of = (channel: MomentChannel): number => means[MOMENT_CHANNELS.indexOf(channel)]!;
  return {
    ...frame,
    tack: of("awa") > 0 ? "starboard" : "port",
    count: frame.duration,
    mean: {
      awa: of("awa"),
      aws: of("aws"),
      stw: of("stw"),
      heading: of("heading"),
      heel: of("heel"),
      east: of("east"),
      north: of("north"),
    },
    covariance: covarianceOf(moments, means),
    autocovariance: new Float64Array(3 * AUTOCOVARIANCE_LAGS.length).fill(Number.NaN),
    headingIsTrue: true,
    variation: Number.NaN,
    latitude: Number.NaN,
    longitude: Number.NaN,
  };
}
