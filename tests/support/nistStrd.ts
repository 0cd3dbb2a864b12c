import { readFileSync } from "node:fs";

/** A nonlinear regression problem of NIST's Statistical Reference Datasets, as its .dat file gives it. */
export interface NistProblem {
  readonly name: string;
  readonly difficulty: string;
  readonly starts: readonly (readonly number[])[];
  readonly certified: readonly number[];
  readonly certifiedSd: readonly number[];
  readonly sumOfSquares: number;
  readonly y: readonly number[];
  /** One row of predictors for each y. */
  readonly x: readonly (readonly number[])[];
}

const folder = new URL("../../datasets/published/nist/", import.meta.url);

/** Reads the file that NIST publishes for a nonlinear problem. */
export function nistProblem(name: string): NistProblem {
  const lines = readFileSync(new URL(`${name}.dat`, folder), "latin1").split(/\r?\n/);
  const parameters = lines
    .map((line) => /^\s*b\d+\s*=\s*(.+)$/.exec(line)?.[1])
    .filter((line) => line !== undefined)
    .map(numbers);
  const data = lines
    .slice(lines.findLastIndex((line) => /^Data:/.test(line)) + 1)
    .map(numbers)
    .filter((row) => row.length > 1);
  const column = (at: number): number[] => parameters.map((row) => row[at]!);
  return {
    name,
    difficulty: /(\w+) Level of Difficulty/.exec(lines.join("\n"))![1]!,
    starts: [column(0), column(1)],
    certified: column(2),
    certifiedSd: column(3),
    sumOfSquares: Number(/Residual Sum of Squares:\s*(\S+)/.exec(lines.join("\n"))![1]),
    y: data.map((row) => row[0]!),
    x: data.map((row) => row.slice(1)),
  };
}

const numbers = (line: string): number[] => line.trim().split(/\s+/).filter(Boolean).map(Number);
