import { angleBetween } from "../angles.ts";
import {
  type MetresPerSecond,
  type Radians,
  type RadiansPerSecond,
  radians,
  type Seconds,
} from "../units.ts";
import { FASTEST_TURN } from "./circleFromBearings.ts";

/** A second under power: what the compass and the log read, uncorrected, and how she moved over the ground. */
export interface SecondUnderPower {
  readonly time: Seconds;
  readonly heading: Radians;
  /** To be added to the heading to count from true north: 0 where it does. */
  readonly variation: Radians;
  readonly stw: MetresPerSecond;
  readonly east: MetresPerSecond;
  readonly north: MetresPerSecond;
  /** The apparent wind as read; left out, or NaN, where there is none. */
  readonly awa?: Radians;
  readonly aws?: MetresPerSecond;
  /** As read, of whichever sign; left out, or NaN, where there is none. */
  readonly heel?: Radians;
}

/** Seconds are taken together so many at a time, at least so many of them. */
const BLOCK: Seconds = 20;
const LEAST = 15;

/** Slower than this she hardly steers, and a wheel hardly turns. */
const UNDER_WAY: MetresPerSecond = 1;

/** Some seconds on end. */
export type Block = readonly SecondUnderPower[];

const isWhole = ({ heading, variation, stw, east, north }: SecondUnderPower): boolean =>
  stw > UNDER_WAY && Number.isFinite(heading + variation + east + north);

/** How fast she turned, to starboard positive. Never throws. */
export const turnOf = (block: Block): RadiansPerSecond => {
  const [first, last] = [block[0]!, block.at(-1)!];
  return angleBetween(last.heading, first.heading) / (last.time - first.time);
};

/** Seconds in blocks, without those in which she turned fast. Never throws. */
export function blocksOf(seconds: readonly SecondUnderPower[]): readonly Block[] {
  const blocks: SecondUnderPower[][] = [];
  for (const second of seconds) {
    const last = blocks.at(-1);
    if (last && second.time - last[0]!.time < BLOCK) last.push(second);
    else blocks.push([second]);
  }
  return blocks
    .map((block) => block.filter(isWhole))
    .filter((block) => block.length >= LEAST && Math.abs(turnOf(block)) <= FASTEST_TURN);
}

/** The middle of a block. Never throws. */
export const midOf = (block: Block): Seconds => (block[0]!.time + block.at(-1)!.time) / 2;

/** How long a block lasts. Never throws. */
export const durationOf = (block: Block): Seconds => block.at(-1)!.time - block[0]!.time;

/** Under power with the sails down no wind heels her by more, the sensor's zero and all. Judgement. */
const UPRIGHT: Radians = radians(6);

/** Whether she stood upright in a block, as far as is known: under sail she makes leeway, which no current explains. Never throws. */
export function isUpright(block: Block): boolean {
  const known = block.filter(({ heel = Number.NaN }) => Number.isFinite(heel));
  const sum = known.reduce((total, { heel = Number.NaN }) => total + heel, 0);
  return known.length === 0 || Math.abs(sum / known.length) <= UPRIGHT;
}
