import { angleBetween } from "../angles.ts";
import { deviation } from "../sensors/compass.ts";
import type { CompassParameters } from "../sensors/parameters.ts";
import {
  METRES_PER_SECOND_IN_A_KNOT as KNOT,
  type MetresPerSecond,
  type Radians,
  type RadiansPerSecond,
  radians,
  type Seconds,
} from "../units.ts";
import {
  type CircleRefusal,
  FASTEST_TURN,
  type FoundDeviation,
  headingsRefused,
} from "./circleFromBearings.ts";
import type { DeviationTerm } from "./deviationCircle.ts";
import { type LinearRow, linearFit, type SolvedLinearFit, toldBy } from "./linearFit.ts";
import type { Prior } from "./priors.ts";

/** A second under power: what the compass and the log read, uncorrected, and how she moved over the ground. */
export interface SecondUnderPower {
  readonly time: Seconds;
  readonly heading: Radians;
  /** To be added to the heading to count from true north: 0 where it does. */
  readonly variation: Radians;
  readonly stw: MetresPerSecond;
  readonly east: MetresPerSecond;
  readonly north: MetresPerSecond;
}

/** A deviation series that a log of circles under power tells, with the current it found. */
export interface LoggedCircle extends FoundDeviation {
  readonly status: "solved";
  /** How long she motored steadily or turned slowly: what it was found from. */
  readonly seconds: Seconds;
  /** Of the current on average, m/s. */
  readonly current: MetresPerSecond;
  /** Mean rate of turn, to starboard positive: about 0 where she circled to both sides. */
  readonly turning: RadiansPerSecond;
}

/** Why a log cannot answer, beside CIRCLE_REFUSALS. */
export type LoggedCircleRefusal = CircleRefusal | "no seconds";

const TERMS = ["a", "b", "c", "d", "e"] as const satisfies readonly DeviationTerm[];
const NONE: CompassParameters = { a: 0, b: 0, c: 0, d: 0, e: 0, heelingError: 0 };

/** What the mean motion of a block leaves of error in each direction, paddle, GPS and the current's own wandering together. Judgement. */
const DEVIATION: MetresPerSecond = 0.06 * KNOT;

/** Boat speed may be wrong by so much, one standard deviation, and the fit finds it. */
const GAIN: Prior = { mean: 1, sd: 0.1 };

/** How fast a tide of 2 kn changes, one standard deviation (M122): 2 kn / √2 · 2π / 12.42 h. */
const TURNING = ((2 * KNOT) / Math.SQRT2) * ((2 * Math.PI) / (12.42 * 3600));

/** What a compass may still lag behind GPS once the log's lags are taken out, s; a circle alone hardly shows them. Judgement. */
const LAG: Prior = { mean: 0, sd: 0.7 };

/**
 * What the wind drifts her sideways under power, and how the current wanders while she turns, comes to in B and C, one standard deviation. Judgement:
 * 0.02 kn at 5 kn.
 */
const DRIFT: Radians = radians(0.25);

/** What they leave in D and E where headings are held, each for minutes, one standard deviation. Judgement. */
const DRIFT_TWICE: Radians = radians(0.15);

/** The variation's own error (M17), one standard deviation. */
const VARIATION_DEVIATION: Radians = radians(0.5);

/** Seconds are taken together so many at a time, at least so many of them. */
const BLOCK: Seconds = 20;
const LEAST = 15;

/** Slower than this she hardly steers, and a wheel hardly turns. */
const UNDER_WAY: MetresPerSecond = 1;

/** Some seconds on end. */
type Block = readonly SecondUnderPower[];

const isWhole = ({ heading, variation, stw, east, north }: SecondUnderPower): boolean =>
  stw > UNDER_WAY && Number.isFinite(heading + variation + east + north);

const turnOf = (block: Block): RadiansPerSecond => {
  const [first, last] = [block[0]!, block.at(-1)!];
  return angleBetween(last.heading, first.heading) / (last.time - first.time);
};

