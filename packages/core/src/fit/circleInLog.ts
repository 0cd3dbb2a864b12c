import { deviation } from "../sensors/compass.ts";
import { exactLaws, thirdHarmonic, windageLeeway } from "../sensors/lawErrors.ts";
import type { CompassParameters } from "../sensors/parameters.ts";
import {
  METRES_PER_SECOND_IN_A_KNOT as KNOT,
  type MetresPerSecond,
  type Radians,
  type RadiansPerSecond,
  radians,
  type Seconds,
} from "../units.ts";
import { blocksUnderSail } from "./blocksUnderSail.ts";
import {
  type Block,
  blocksOf,
  durationOf,
  isUpright,
  midOf,
  type SecondUnderPower,
  turnOf,
} from "./circleBlocks.ts";
import { type CircleRefusal, type FoundDeviation, headingsRefused } from "./circleFromBearings.ts";
import type { DeviationTerm } from "./deviationCircle.ts";
import { varianceOf } from "./linearFit.ts";
import { LAW_PRIORS, type Prior } from "./priors.ts";
import { WANDER_PRIORS } from "./sailingSeries.ts";
import {
  usualLinearFit,
  type WanderingRows,
  type WanderingScales,
  wanderingLinearFit,
} from "./wanderingLinearFit.ts";

/** A deviation series that a log of circles under power tells, with the current it found. */
export interface LoggedCircle extends FoundDeviation {
  readonly status: "solved";
  /** How long she motored steadily or turned slowly: what it was found from. */
  readonly seconds: Seconds;
  /** How long she heeled as under sail, s: left out. */
  readonly heeled: Seconds;
  /** How long she sailed upright, as far as wind, speed and turning show it (M191), s: left out. */
  readonly sailed: Seconds;
  /** Of the current on average, m/s. */
  readonly current: MetresPerSecond;
  /** Mean rate of turn, to starboard positive: about 0 where she circled to both sides. */
  readonly turning: RadiansPerSecond;
}

/** Why a log cannot answer, beside CIRCLE_REFUSALS. */
export type LoggedCircleRefusal = CircleRefusal | "no seconds" | "heeled" | "sailing";

const TERMS = ["a", "b", "c", "d", "e"] as const satisfies readonly DeviationTerm[];
const NONE: CompassParameters = { a: 0, b: 0, c: 0, d: 0, e: 0, heelingError: 0 };

/** Boat speed may be wrong by so much, one standard deviation, and the fit finds it. */
const GAIN: Prior = { mean: 1, sd: 0.1 };

/** How far a compass may lag behind GPS, or GPS behind it, s; circles to both sides tell. Judgement: each is damped by a second or so. */
const LAG: Prior = { mean: 0, sd: 1 };

/** Where the gain stands among the unknowns, after the terms of the deviation. */
const GAIN_AT = TERMS.length;
const PRIORS: readonly (Prior | undefined)[] = [
  ...TERMS.map(() => undefined),
  GAIN,
  LAG,
  LAW_PRIORS.thirdSine,
  LAW_PRIORS.thirdCosine,
  LAW_PRIORS.windage,
];

/**
 * What the mean motion of a block leaves of error, paddle, GPS and compass together: 0.06 kn, or half or twice that (judgement); and how a current
 * wanders (M51).
 */
const SCALES: WanderingScales = {
  noise: { median: 0.06 * KNOT, logSd: 0.5 },
  walk: WANDER_PRIORS.currentEast.slow,
};

/** What the wind drifts her sideways comes to in B and C where no wind was logged, one standard deviation. Judgement: 0.02 kn at 5 kn. */
const DRIFT: Radians = radians(0.25);

/** The variation's own error (M17), one standard deviation. */
const VARIATION_DEVIATION: Radians = radians(0.5);

/** Half a 95 % interval of what is normal. */
const HALF = 1.96;

/** What an unknown law does in each second, the law's amount being 1. */
const THIRDS = [
  { ...exactLaws, thirdSine: 1 },
  { ...exactLaws, thirdCosine: 1 },
];
const WINDAGE = { ...exactLaws, windage: 1 };

/** One of each term at a reading. */
const termsAt = (reading: Radians): readonly number[] =>
  TERMS.map((term) => deviation(reading, 0, { ...NONE, [term]: 1 }));

/** One of each unknown that turns the deviation at a reading. */
const anglesAt = (reading: Radians, rate: RadiansPerSecond): readonly number[] => [
  ...termsAt(reading),
  0,
  rate,
  ...THIRDS.map((law) => thirdHarmonic(reading, law)),
];

const hasWind = ({ awa = Number.NaN, aws = Number.NaN }: SecondUnderPower): boolean =>
  Number.isFinite(awa + aws);

const sumOf = (columns: readonly number[], values: readonly number[]): number =>
  columns.reduce((sum, column, at) => sum + column * (values[at] ?? 0), 0);

