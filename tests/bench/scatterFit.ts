/**
 * The joint fit against what a user would write with scipy: `least_squares` on the scatter of the true wind direction over the same rows. Ten
 * boats, each fitted on one afternoon's racing and scored on another day's; then the time of both for some 5,000 rows. Seeds are given
 * on the command line or begin at 53001.
 */
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import type { LegRow } from "../../packages/core/src/sailing/legRow.ts";
import { anotherDay, drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import {
  meanOf,
  requireSolved,
  rowsOfDays,
  type SeenSail,
  scoreOf,
  seenSail,
} from "../support/scoredSails.ts";

const CONTEXT = { heelSign: "auto", steeredBy: "sails", leewayLawHolds: true } as const;
const PYTHON = fileURLToPath(new URL("scatterFit.py", import.meta.url));

interface PythonAnswer {
  readonly seconds: number;
  readonly gaps?: readonly [number, number];
}

/** Rows under sail as the Python program reads them; heel by the installation's sign, directions true. */
const plainRows = (rows: readonly LegRow[], heelSign: 1 | -1, truth: (row: LegRow) => number | null) =>
  rows
    .filter(({ kind }) => kind === "sailing")
    .map((row) => {
      const { awa, aws, stw, heading, heel, east, north } = row.mean;
      const variation = row.headingIsTrue ? 0 : row.variation;
      return [awa, aws, stw, heading + variation, heelSign * heel, Math.hypot(east, north), truth(row)];
    })
    .filter((row) => row.every((value) => value === null || Number.isFinite(value)));

function python(fit: unknown, score: unknown, rounds: number): PythonAnswer {
  const input = JSON.stringify({ fit, score, rounds });
  const { status, stdout, stderr } = spawnSync("python3", [PYTHON], {
    input,
    encoding: "utf8",
    maxBuffer: 1e8,
  });
  if (status !== 0) throw new Error(`scatterFit.py failed:\n${stderr}`);
  return JSON.parse(stdout) as PythonAnswer;
}

/** Mean true wind direction over a row's seconds. */
const truthIn =
  ({ sail: { truth, scenario } }: SeenSail) =>
  ({ start, duration }: LegRow): number => {
    let [sine, cosine] = [0, 0];
    for (let second = start - scenario.start; second < start - scenario.start + duration; second++) {
      sine += Math.sin(truth.columns.waterWindDirection[second]!);
      cosine += Math.cos(truth.columns.waterWindDirection[second]!);
    }
    return Math.atan2(sine, cosine);
  };

function errorsOf(seed: number) {
  const scenario = drawScenario(seed);
  const { rows } = seenSail(scenario).sailing;
  const other = seenSail(anotherDay(scenario, seed + 1_000_000));
  const ours = scoreOf(other, requireSolved(fitBoat(rows, CONTEXT)).settings);
  const { sign } = scenario.faults.heel;
  const score = plainRows(other.sailing.rows, sign, truthIn(other));
  const [upwind = Number.NaN, offTheWind = Number.NaN] = python(
    plainRows(rows, sign, () => null),
    score,
    1,
  ).gaps!;
  return { ours, theirs: { upwind, offTheWind } };
}

function scatterFit(first: number): void {
  if (spawnSync("python3", ["-c", "import scipy"]).status !== 0) {
    console.log(
      "scatter fit: skipped, since python3 with scipy was not found (apt-get install python3-scipy)",
    );
    return;
  }
  const boats = Array.from({ length: 10 }, (_, place) => errorsOf(first + place));
  const size = (whose: "ours" | "theirs", point: "upwind" | "offTheWind"): number =>
    meanOf(boats.map((boat) => Math.abs(boat[whose][point])));
  for (const point of ["upwind", "offTheWind"] as const) {
    const [ours, theirs] = [size("ours", point), size("theirs", point)];
    console.log(
      `tack gap left on another day, ${point === "upwind" ? "upwind" : "off the wind"}, mean size of ten: joint fit ${ours.toFixed(2)}°, scatter fit with scipy ${theirs.toFixed(2)}°: ${(ours / theirs).toFixed(2)} of it`,
    );
  }
  timeOfFits(first);
}

const DAYS = 20;

function timeOfFits(seed: number): void {
  const scenario = drawScenario(seed);
  const days = Array.from({ length: DAYS }, (_, day) =>
    seenSail({
      ...(day === 0 ? scenario : anotherDay(scenario, seed + 2_000_000 + day)),
      start: scenario.start + 2 * 24 * 3600 * day,
    }),
  );
  const rows = rowsOfDays(days.map(({ sailing }) => sailing.rows));
  const before = performance.now();
  requireSolved(fitBoat(rows, CONTEXT));
  const ours = (performance.now() - before) / 1000;
  const theirs = python(
    plainRows(rows, scenario.faults.heel.sign, () => null),
    [],
    3,
  ).seconds;
  console.log(
    `${rows.length} rows of ${DAYS} days: joint fit ${ours.toFixed(2)} s, scatter fit with scipy ${theirs.toFixed(2)} s`,
  );
}

const [given = "53001"] = process.argv.slice(2).filter((argument) => argument !== "--");
scatterFit(Number(given));
