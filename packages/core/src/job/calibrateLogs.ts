import type { Boat } from "../calibration/boat.ts";
import { type AnswerOptions, answerOf, type Calibrated } from "./answerOf.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { summariseLogs } from "./summariseLogs.ts";

/**
 * The main job in one: logs are read (`summariseLogs`), then answered (`answerOf`).
 *
 * @param logs of one recording, made with the same settings active
 * @param boat what is known of her; `settings` are those that were active in the instruments
 * @param run progress and a signal to call it off
 * @param leaveOut legs and turns that the answer is not to rest on
 * @returns an answer, solved or not
 * @throws what the two throw
 */
export async function calibrateLogs(
  logs: readonly LogSource[],
  boat: Boat,
  run: JobRun = {},
  leaveOut: AnswerOptions["leaveOut"] = {},
): Promise<Calibrated> {
  const summary = await summariseLogs(logs, boat, run);
  run.progress?.("fitting", Number.NaN);
  return answerOf(summary, boat, { leaveOut, ...(run.signal ? { signal: run.signal } : {}) });
}
