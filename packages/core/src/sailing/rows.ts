import { wrapAngle, wrapDirection } from "../angles.ts";
import type { MetresPerSecond } from "../units.ts";
import { AUTOCOVARIANCE_LAGS, type LegRow, MOMENT_CHANNELS, type MomentChannel } from "./legRow.ts";
import type { SecondsWindow } from "./secondsWindow.ts";
import { burstsIn } from "./straySeconds.ts";

/** A channel is in a row if at least this share of the row's seconds has it. */
const PRESENT = 0.5;

/** What the autocovariances are of, in their order. */
const AUTOCOVARIANCE_CHANNELS = ["awa", "aws", "heading"] as const satisfies readonly MomentChannel[];

const isAngle = (channel: MomentChannel): boolean =>
  channel === "awa" || channel === "heading" || channel === "heel";

/** What a row is before it is known which leg it belongs to and what drove the boat. */
export type RowOfSeconds = Omit<LegRow, "leg" | "kind" | "tack">;

/** Speed through water, or over ground where that is missing; NaN without either. Never throws. */
export const speedOfRow = ({ mean }: Pick<LegRow, "mean">): MetresPerSecond =>
  Number.isNaN(mean.stw) ? Math.hypot(mean.east, mean.north) : mean.stw;

/** Mean of the values at some places; of angles the direction of the mean vector; NaN where there are none. */
function meanAt(values: ArrayLike<number>, places: readonly number[], angle: boolean): number {
  let [sum, cosines, count] = [0, 0, 0];
  for (const place of places) {
    const value = values[place]!;
    if (Number.isNaN(value)) continue;
    sum += angle ? Math.sin(value) : value;
    cosines += Math.cos(value);
    count += 1;
  }
  if (count === 0) return Number.NaN;
  return angle ? Math.atan2(sum, cosines) : sum / count;
}

/** Σ x y / (n − 1) of deviations at some places. */
function covarianceOf(x: ArrayLike<number>, y: ArrayLike<number>, places: readonly number[]): number {
  let sum = 0;
  for (const place of places) sum += x[place]! * y[place]!;
  return places.length > 1 ? sum / (places.length - 1) : Number.NaN;
}

/** Mean product of deviations `lag` seconds apart, over the pairs that there are; NaN without any. */
function autocovarianceOf(deviation: Float64Array, lag: number): number {
  let [sum, count] = [0, 0];
  for (let place = 0; place + lag < deviation.length; place++) {
    const product = deviation[place]! * deviation[place + lag]!;
    if (Number.isNaN(product)) continue;
    sum += product;
    count += 1;
  }
  return count > 0 ? sum / count : Number.NaN;
}

/** Deviations from the mean (angles the short way), NaN where a second is not one of the row's. */
function deviationsOf(
  column: Float64Array,
  mean: number,
  places: readonly number[],
  angle: boolean,
): Float64Array {
  const deviations = new Float64Array(column.length).fill(Number.NaN);
  for (const place of places)
    deviations[place] = angle ? wrapAngle(column[place]! - mean) : column[place]! - mean;
  return deviations;
}

/**
 * M39. The summary of some seconds: over those that have all of the channels present, count, means (angles as vectors),
 * covariances (sum of products over n − 1) and autocovariances at the stated lags (mean over the pairs that far apart)
 * of awa, ln aws and heading. A channel that fewer than half of the seconds have is NaN throughout. Seconds of a burst (M92)
 * are left out.
 *
 * @param window holds the seconds
 * @param seconds those that belong to the row, in order
 * @returns undefined where no second has all the channels. Never throws.
 */
export function rowOfSeconds(
  window: SecondsWindow,
  seconds: readonly number[],
  headingIsTrue: boolean,
): RowOfSeconds | undefined {
  const [start, end] = [seconds[0]!, seconds.at(-1)!];
  const columns = MOMENT_CHANNELS.map((channel) => {
    const column = new Float64Array(end - start + 1).fill(Number.NaN);
    for (const second of seconds) column[second - start] = window.at(channel, second);
    return column;
  });
  const present = columns.map(
    (column) =>
      seconds.filter((second) => !Number.isNaN(column[second - start]!)).length >= PRESENT * seconds.length,
  );
  const strays = burstsIn(seconds, (channel, second) => window.at(channel, second));
  const left = new Set(strays.map(({ second }) => second));
  const places = seconds
    .filter((second) => !left.has(second))
    .map((second) => second - start)
    .filter((place) => columns.every((column, index) => !present[index] || !Number.isNaN(column[place]!)));
  if (places.length === 0) return undefined;
  const means = columns.map((column, index) =>
    present[index] ? meanAt(column, places, isAngle(MOMENT_CHANNELS[index]!)) : Number.NaN,
  );
  const deviations = columns.map((column, index) =>
    deviationsOf(column, means[index]!, places, isAngle(MOMENT_CHANNELS[index]!)),
  );
  const covariance = new Float64Array(MOMENT_CHANNELS.length ** 2);
  deviations.forEach((x, i) => {
    deviations.forEach((y, j) => {
      covariance[i * MOMENT_CHANNELS.length + j] = covarianceOf(x, y, places);
    });
  });
  const heading = means[MOMENT_CHANNELS.indexOf("heading")]!;
  return {
    start,
    duration: end - start + 1,
    count: places.length,
    mean: meansByName(
      means.map((mean, index) => (MOMENT_CHANNELS[index] === "heading" ? wrapDirection(heading) : mean)),
    ),
    covariance,
    autocovariance: autocovariancesOf(columns, deviations, places),
    headingIsTrue,
    ...placeOf(window, seconds),
    ...(strays.length > 0 ? { strays } : {}),
  };
}

const meansByName = (means: readonly number[]): Readonly<Record<MomentChannel, number>> => {
  const of = (channel: MomentChannel): number => means[MOMENT_CHANNELS.indexOf(channel)]!;
  return {
    awa: wrapAngle(of("awa")),
    aws: of("aws"),
    stw: of("stw"),
    heading: of("heading"),
    heel: of("heel"),
    east: of("east"),
    north: of("north"),
  };
};

function autocovariancesOf(
  columns: readonly Float64Array[],
  deviations: readonly Float64Array[],
  places: readonly number[],
): Float64Array {
  const autocovariance = new Float64Array(AUTOCOVARIANCE_CHANNELS.length * AUTOCOVARIANCE_LAGS.length);
  AUTOCOVARIANCE_CHANNELS.forEach((channel, row) => {
    const index = MOMENT_CHANNELS.indexOf(channel);
    const deviation = channel === "aws" ? logDeviations(columns[index]!, places) : deviations[index]!;
    AUTOCOVARIANCE_LAGS.forEach((lag, column) => {
      autocovariance[row * AUTOCOVARIANCE_LAGS.length + column] = autocovarianceOf(deviation, lag);
    });
  });
  return autocovariance;
}

/** Deviations of the logarithm; seconds with a reading of 0 have none. */
function logDeviations(column: Float64Array, places: readonly number[]): Float64Array {
  const logarithms = column.map((value) => (value > 0 ? Math.log(value) : Number.NaN));
  return deviationsOf(logarithms, meanAt(logarithms, places, false), places, false);
}

function placeOf(window: SecondsWindow, seconds: readonly number[]) {
  const mean = (channel: "latitude" | "longitude" | "variation", angle: boolean) =>
    meanAt(
      seconds.map((second) => window.at(channel, second)),
      seconds.map((_, place) => place),
      angle,
    );
  return {
    latitude: mean("latitude", false),
    longitude: mean("longitude", true),
    variation: mean("variation", true),
  };
}
