import { readFileSync } from "node:fs";
import type { LeastSquaresProblem } from "../../packages/core/src/fit/leastSquaresProblem.ts";
import { NIST_MODELS } from "./nistModels.ts";

/** A nonlinear regression problem of NIST's Statistical Reference Datasets, as its .dat file gives it. */
export interface NistProblem {
  readonly name: string;
  /** Lower, Average or Higher. */
  readonly difficulty: string;
  /** From far and from near. */
  readonly starts: readonly [readonly number[], readonly number[]];
  readonly certified: readonly number[];
  readonly certifiedSd: readonly number[];
  readonly sumOfSquares: number;
  /** Observed values, as the model has them: logarithms for Nelson. */
  readonly y: readonly number[];
  /** A row of predictors for each. */
  readonly x: readonly (readonly number[])[];
}

/** A linear one: certified coefficients with the intercept first. */
export interface NistLinearProblem {
  readonly certified: readonly number[];
  readonly certifiedSd: readonly number[];
  readonly residualSd: number;
  readonly y: readonly number[];
  readonly x: readonly (readonly number[])[];
}

const folder = new URL("../../datasets/published/nist/", import.meta.url);

/** The published problem of that name. */
export function nistProblem(name: string): NistProblem {
  const lines = linesOf(name);
  const parameters = rowsLike(lines, /^\s*b\d+\s*=(.+)$/);
  const data = dataOf(lines);
  const column = (at: number): number[] => parameters.map((row) => row[at]!);
  return {
    name,
    difficulty: field(lines, /(\w+) Level of Difficulty/),
    starts: [column(0), column(1)],
    certified: column(2),
    certifiedSd: column(3),
    sumOfSquares: Number(field(lines, /Residual Sum of Squares:\s*(\S+)/)),
    y: data.map(([y = Number.NaN]) => (name === "Nelson" ? Math.log(y) : y)),
    x: data.map((row) => row.slice(1)),
  };
}

export function nistLinearProblem(name: "Norris" | "Longley"): NistLinearProblem {
  const lines = linesOf(name);
  const coefficients = rowsLike(lines, /^\s*B\d+\s+(-?[\d.].*)$/);
  const data = dataOf(lines);
  return {
    certified: coefficients.map((row) => row[0]!),
    certifiedSd: coefficients.map((row) => row[1]!),
    residualSd: Number(field(lines, /Standard Deviation\s+(\d\S+)\s*$/m)),
    y: data.map((row) => row[0]!),
    x: data.map((row) => row.slice(1)),
  };
}

/** The problem as residuals, observed less model, from one of its starts. */
export function nistResiduals({ name, y, x }: NistProblem, start: readonly number[]): LeastSquaresProblem {
  const model = NIST_MODELS[name]!;
  return {
    start,
    count: y.length,
    residuals(parameters, out) {
      for (let row = 0; row < y.length; row++) out[row] = y[row]! - model(parameters, x[row]!);
    },
  };
}

/** How many leading digits of a number agree with a certified one: −log₁₀ of the relative error, 11 at most. */
export const digitsOf = (value: number, certified: number): number =>
  Math.min(11, -Math.log10(Math.abs(value - certified) / Math.abs(certified)));

const linesOf = (name: string): string[] =>
  readFileSync(new URL(`${name}.dat`, folder), "latin1").split(/\r?\n/);

const numbers = (line: string): number[] => line.trim().split(/\s+/).filter(Boolean).map(Number);

const rowsLike = (lines: readonly string[], pattern: RegExp): number[][] =>
  lines.flatMap((line) => pattern.exec(line)?.slice(1, 2) ?? []).map(numbers);

const dataOf = (lines: readonly string[]): number[][] =>
  lines
    .slice(lines.findLastIndex((line) => /^Data:/.test(line)) + 1)
    .map(numbers)
    .filter((row) => row.length > 1);

function field(lines: readonly string[], pattern: RegExp): string {
  const found = pattern.exec(lines.join("\n"))?.[1];
  if (found === undefined) throw new Error(`nist: no line like ${pattern}`);
  return found;
}