/** Seconds in blocks, without those in which she turned fast. */
function blocksOf(seconds: readonly SecondUnderPower[]): readonly Block[] {
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

/** One of each term at a reading. */
const termsAt = (reading: Radians): readonly number[] =>
  TERMS.map((term) => deviation(reading, 0, { ...NONE, [term]: 1 }));

const midOf = (block: Block): Seconds => (block[0]!.time + block.at(-1)!.time) / 2;

/** When blocks lie, as −1 to 1. */
function clockOf(blocks: readonly Block[]) {
  const [first, last] = [midOf(blocks[0]!), midOf(blocks.at(-1)!)];
  const half = Math.max(1, (last - first) / 2);
  return { half, at: (block: Block): number => (midOf(block) - first) / half - 1 };
}

/** What the round before found, about which this one's angles are small. */
interface About {
  readonly series: CompassParameters;
  readonly gain: number;
  readonly lag: Seconds;
}

/** Where a block lies in time, −1 to 1, and how fast she turned in it. */
interface InBlock {
  readonly at: number;
  readonly rate: RadiansPerSecond;
}

/** The motion over the ground along and across the heading that a series makes of a reading: columns and value of each. */
function motionRows(
  { heading: reading, variation, stw, east, north }: SecondUnderPower,
  { at, rate }: InBlock,
  { series, gain, lag }: About,
) {
  const told = deviation(reading, 0, series) + lag * rate;
  const heading = reading + told + variation;
  const [sine, cosine] = [Math.sin(heading), Math.cos(heading)];
  const speed = gain * stw;
  return [
    [0, 0, 0, 0, 0, stw, sine, cosine, at * sine, at * cosine, 0, east * sine + north * cosine],
    [
      ...termsAt(reading).map((term) => speed * term),
      0,
      cosine,
      -sine,
      at * cosine,
      -at * sine,
      speed * rate,
      east * cosine - north * sine + speed * told,
    ],
  ] as const;
}

/** A block's two rows: the means of its seconds' own. */
function rowsOfBlock(block: Block, at: number, about: About): readonly LinearRow[] {
  const inBlock = { at, rate: turnOf(block) };
  const all = block.map((second) => motionRows(second, inBlock, about));
  return ([0, 1] as const).map((direction) => {
    const means = all[0]![direction].map(
      (_, column) => all.reduce((sum, rows) => sum + rows[direction][column]!, 0) / block.length,
    );
    return { columns: means.slice(0, -1), value: means.at(-1)!, deviation: DEVIATION };
  });
}

const ROUNDS = 8;

const aboutOf = (values: readonly number[]): About => ({
  series: seriesOf(values),
  gain: values[5] ?? 1,
  lag: values[10] ?? 0,
});

/** The fit, its angles small about the last round's: terms, gain, current east and north and how they change, lag. */
function settled(blocks: readonly Block[]): SolvedLinearFit | undefined {
  const { half, at } = clockOf(blocks);
  const turning: Prior = { mean: 0, sd: TURNING * half };
  const priors = [...TERMS.map(() => undefined), GAIN, undefined, undefined, turning, turning, LAG];
  let fit: SolvedLinearFit | undefined;
  for (let round = 0; round < ROUNDS; round++) {
    const about = aboutOf(fit?.values ?? []);
    const found = linearFit(
      blocks.flatMap((block) => rowsOfBlock(block, at(block), about)),
      priors,
    );
    if (found.status === "unsolved") return undefined;
    fit = found;
  }
  return fit;
}

const seriesOf = (values: readonly number[]): CompassParameters => ({
  ...NONE,
  ...Object.fromEntries(TERMS.map((term, index) => [term, values[index] ?? 0])),
});

/** How fast she turned on average, to starboard positive: about 0 where she circled to both sides. */
const meanTurning = (blocks: readonly Block[]): RadiansPerSecond =>
  blocks.reduce((sum, block) => sum + turnOf(block), 0) / blocks.length;

/**
 * M186. Deviation coefficients (M21) from a log of circles and straight runs under power, sails down: the motion over the ground less that through
 * the water is the current, one and the same on every heading but for the tide's turning, and along the heading boat speed tells how much of it is
 * current. So the compass is found against GPS, with the current, the boat speed's gain and what the compass lags beside it; intervals by M121.
 *
 * @param seconds in the order of time, gaps as they are
 * @returns `unsolved` where boat speed, heading and GPS are not there together, or with a reason of CIRCLE_REFUSALS. Never throws.
 *
 * @example
 * circleInLog([]).reason // "no seconds"
 */
export function circleInLog(
  seconds: readonly SecondUnderPower[],
): LoggedCircle | { readonly status: "unsolved"; readonly reason: LoggedCircleRefusal } {
  const blocks = blocksOf(seconds);
  const used = blocks.flat();
  if (blocks.length === 0) return { status: "unsolved", reason: "no seconds" };
  const refused = headingsRefused(used.map(({ heading }) => heading));
  if (refused) return { status: "unsolved", reason: refused };
  const fit = settled(blocks);
  if (!fit) return { status: "unsolved", reason: "not told apart" };
  const common = used.every(({ variation }) => variation === 0) ? 0 : VARIATION_DEVIATION;
  const shared = 1.96 * common;
  const halfOf = (term: number): Radians => toldBy(fit, [...Array(term).fill(0), 1]).half;
  const speed = used.reduce((sum, { stw }) => sum + stw, 0) / used.length;
  const across = fit.residuals.filter((_, index) => index % 2 === 1);
  return {
    status: "solved",
    series: seriesOf(fit.values),
    halves: {
      a: Math.hypot(halfOf(0), shared),
      b: Math.hypot(halfOf(1), 1.96 * DRIFT),
      c: Math.hypot(halfOf(2), 1.96 * DRIFT),
      d: Math.hypot(halfOf(3), 1.96 * DRIFT_TWICE),
      e: Math.hypot(halfOf(4), 1.96 * DRIFT_TWICE),
      heelingError: 0,
    },
    terms: TERMS,
    residuals: across.map((residual) => residual / speed),
    spare: fit.spare,
    scatter: fit.scatter,
    at: (heading) => {
      const { value, half } = toldBy(fit, termsAt(heading));
      return { heading, deviation: value, half: Math.hypot(half, 1.96 * DRIFT) };
    },
    seconds: used.length,
    turning: meanTurning(blocks),
    current: Math.hypot(fit.values[6]!, fit.values[7]!),
  };
}
