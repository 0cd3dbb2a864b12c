import { Matrix } from "ml-matrix";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import type { FitContext, RecordingChannels } from "../fit/fitContext.ts";
import type { LegRow } from "../sailing/legRow.ts";
import { metresPerSecond, type Radians, radians } from "../units.ts";
import { type StretchSlopes, stretchSlopes } from "./expectedInformation.ts";
import { hypotheticRows, type PlannedWind } from "./hypotheticRows.ts";

export const MEASURE_KINDS = [
  "tack gap upwind",
  "tack gap off the wind",
  "direction upwind against downwind",
  "wind direction",
  "wind speed between tacks",
] as const;

/** Something of the true wind that ought to be right, as a sum of parameters: how far each moves it, in prior scales. */
export interface Measure {
  readonly kind: (typeof MEASURE_KINDS)[number];
  readonly slopes: readonly number[];
  /** What of it matters: rad, or ln of a speed ratio. */
  readonly matters: number;
}

/** Winds that corrections are used in. */
const WINDS = [metresPerSecond(8), metresPerSecond(16)];
const DIRECTIONS = [0, 90, 180, 270].map((direction) => radians(direction));

/** What a navigator notices, or trims by; a choice. */
const GAP_MATTERS: Radians = radians(1);
const DIRECTION_MATTERS: Radians = radians(2);
const SPEED_MATTERS = 0.03;

/** How far each parameter, moved by its prior's width, turns the direction or raises ln speed of one row's wind. */
const slopesOf = (
  name: "direction" | "logSpeed",
  { series, rows }: StretchSlopes,
  row: number,
): readonly number[] => {
  const { slopes } = series[name];
  const size = slopes.length / rows.length;
  return [...slopes.subarray(row * size, (row + 1) * size)];
};

const less = (one: readonly number[], other: readonly number[]): readonly number[] =>
  one.map((value, index) => value - other[index]!);

const half = (one: readonly number[], other: readonly number[]): readonly number[] =>
  one.map((value, index) => (value + other[index]!) / 2);

/** Measures ask for no symmetry. */
const ANY_CONTEXT: FitContext = {
  heelSign: "auto",
  steeredBy: "unknown",
  leewayLawHolds: true,
  symmetry: false,
};

/** One row on each tack, upwind and downwind. */
function fourRows(fit: SolvedBoatFit, wind: PlannedWind, channels: RecordingChannels): readonly LegRow[] {
  const legs = (["upwind", "downwind"] as const).flatMap((angle) =>
    (["starboard", "port"] as const).map((tack) => ({ kind: "sail", tack, angle, seconds: 60 }) as const),
  );
  return hypotheticRows(legs, wind, fit.settings, channels);
}

function measuresIn(fit: SolvedBoatFit, wind: PlannedWind, channels: RecordingChannels): readonly Measure[] {
  const rows = stretchSlopes(fit, fourRows(fit, wind, channels), channels, ANY_CONTEXT);
  const [upStarboard, upPort, downStarboard, downPort] = [0, 1, 2, 3].map((row) =>
    slopesOf("direction", rows, row),
  ) as [readonly number[], readonly number[], readonly number[], readonly number[]];
  const [speedStarboard, speedPort] = [0, 1].map((row) => slopesOf("logSpeed", rows, row)) as [
    readonly number[],
    readonly number[],
  ];
  const [upwind, downwind] = [half(upStarboard, upPort), half(downStarboard, downPort)];
  return [
    { kind: "tack gap upwind", slopes: less(upStarboard, upPort), matters: GAP_MATTERS },
    { kind: "tack gap off the wind", slopes: less(downStarboard, downPort), matters: GAP_MATTERS },
    { kind: "direction upwind against downwind", slopes: less(upwind, downwind), matters: GAP_MATTERS },
    { kind: "wind direction", slopes: upwind, matters: DIRECTION_MATTERS },
    { kind: "wind speed between tacks", slopes: less(speedStarboard, speedPort), matters: SPEED_MATTERS },
  ];
}

/**
 * M84. What matters of the true wind: the tack gaps, the direction upwind against downwind and by itself, the speed between tacks, in
 * 8 kn and in 16 kn of wind from four quarters.
 * Never throws.
 */
export const measuresOf = (fit: SolvedBoatFit, channels: RecordingChannels): readonly Measure[] =>
  WINDS.flatMap((speed) =>
    DIRECTIONS.flatMap((direction) => measuresIn(fit, { direction, speed }, channels)),
  );

/** M84. Standard deviation of a measure, by the covariance in prior scales. Never throws. */
export function measureSd({ slopes }: Measure, covariance: Matrix): number {
  const column = Matrix.columnVector([...slopes]);
  return Math.sqrt(Math.max(0, column.transpose().mmul(covariance).mmul(column).get(0, 0)));
}

/**
 * M84. For each parameter, the part of what matters that its doubt makes up, with all that goes with it: |gᵀ C eᵢ| / √Cᵢᵢ, the most of
 * any measure over what of it matters. By that much, in squares, a measure would be known better were the parameter known. Never throws.
 *
 * @param covariance in prior scales
 */
export function doubtsOf(measures: readonly Measure[], covariance: Matrix): readonly number[] {
  const sds = covariance.diagonal().map((variance) => Math.sqrt(variance));
  const parts = measures.map(({ slopes, matters }) =>
    covariance
      .mmul(Matrix.columnVector([...slopes]))
      .to1DArray()
      .map((part, index) => (sds[index]! > 0 ? Math.abs(part) / sds[index]! / matters : 0)),
  );
  return sds.map((_, index) => Math.max(...parts.map((part) => part[index]!)));
}
