import { PARAMETER_NAMES, type ParameterName } from "../../packages/core/src/sensors/parameterNames.ts";
import { binomialTest } from "./binomial.ts";
import { type ScoredNumber, type ScoredSail, SIDES, type Side } from "./legSails.ts";
import { meanOf, rootMeanSquare } from "./scoredSails.ts";

const HALF_WIDTH = 1.96;
const INFORMED = 0.5;
const HOLDS = 0.95;
/** M175. The rms error may be so many times the bound. */
export const MOST_OVER_BOUND = 1.2;

/** What became of one number over many sails. */
export interface NumberScore {
  readonly name: ParameterName | Side;
  readonly sails: number;
  /** 95 % intervals that held the truth. */
  readonly held: number;
  /** Of the exact test of 95 %. */
  readonly probability: number;
  /** Rms and mean of the error over the fit's standard deviation. */
  readonly spread: number;
  readonly bias: number;
  /** Rms error, and rms standard deviation, over the rms bound; undefined for directions, which have none. */
  readonly overBound: number | undefined;
  readonly sdOverBound: number | undefined;
  /** Rms error over the rms bound of what is usual on legs, likewise. */
  readonly overUsual: number | undefined;
}

function scoreOf(
  name: NumberScore["name"],
  numbers: readonly (Pick<ScoredNumber, "error" | "sd"> & Partial<ScoredNumber>)[],
): NumberScore {
  const standing = numbers.map(({ error, sd }) => error / sd);
  const held = standing.filter((value) => Math.abs(value) <= HALF_WIDTH).length;
  const over = (of: "error" | "sd", which: "bound" | "usualBound") => {
    const bounds = numbers.flatMap((one) => one[which] ?? []);
    if (bounds.length < numbers.length) return undefined;
    return rootMeanSquare(numbers.map((one) => one[of])) / rootMeanSquare(bounds);
  };
  return {
    name,
    sails: numbers.length,
    held,
    probability: binomialTest(held, numbers.length, HOLDS),
    spread: rootMeanSquare(standing),
    bias: meanOf(standing),
    overBound: over("error", "bound"),
    sdOverBound: over("sd", "bound"),
    overUsual: over("error", "usualBound"),
  };
}

/** M175. Each parameter over the sails in which it was called informed, then the direction on each side; what was never told is left out. */
export function scoresOf(sails: readonly ScoredSail[]): readonly NumberScore[] {
  const parameters = PARAMETER_NAMES.map((name) =>
    scoreOf(
      name,
      sails.flatMap(({ parameters: found }) => {
        const one = found[name];
        return one !== undefined && one.informed >= INFORMED ? [one] : [];
      }),
    ),
  );
  const directions = SIDES.map((side) =>
    scoreOf(
      side,
      sails.flatMap(({ directions: found }) => found[side] ?? []),
    ),
  );
  return [...parameters, ...directions].filter(({ sails: count }) => count > 0);
}

/** The probability below which one of so many tests fails, at 1 % for all together. */
export const familyLevel = (tests: number): number => 0.01 / tests;
