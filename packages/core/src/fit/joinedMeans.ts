import { wrapDirection } from "../angles.ts";
import type { MetresPerSecond, Radians, Seconds } from "../units.ts";
import type { ComparedSpeed } from "./anemometerAgainstReference.ts";

/** Sums over a slice of time. */
export interface WindSlice {
  readonly count: number;
  readonly speed: number;
  /** Of the unit vectors of where it comes from; both 0 where no direction is known. */
  readonly east: number;
  readonly north: number;
  /** How many of the readings were 0: cups at rest. */
  readonly still: number;
}

/** Sums of a wind by slices of SLICE seconds, numbered from 1970 on. */
export type WindSlices = ReadonlyMap<number, WindSlice>;

/** How long a slice lasts, s. */
export const SLICE: Seconds = 10;

/** Readings of which more than this share stand at 0 are of cups that stick, and their mean is no speed. */
const MOST_STILL = 0.05;

/** How long each mean of two winds is, and which of them count. */
export interface JoinOptions {
  /** Over which a station's value is a mean, or over which its values are averaged. */
  readonly mean: Seconds;
  /** Where in that time its stamp stands: 1 at the end, 0 at the start. */
  readonly stampedAt: number;
  /** From which to which direction, clockwise, the station's wind must come. */
  readonly sector?: readonly [Radians, Radians];
  /** By how much the station's clock is moved on. */
  readonly shift?: Seconds;
}

/** Means of both over the same time, and when it begins. */
export interface JoinedMean extends ComparedSpeed {
  readonly start: Seconds;
}

/**
 * How far apart the slices of a series usually lie.
 *
 * @returns s, the median; SLICE where there is but one. Never throws.
 */
export function stepOf(slices: WindSlices): Seconds {
  const places = [...slices.keys()].sort((one, other) => one - other);
  const gaps = places.slice(1).map((at, index) => at - places[index]!);
  return SLICE * (gaps.sort((one, other) => one - other)[gaps.length >> 1] ?? 1);
}

/** The sum over slices from one moment to another, with the share of those that there ought to be. */
function sumOver(slices: WindSlices, step: Seconds, from: Seconds, to: Seconds) {
  let [there, count, speed, east, north, still] = [0, 0, 0, 0, 0, 0];
  for (let at = Math.round(from / SLICE); at < Math.round(to / SLICE); at++) {
    const slice = slices.get(at);
    if (!slice) continue;
    there += 1;
    count += slice.count;
    speed += slice.speed;
    east += slice.east;
    north += slice.north;
    still += slice.still;
  }
  return { share: (there * step) / (to - from), count, speed, east, north, still };
}

const isWithin = (direction: Radians, [from, to]: readonly [Radians, Radians]): boolean =>
  wrapDirection(direction - from) <= wrapDirection(to - from);

/** A mean counts where so much of its time was logged. */
const LEAST_SHARE = 0.8;

/** When means begin, one after the other and none across a gap: at `lead` before a slice that is there. */
function beginnings(slices: WindSlices, mean: Seconds, lead: Seconds): readonly Seconds[] {
  const begins: Seconds[] = [];
  for (const at of [...slices.keys()].sort((one, other) => one - other)) {
    const start = at * SLICE - lead;
    if (begins.length === 0 || start - begins.at(-1)! >= mean - SLICE / 2) begins.push(start);
  }
  return begins;
}

/**
 * M188. Means of a boat's and a station's wind speed over the same times. A value of a station that tells seldom is taken for the mean that it is;
 * of one that tells often all within are averaged.
 *
 * @returns in the order of time, without times in which either has too little, the boat's cups stood still, or the wind came from elsewhere. Never throws.
 */
export function joinedMeans(
  boat: WindSlices,
  station: WindSlices,
  { mean, stampedAt, sector, shift = 0 }: JoinOptions,
): readonly JoinedMean[] {
  const [step, steps] = [stepOf(station), stepOf(boat)];
  const isMean = step > mean / 2;
  return beginnings(station, mean, isMean ? stampedAt * mean : 0).flatMap((start) => {
    const own = sumOver(boat, steps, start + shift, start + shift + mean);
    const stamp = start + stampedAt * mean;
    const other = isMean
      ? sumOver(station, SLICE, stamp, stamp + SLICE)
      : sumOver(station, step, start, start + mean);
    if (!(own.share >= LEAST_SHARE && other.share >= LEAST_SHARE)) return [];
    if (own.still > MOST_STILL * own.count) return [];
    if (sector && !isWithin(Math.atan2(other.east, other.north), sector)) return [];
    return [{ start: start + shift, reading: own.speed / own.count, reference: other.speed / other.count }];
  });
}

/** How well two series of means go together: their correlation; NaN where one of them stands still. Never throws. */
export function correlationOf(pairs: readonly ComparedSpeed[]): number {
  const mean = (of: (pair: ComparedSpeed) => MetresPerSecond): MetresPerSecond =>
    pairs.reduce((sum, pair) => sum + of(pair), 0) / pairs.length;
  const [x, y] = [mean(({ reading }) => reading), mean(({ reference }) => reference)];
  const [xx, xy, yy] = pairs.reduce(
    ([squares, products, others], { reading, reference }) => [
      squares + (reading - x) ** 2,
      products + (reading - x) * (reference - y),
      others + (reference - y) ** 2,
    ],
    [0, 0, 0],
  );
  return xy / Math.sqrt(xx * yy);
}
