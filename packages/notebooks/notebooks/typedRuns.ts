import { type MeasuredRun, metresPerSecond } from "@bothtacks/core";
import { BadLine, linesOf, orProblem } from "./typedTable.ts";

/** A table of runs as someone typed it. */
export interface TypedRuns {
  readonly runs: readonly MeasuredRun[];
  /** Whether each run has a reading of the log. */
  readonly hasReadings: boolean;
}

const DAY = 24 * 3600;
const CLOCK = /^(\d{1,2}):(\d{2}):(\d{2}(?:[.,]\d+)?)$/;

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

/** The next time of day is never before the last: past midnight a day is added. */
const onward = (time: number, last: number): number => (time < last ? time + DAY : time);

function readRuns(text: string, distance: number): TypedRuns {
  let last = 0;
  const runs = linesOf(text).map(({ line, words }): MeasuredRun => {
    const [from = "", to = "", way = "", log] = words;
    if (words.length < 3 || words.length > 4)
      throw new BadLine(`Line ${line}: needs a start, an end and "there" or "back", and may have the log.`);
    if (way !== "there" && way !== "back")
      throw new BadLine(`Line ${line}: "${way}" must be "there" or "back".`);
    const start = onward(timeOf(from, line), last);
    const end = onward(timeOf(to, line), start);
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
