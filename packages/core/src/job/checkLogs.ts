import type { Boat } from "../calibration/boat.ts";
import type { RecordingSummary } from "../report/answer.ts";
import type { Sailing } from "../sailing/sailing.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { recordingSummary } from "./recordingSummary.ts";
import { sailingOfLogs } from "./sailingOfLogs.ts";
import { type Gap, surveyLogs } from "./survey.ts";

/** What is in some logs, before any fit. */
export interface Check {
  readonly recording: RecordingSummary;
  readonly sailing: Sailing;
  readonly gaps: readonly Gap[];
}

/**
 * Looks into logs: lines, sources, gaps, sailing.
 *
 * @throws UnusableLog; what the logs' chunks throw; the signal's reason when aborted
 */
export async function checkLogs(logs: readonly LogSource[], boat: Boat, run: JobRun = {}): Promise<Check> {
  const survey = await surveyLogs(logs, boat, run);
  const sailing = await sailingOfLogs(logs, survey.plan, boat.settings.active, run);
  return { recording: recordingSummary(survey, sailing), sailing, gaps: survey.gaps };
}
