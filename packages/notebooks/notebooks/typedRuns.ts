import { type MeasuredRun, metresPerSecond } from "@bothtacks/core";
import { BadLine, linesOf, orProblem } from "./typedTable.ts";

/** A table of runs as someone typed it. */
export interface TypedRuns {
  readonly runs: readonly MeasuredRun[];
  /** Whether each run has a reading of the log. */
  readonly hasReadings: boolean;
}

const DAY = 24 * 3600;
const CLOCK = /^([01]?\d|2[0-3]):([0-5]\d):([0-5]\d(?:[.,]\d+)?)$/;

function timeOf(text: string, line: number): number {
  const found = CLOCK.exec(text);
  if (!found) throw new BadLine(`Line ${line}: "${text}" is no time such as 10:02:30.`);
  const [, hours, minutes, seconds] = found;
  return 3600 * Number(hours) + 60 * Number(minutes) + Number(seconds?.replace(",", "."));
}

function readingOf(text: string, line: number): number {
  const reading = Number(text.replace(",", "."));
  if (!(reading > 0)) throw new BadLine(`Line ${line}: "${text}" is no reading of the log in knots.`);
  return metresPerSecond(reading);
}

/** The time of day that comes after another, past midnight if it must; NaN where it lies before it, since nobody times half a day. */
function onward(time: number, last: number): number {
  const later = (((time - last) % DAY) + DAY) % DAY;
  return later < DAY / 2 ? last + later : Number.NaN;
}

function readRuns(text: string, distance: number): TypedRuns {
  let last: number | undefined;
  const runs = linesOf(text).map(({ line, words }): MeasuredRun => {
    const [from = "", to = "", written = "", log] = words;
    const way = written.toLowerCase();
    if (words.length < 3 || words.length > 4)
      throw new BadLine(`Line ${line}: needs a start, an end and "there" or "back", and may have the log.`);
    if (way !== "there" && way !== "back")
      throw new BadLine(`Line ${line}: "${written}" must be "there" or "back".`);
    const start = last === undefined ? timeOf(from, line) : onward(timeOf(from, line), last);
    if (Number.isNaN(start))
      throw new BadLine(`Line ${line}: starts before the run above it has ended. Runs stand in their order.`);
    const end = onward(timeOf(to, line), start);
    if (Number.isNaN(end)) throw new BadLine(`Line ${line}: the run ends before it starts.`);
    if (!(end > start)) throw new BadLine(`Line ${line}: the run ends when it starts.`);
    last = end;
    const run = { start, end, distance, way: way === "there" ? 1 : -1 } as const;
    return log === undefined ? run : { ...run, reading: readingOf(log, line) };
  });
  const withReading = runs.filter(({ reading }) => reading !== undefined).length;
  if (withReading > 0 && withReading < runs.length)
    throw new BadLine("The log must stand on all lines or on none.");
  return { runs, hasReadings: withReading > 0 };
}

/**
 * Runs from lines "start end way log": times of day, "there" or "back", knots; the log may be left out on all lines. No runs, and
 * what is wrong with which line, where one cannot be read. Never throws.
 *
 * @param distance m
 */
export const typedRuns = (text: string, distance: number): TypedRuns & { readonly problem: string } =>
  orProblem(() => readRuns(text, distance), { runs: [], hasReadings: false });
