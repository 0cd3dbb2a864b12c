import { type RunInLog, runsAmongPieces, runsInLog } from "../../fit/runsInLog.ts";
import { straightPieces } from "../../fit/straightPieces.ts";
import { summariseLogs } from "../summariseLogs.ts";
import type { ExerciseGiven } from "./exerciseKind.ts";
import { secondsUnderPower } from "./secondsUnderPower.ts";

/**
 * M134. The runs in logs of an exercise: all straight legs, where the logs are of nothing else, since across the wind a boat under power looks like one
 * under sail; else the legs that are seen to be under power.
 *
 * @throws what reading throws
 */
export async function loggedRuns({ logs, boat, settings, run }: ExerciseGiven): Promise<readonly RunInLog[]> {
  const found = runsAmongPieces(straightPieces(await secondsUnderPower(logs, boat, settings, run)));
  if (found.length > 0) return found;
  const { sailing } = await summariseLogs(logs, { ...boat, settings }, run);
  return runsInLog(sailing.rows);
}
