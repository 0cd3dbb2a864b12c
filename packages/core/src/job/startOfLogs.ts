import { SourceList } from "../recording/sourceList.ts";
import type { Seconds } from "../units.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { readingsOfLog } from "./readingsOfLog.ts";

/** Times before this are of a log that tells the time of day and no date. */
const FIRST_DATE: Seconds = 366 * 86_400;

/** When a log's first reading with a date was made; NaN where none has one. @throws as `readingsOfLog` */
async function startOfLog(log: LogSource, run: JobRun): Promise<Seconds> {
  for await (const readings of readingsOfLog(log, new SourceList(), run)) {
    const dated = readings.time.subarray(0, readings.length).find((time) => time > FIRST_DATE);
    if (dated !== undefined) return dated;
  }
  return Number.NaN;
}

/**
 * When the earliest of some logs begins, s since 1970 UTC, from their first readings alone; NaN where one of them tells no date.
 *
 * @throws as `readingsOfLog`
 */
export async function startOfLogs(logs: readonly LogSource[], run: JobRun = {}): Promise<Seconds> {
  let first = Infinity;
  for (const log of logs) first = Math.min(first, await startOfLog(log, run));
  return logs.length === 0 ? Number.NaN : first;
}
