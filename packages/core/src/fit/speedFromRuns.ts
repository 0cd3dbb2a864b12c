import type { Tack } from "../sailing/legRow.ts";
import { type MetresPerSecond, metresPerSecond } from "../units.ts";
import { toldBy } from "./linearFit.ts";
import {
  checkRuns,
  fitRuns,
  type MeasuredRun,
  type MeasuredRunsOptions,
  type RunsFit,
  type UnsolvedRuns,
} from "./measuredRuns.ts";
import { BOAT_PRIORS, LAW_PRIORS, type Prior } from "./priors.ts";

/** A run with what the log read, and the tack where it was sailed. */
export interface LoggedRun extends MeasuredRun {
  readonly reading: MetresPerSecond;
  /** Undefined under power. */
  readonly tack?: Tack;
}

/** What is stated of the runs beforehand, in m/s. */
export interface SpeedFromRunsOptions {
  /** Standard deviation of one run's mean speed, over the ground and by the log together. */
  readonly deviation: MetresPerSecond;
  /** The strongest stream of the place and day along the course. */
  readonly stream: MetresPerSecond;
}

/**
 * How what the wheel reads too little goes with speed: not at all (friction of the bearing's seals, say), or in proportion to 1 / speed.
 *
 * @example
 * SPEED_LAWS.length // 2
 */
export const SPEED_LAWS = ["intercept", "falling deficit"] as const;
/** One of SPEED_LAWS. */
export type SpeedLaw = (typeof SPEED_LAWS)[number];

/** The factor from reading to speed at one reading, which is what instruments take. */
export interface GainAt {
  readonly reading: MetresPerSecond;
  readonly gain: number;
  readonly half: number;
}

/** The speed sensor that runs tell: gains are factors from reading to speed, everything in SI, with half 95 % intervals. */
export interface SolvedSpeedSensor {
  readonly status: "solved";
  readonly law: SpeedLaw;
  /** How much better than the other law it fits, as a difference of sums of squares; below 4 nothing tells them apart. */
  readonly preferredBy: number;
  /** M20's line through the runs, whichever the law: its tangent at the mean reading where the deficit falls. */
  readonly intercept: MetresPerSecond;
  readonly interceptHalf: MetresPerSecond;
  readonly gain: number;
  readonly gainHalf: number;
  /** ln gain on starboard less ln gain on port; NaN unless both tacks were sailed. */
  readonly gainDifference: number;
  readonly gainDifferenceHalf: number;
  /** The gain at any reading, with what the law beyond the runs leaves. */
  readonly gainAt: (reading: MetresPerSecond) => GainAt;
  /** At a few readings within those of the runs. */
  readonly gains: readonly GainAt[];
  readonly residuals: readonly MetresPerSecond[];
  readonly spare: number;
  readonly scatter: number;
  /** Of the current there on average, toward where runs there go. */
  readonly meanCurrent: MetresPerSecond;
  readonly meanCurrentHalf: MetresPerSecond;
}

/** The current follows a cubic in time, held by the stream. */
const DEGREE = 3;

/** The deficit of the law that falls is stated at this speed. */
const DEFICIT_SPEED: MetresPerSecond = metresPerSecond(5);

/** Sums of squares must differ by this for a law to be called preferred: a normal number's 5 %. */
export const TOLD_APART = 4;

const GAIN: Prior = { mean: 1, sd: BOAT_PRIORS["speed.gain"].sd };

/** The unknowns of the boat: the deficit, the gain, and where both tacks were sailed the difference of their gains. */
const priorsOf = (law: SpeedLaw, tacks: boolean): readonly Prior[] => [
  law === "intercept" ? BOAT_PRIORS["speed.intercept"] : LAW_PRIORS.deficitFalling,
  GAIN,
  ...(tacks ? [BOAT_PRIORS["speed.gainDifference"]] : []),
];

const sideOf = (tack: Tack | undefined): number => (tack === "starboard" ? 0.5 : tack === "port" ? -0.5 : 0);

/** Below this the deficit that falls is held, lest a wheel at rest were everything. */
const LEAST_SPEED: MetresPerSecond = metresPerSecond(1);

/** A line from readings to speeds, by which the law that falls knows roughly how fast she goes. */
interface RoughLine {
  readonly intercept: MetresPerSecond;
  readonly gain: number;
}

const roughSpeed = ({ intercept, gain }: RoughLine, reading: MetresPerSecond): MetresPerSecond =>
  Math.max(LEAST_SPEED, intercept + gain * reading);

/** What one of each unknown adds to the speed at a reading. */
const columnsAt = (
  law: SpeedLaw,
  tacks: boolean,
  rough: RoughLine,
  reading: MetresPerSecond,
  tack?: Tack,
): readonly number[] => [
  law === "intercept" ? 1 : DEFICIT_SPEED / roughSpeed(rough, reading),
  reading,
  ...(tacks ? [sideOf(tack) * reading] : []),
];

/** Readings to tell the gain at: five from the least to the largest, or one where all are within a tenth. */
function readingsToTell(runs: readonly LoggedRun[]): readonly MetresPerSecond[] {
  const sorted = runs.map(({ reading }) => reading).sort((a, b) => a - b);
  const [least, most] = [sorted[0]!, sorted.at(-1)!];
  if (most < 1.1 * least) return [(least + most) / 2];
  return Array.from({ length: 5 }, (_, index) => least + ((most - least) * index) / 4);
}