/** Columns and value of the motion over the ground east and north that the unknowns make of a second's readings. */
function motionOf(second: SecondUnderPower, rate: RadiansPerSecond, about: readonly number[]) {
  const { heading: reading, variation, stw, east, north, awa = 0, aws = 0 } = second;
  const angles = anglesAt(reading, rate);
  const told = sumOf(angles, about);
  const heading = reading + told + variation;
  const [sine, cosine] = [Math.sin(heading), Math.cos(heading)];
  const speed = about[GAIN_AT]! * stw;
  const drift = hasWind(second) ? speed * windageLeeway(awa, aws, speed, WINDAGE) : 0;
  const across = [...angles.map((angle) => speed * angle), drift];
  // angles are small about the round before: what they do there stands with the value
  const done = speed * told;
  return {
    east: [
      ...across.map((one, at) => one * cosine + (at === GAIN_AT ? stw * sine : 0)),
      east + done * cosine,
    ],
    north: [
      ...across.map((one, at) => -one * sine + (at === GAIN_AT ? stw * cosine : 0)),
      north - done * sine,
    ],
  };
}

/** The blocks as two series that wander, east and north: the means of their seconds' own columns. */
function rowsOf(blocks: readonly Block[], about: readonly number[]): WanderingRows {
  const width = PRIORS.length + 1;
  const tables = {
    east: new Float64Array(blocks.length * width),
    north: new Float64Array(blocks.length * width),
  };
  blocks.forEach((block, row) => {
    const rate = turnOf(block);
    for (const second of block) {
      const motion = motionOf(second, rate, about);
      for (const direction of ["east", "north"] as const)
        motion[direction].forEach((value, column) => {
          tables[direction][row * width + column]! += value / block.length;
        });
    }
  });
  return {
    times: Float64Array.from(blocks, midOf),
    durations: Float64Array.from(blocks, durationOf),
    series: [tables.east, tables.north],
  };
}

const ROUNDS = 4;

/** The fit, its angles small about rounds at the usual scales, and the rows that it was made of. */
function settled(blocks: readonly Block[]) {
  let about: readonly number[] = PRIORS.map((prior) => prior?.mean ?? 0);
  for (let round = 0; round < ROUNDS; round++) {
    const values = usualLinearFit(rowsOf(blocks, about), PRIORS, SCALES);
    if (!values) return undefined;
    about = values;
  }
  const rows = rowsOf(blocks, about);
  const fit = wanderingLinearFit(rows, PRIORS, SCALES);
  return fit && { fit, rows };
}

const seriesOf = (values: readonly number[]): CompassParameters => ({
  ...NONE,
  ...Object.fromEntries(TERMS.map((term, index) => [term, values[index] ?? 0])),
});

/** What is left of each block's motion, one series after the other: the current and the noise. */
const leftOf = ({ series }: WanderingRows, values: readonly number[]): readonly (readonly number[])[] => {
  const width = values.length + 1;
  return series.map((table) =>
    Array.from({ length: table.length / width }, (_, row) => {
      const columns = table.subarray(row * width, (row + 1) * width);
      return columns[values.length]! - sumOf(values, Array.from(columns));
    }),
  );
};

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

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
  const all = blocksOf(seconds);
  const upright = all.filter(isUpright);
  if (upright.length === 0) return { status: "unsolved", reason: all.length > 0 ? "heeled" : "no seconds" };
  const underSail = blocksUnderSail(upright);
  const blocks = upright.filter((_, at) => !underSail[at]);
  const used = blocks.flat();
  const refused = blocks.length === 0 ? "one heading" : headingsRefused(used.map(({ heading }) => heading));
  if (refused && 2 * blocks.length < upright.length) return { status: "unsolved", reason: "sailing" };
  if (refused) return { status: "unsolved", reason: refused };
  const found = settled(blocks);
  if (!found) return { status: "unsolved", reason: "not told apart" };
  const { fit, rows } = found;
  const common = used.every(({ variation }) => variation === 0) ? 0 : VARIATION_DEVIATION;
  const drift = used.filter(hasWind).length > used.length / 2 ? 0 : DRIFT;
  const halfOf = (columns: readonly number[], beside: Radians): Radians =>
    HALF *
    Math.hypot(
      Math.sqrt(varianceOf(columns.concat(PRIORS.slice(columns.length).map(() => 0)), fit.covariance)),
      beside,
    );
  const [a, b, c, d, e] = [common, drift, drift, 0, 0].map((beside, term) =>
    halfOf([...Array<number>(term).fill(0), 1], beside),
  ) as [Radians, Radians, Radians, Radians, Radians];
  const [east = [], north = []] = leftOf(rows, fit.values);
  const current = [meanOf(east), meanOf(north)] as const;
  return {
    status: "solved",
    series: seriesOf(fit.values),
    halves: { a, b, c, d, e, heelingError: 0 },
    terms: TERMS,
    residuals: blocks.map((block, row) => {
      const { heading, variation, stw } = block[block.length >> 1]!;
      const toTrue = heading + variation;
      const [leftEast, leftNorth] = [east[row]! - current[0], north[row]! - current[1]];
      return (leftEast * Math.cos(toTrue) - leftNorth * Math.sin(toTrue)) / stw;
    }),
    spare: 2 * (blocks.length - 1) - TERMS.length,
    scatter: fit.scatter,
    at: (heading) => ({
      heading,
      deviation: deviation(heading, 0, seriesOf(fit.values)),
      half: halfOf(termsAt(heading), drift),
    }),
    seconds: used.length,
    heeled: all.flat().length - upright.flat().length,
    sailed: upright.flat().length - used.length,
    turning: meanOf(blocks.map(turnOf)),
    current: Math.hypot(...current),
  };
}
