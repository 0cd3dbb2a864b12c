import type { Boat } from "../calibration/boat.ts";
import { type AnswerOptions, answerInTurns, type Calibrated } from "./answerOf.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { summariseLogs } from "./summariseLogs.ts";

/**
 * The main job in one: logs are read (`summariseLogs`), then answered (`answerInTurns`), with pauses in which events and timers have
 * their turn.
 *
 * @param logs of one recording, made with the same settings active
 * @param boat what is known of her; `settings` are those that were active in the instruments
 * @param run told what is being done and which share of it is; a signal to call it off, heard while it reads and while it fits
 * @param leaveOut legs and turns that the answer is not to rest on
 * @returns an answer, solved or not
 * @throws UnusableLog where a log holds nothing that can be used; what the logs' chunks throw; the signal's reason when aborted
 * @example
 * // one tack alone tells nothing
 * const { answer } = await calibrateLogs([shortLog], UNKNOWN_BOAT, { progress: (what, share) => {} });
 * answer.fit.status // "unsolved"
 */
export async function calibrateLogs(
  logs: readonly LogSource[],
  boat: Boat,
  run: JobRun = {},
  leaveOut: AnswerOptions["leaveOut"] = {},
): Promise<Calibrated> {
  const summary = await summariseLogs(logs, boat, run);
  return answerInTurns(summary, boat, leaveOut, run);
}
