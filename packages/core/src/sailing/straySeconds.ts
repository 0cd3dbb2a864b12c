import { wrapAngle } from "../angles.ts";
import { radians } from "../units.ts";
import { WATCHED, type WatchedChannel } from "./trouble.ts";

/** A second that stands off from the rest of its row in one channel. */
export interface StraySecond {
  readonly channel: WatchedChannel;
  /** Its number in the row, from 0: whole seconds from the start. */
  readonly second: number;
}

/**
 * By how much a second must stand off from the median of its row: half of what a lone reading must (M35), since a second is a mean
 * and a burst of readings confirms itself. No boat on a steady course moves so far for a few seconds.
 */
const BOUND: Readonly<Record<WatchedChannel, number>> = {
  awa: radians(20),
  aws: 2.5,
  stw: 1,
  heading: radians(15),
  heel: radians(10),
};

const IS_ANGLE: Readonly<Record<WatchedChannel, boolean>> = {
  awa: true,
  aws: false,
  stw: false,
  heading: true,
  heel: true,
};

/** And by so many of its scaled median absolute deviations. */
const DEVIATIONS = 6;
const NORMAL_SD_IN_MAD = 1.4826;

/** Fewer are lone readings, spread over neighbours by bridging, which robust fitting bears; more than the share are no burst. */
const [FEWEST, MOST] = [4, 0.25] as const;

const middle = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

/** A burst begins and ends at once; a gust or a roll takes longer than so many seconds to come and to go. */
const EDGE = 2;

/** Whether the run of far seconds that one belongs to has sharp edges, as far as the row shows them. */
function isSharp(away: readonly number[], index: number, limit: number): boolean {
  let [first, last] = [index, index];
  while (first > 0 && away[first - 1]! > limit) first--;
  while (last + 1 < away.length && away[last + 1]! > limit) last++;
  return [first - EDGE, last + EDGE].every((place) => !(away[place]! > limit / 2));
}

/** The seconds of a row that stand off in one channel. */
function strays(
  channel: WatchedChannel,
  seconds: readonly number[],
  valueAt: (second: number) => number,
): readonly number[] {
  const known = seconds.filter((second) => !Number.isNaN(valueAt(second)));
  if (known.length === 0) return [];
  const from = (value: number, origin: number): number =>
    IS_ANGLE[channel] ? wrapAngle(value - origin) : value - origin;
  const origin = valueAt(known[0]!);
  const offsets = known.map((second) => from(valueAt(second), origin));
  const median = middle(offsets);
  const away = offsets.map((offset) => Math.abs(from(offset, median)));
  if (!away.some((distance) => distance > BOUND[channel])) return [];
  const limit = Math.max(BOUND[channel], DEVIATIONS * NORMAL_SD_IN_MAD * middle(away));
  const found = known.filter((_, index) => away[index]! > limit && isSharp(away, index, limit));
  return found.length >= FEWEST && found.length <= MOST * known.length ? found : [];
}

/**
 * M92. The seconds of a row that stand off from all the others in a channel: bursts of bad readings, too long for the gate of M35.
 *
 * @param seconds of a row
 * @param value of a channel in a second, NaN where missing
 * @returns none in a row that is as it should be. Never throws.
 */
export const burstsIn = (
  seconds: readonly number[],
  value: (channel: WatchedChannel, second: number) => number,
): readonly StraySecond[] =>
  WATCHED.flatMap((channel) =>
    strays(channel, seconds, (second) => value(channel, second)).map((second) => ({ channel, second })),
  );
