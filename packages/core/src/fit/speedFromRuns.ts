import type { Tack } from "../sailing/legRow.ts";
import { type MetresPerSecond, metresPerSecond, type Radians, radians } from "../units.ts";
import { WHEEL_GAIN } from "./deficitPrior.ts";
import { toldBy } from "./linearFit.ts";
import {
  checkRuns,
  fitRuns,
  type MeasuredRun,
  type MeasuredRunsOptions,
  type RunsFit,
  type UnsolvedRuns,
} from "./measuredRuns.ts";
import { BOAT_PRIORS, type Prior } from "./priors.ts";

/** A run with what the log read, and the tack where it was sailed. */
export interface LoggedRun extends MeasuredRun {
  readonly reading: MetresPerSecond;
  /** Undefined under power. */
  readonly tack?: Tack;
  /** To either side, rad; left out where nobody noted it. */
  readonly heel?: Radians;
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
  /**
   * By how much ln gain grows from upright to heeled by 1 rad, and half its interval, where heel was noted and differed; NaN elsewhere. The gains are those of
   * the boat upright where `heelInsists`, else of her as she was sailed.
   */
  readonly heelSlope: number;
  readonly heelSlopeHalf: number;
  /** Whether the slope's interval leaves out 0: else it is left out of the fit. */
  readonly heelInsists: boolean;
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

/** What heel may change of ln gain, a radian, one standard deviation: 5 % at 20°. Judgement. */
const HEEL: Prior = { mean: 0, sd: 0.05 / radians(20) };

/** Runs whose heel differs by less than this tell nothing of it. */
const HEEL_DIFFERS: Radians = radians(5);

const GAIN: Prior = { mean: 1, sd: WHEEL_GAIN.sd };

/** What the wheel misses at 5 kn by either law: common practice 0.4 kn, or 0 in a log that corrects itself; where all of it falls with speed it is less. Judgement. */
const DEFICITS: Readonly<Record<SpeedLaw, Prior>> = {
  intercept: { mean: metresPerSecond(0.25), sd: metresPerSecond(0.25) },
  "falling deficit": { mean: metresPerSecond(0.12), sd: metresPerSecond(0.15) },
};

/** What the gain is let depend on. */
interface Beside {
  readonly tacks: boolean;
  readonly heel: boolean;
}

/** The unknowns of the boat: the deficit, the gain, and where both tacks were sailed the difference of their gains. */
const priorsOf = (law: SpeedLaw, { tacks, heel }: Beside): readonly Prior[] => [
  DEFICITS[law],
  GAIN,
  ...(tacks ? [BOAT_PRIORS["speed.gainDifference"]] : []),
  ...(heel ? [HEEL] : []),
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
  { tacks, heel }: Beside,
  rough: RoughLine,
  { reading, tack, heel: heeled = 0 }: Pick<LoggedRun, "reading" | "tack" | "heel">,
): readonly number[] => [
  law === "intercept" ? 1 : DEFICIT_SPEED / roughSpeed(rough, reading),
  reading,
  ...(tacks ? [sideOf(tack) * reading] : []),
  ...(heel ? [Math.abs(heeled) * reading] : []),
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
  readonly beside: Beside;
  readonly fit: RunsFit;
  readonly misfit: number;
}

function fitByLaw(
  runs: readonly LoggedRun[],
  law: SpeedLaw,
  rough: RoughLine,
  options: MeasuredRunsOptions,
  heel = false,
): ByLaw | UnsolvedRuns {
  const tacks = (["starboard", "port"] as const).every((side) => runs.some(({ tack }) => tack === side));
  const beside = { tacks, heel };
  const priors = priorsOf(law, beside);
  const own = (run: MeasuredRun): readonly number[] => columnsAt(law, beside, rough, run as LoggedRun);
  const fit = fitRuns(runs, own, priors, options);
  if (fit.status === "unsolved") return fit;
  return { law, rough, beside, fit, misfit: sumOfSquares(fit, options.deviation, priors) };
}

/** What one of each unknown adds to the slope with heel. */
const slopeOf = ({ beside }: ByLaw): readonly number[] => [0, 0, ...(beside.tacks ? [0] : []), 1];

/** Whether heel was noted on all runs, and differed. */
function heelDiffers(runs: readonly LoggedRun[]): boolean {
  const heels = runs.map(({ heel = Number.NaN }) => Math.abs(heel));
  return Math.max(...heels) - Math.min(...heels) >= HEEL_DIFFERS;
}

/**
 * M123. The speed sensor from runs over a measured distance in a tide of known strength (M122): intercept and gain, the tacks' gains where
 * both were sailed, and the gain at a few speeds. What is usual of a sensor (M46) counts as a reading does, so that one speed tells the gain there and
 * no more. Of two laws of the deficit the likelier is taken, and by how much is told. Where heel was noted and differed, the gain depends on it if the interval
 * of that dependence leaves out 0, and then is the gain upright.
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
  const plain = isFalling ? falling : line;
  const preferredBy = Math.max(0, isFalling ? line.misfit - falling.misfit : falling.misfit - line.misfit);
  const heeled = heelDiffers(runs) ? fitByLaw(runs, plain.law, plain.rough, options, true) : undefined;
  if (!heeled || "status" in heeled) return sensorOf(runs, plain, preferredBy, NO_SLOPE);
  const slope = toldBy(heeled.fit, slopeOf(heeled));
  const isBeyond = Math.abs(slope.value) > slope.half;
  const gain0 = heeled.fit.values[1]!;
  const told = { heelSlope: slope.value / gain0, heelSlopeHalf: slope.half / gain0, heelInsists: isBeyond };
  const free = sensorOf(runs, heeled, preferredBy, told);
  return isBeyond ? free : noSurer(sensorOf(runs, plain, preferredBy, told), free);
}

/** A sensor whose gains are known no better than where heel is left free: that it does nothing is what was found, not what is known. */
function noSurer(plain: SolvedSpeedSensor, free: SolvedSpeedSensor): SolvedSpeedSensor {
  const gainAt = (reading: MetresPerSecond): GainAt => {
    const at = plain.gainAt(reading);
    return { ...at, half: Math.max(at.half, free.gainAt(reading).half) };
  };
  return {
    ...plain,
    gainHalf: Math.max(plain.gainHalf, free.gainHalf),
    interceptHalf: Math.max(plain.interceptHalf, free.interceptHalf),
    gainAt,
    gains: plain.gains.map(({ reading }) => gainAt(reading)),
  };
}

type HeelSlope = Pick<SolvedSpeedSensor, "heelSlope" | "heelSlopeHalf" | "heelInsists">;

const NO_SLOPE: HeelSlope = { heelSlope: Number.NaN, heelSlopeHalf: Number.NaN, heelInsists: false };

function sensorOf(
  runs: readonly LoggedRun[],
  { fit, law, beside, rough }: ByLaw,
  preferredBy: number,
  heel: HeelSlope,
): SolvedSpeedSensor {
  const { tacks } = beside;
  const mean = runs.reduce((sum, { reading }) => sum + reading, 0) / runs.length;
  const tangent = lineOf(law, rough, mean);
  const gainAt = (reading: MetresPerSecond): GainAt => {
    const columns = columnsAt(law, beside, rough, { reading }).map((column) => column / reading);
    const { value, half } = toldBy(fit, columns);
    return { reading, gain: value, half };
  };
  const [intercept, gain] = [toldBy(fit, tangent.intercept), toldBy(fit, tangent.gain)];
  const difference = tacks ? toldBy(fit, [0, 0, 1]) : undefined;
  const currentAt = 2 + Number(tacks) + Number(beside.heel);
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
    ...heel,
    gainAt,
    gains: readingsToTell(runs).map(gainAt),
    residuals: fit.residuals,
    spare: fit.spare,
    scatter: fit.scatter,
    meanCurrent: current.value,
    meanCurrentHalf: current.half,
  };
}