function sumOfSquares({ residuals, values }: RunsFit, deviation: number, priors: readonly Prior[]): number {
  return (
    residuals.reduce((sum, residual) => sum + (residual / deviation) ** 2, 0) +
    priors.reduce((sum, { mean, sd }, at) => sum + ((values[at]! - mean) / sd) ** 2, 0)
  );
}

/** The line that stands for a law: itself, or the tangent of the deficit q · 5 kn / v at the mean reading. */
function lineOf(law: SpeedLaw, rough: RoughLine, mean: MetresPerSecond) {
  if (law === "intercept") return { intercept: [1, 0], gain: [0, 1] } as const;
  const deficit = DEFICIT_SPEED / roughSpeed(rough, mean);
  const slope = (-deficit * rough.gain) / roughSpeed(rough, mean);
  return { intercept: [deficit - slope * mean, 0], gain: [slope, 1] } as const;
}

/** A fit by one law, with its misfit. */
interface ByLaw {
  readonly law: SpeedLaw;
  readonly rough: RoughLine;
  readonly tacks: boolean;
  readonly fit: RunsFit;
  readonly misfit: number;
}

function fitByLaw(
  runs: readonly LoggedRun[],
  law: SpeedLaw,
  rough: RoughLine,
  options: MeasuredRunsOptions,
): ByLaw | UnsolvedRuns {
  const tacks = (["starboard", "port"] as const).every((side) => runs.some(({ tack }) => tack === side));
  const priors = priorsOf(law, tacks);
  const own = ({ reading = Number.NaN, tack }: MeasuredRun & { readonly tack?: Tack }) =>
    columnsAt(law, tacks, rough, reading, tack);
  const fit = fitRuns(runs, own, priors, options);
  if (fit.status === "unsolved") return fit;
  return { law, rough, tacks, fit, misfit: sumOfSquares(fit, options.deviation, priors) };
}

/**
 * M123. The speed sensor from runs over a measured distance in a tide of known strength (M122): intercept and gain, the tacks' gains where
 * both were sailed, and the gain at a few speeds. What is usual of a sensor (M46) counts as a reading does, so that one speed tells the gain there and
 * no more. Of two laws of the deficit the likelier is taken, and by how much is told.
 *
 * @returns as `speedOfRuns`; fewer runs than two cannot be, as they go one way
 * @throws RangeError as `logOfRuns`, and where the stream is not positive
 *
 * @example
 * const runs = [[0, 600, 1], [200, 400, -1], [400, 600, 1], [600, 400, -1]].map(([start, distance, way]) => ({ start, end: start + 100, distance, way, reading: 4.8 }));
 * speedFromRuns(runs, { deviation: 0.03, stream: 1 }).gains.map(({ gain }) => (4.8 * gain).toFixed(2)) // ["5.00"]
 */
export function speedFromRuns(
  runs: readonly LoggedRun[],
  { deviation, stream }: SpeedFromRunsOptions,
): SolvedSpeedSensor | UnsolvedRuns {
  const options = { deviation, stream, degree: DEGREE };
  checkRuns("speedFromRuns", runs, options);
  if (!(stream > 0 && stream < Infinity))
    throw new RangeError(`speedFromRuns: stream must be positive, got ${stream}`);
  runs.forEach(({ reading }, index) => {
    if (!(reading > 0 && reading < Infinity))
      throw new RangeError(`speedFromRuns: run ${index + 1} needs a reading above 0, got ${reading}`);
  });
  const line = fitByLaw(runs, "intercept", { intercept: 0, gain: 1 }, options);
  if ("status" in line) return line;
  const [intercept, gain] = [line.fit.values[0]!, line.fit.values[1]!];
  const falling = fitByLaw(runs, "falling deficit", { intercept, gain }, options);
  if ("status" in falling) return falling;
  const isFalling = falling.misfit < line.misfit - TOLD_APART;
  return sensorOf(
    runs,
    isFalling ? falling : line,
    Math.max(0, isFalling ? line.misfit - falling.misfit : falling.misfit - line.misfit),
  );
}

function sensorOf(
  runs: readonly LoggedRun[],
  { fit, law, tacks, rough }: ByLaw,
  preferredBy: number,
): SolvedSpeedSensor {
  const mean = runs.reduce((sum, { reading }) => sum + reading, 0) / runs.length;
  const tangent = lineOf(law, rough, mean);
  const gainAt = (reading: MetresPerSecond): GainAt => {
    const columns = columnsAt(law, tacks, rough, reading).map((column) => column / reading);
    const { value, half } = toldBy(fit, columns);
    return { reading, gain: value, half };
  };
  const [intercept, gain] = [toldBy(fit, tangent.intercept), toldBy(fit, tangent.gain)];
  const difference = tacks ? toldBy(fit, [0, 0, 1]) : undefined;
  const currentAt = tacks ? 3 : 2;
  const current = toldBy(fit, [...Array(currentAt).fill(0), 1, 0, 1 / 3]);
  return {
    status: "solved",
    law,
    preferredBy,
    intercept: intercept.value,
    interceptHalf: intercept.half,
    gain: gain.value,
    gainHalf: gain.half,
    gainDifference: difference ? difference.value / gain.value : Number.NaN,
    gainDifferenceHalf: difference ? difference.half / gain.value : Number.NaN,
    gainAt,
    gains: readingsToTell(runs).map(gainAt),
    residuals: fit.residuals,
    spare: fit.spare,
    scatter: fit.scatter,
    meanCurrent: current.value,
    meanCurrentHalf: current.half,
  };
}
