import type { ActiveSettings, Boat } from "../calibration/boat.ts";
import { sailingWithoutSteps } from "../fit/stepTroubles.ts";
import type { RecordingSummary } from "../report/answer.ts";
import type { RecordingHealth } from "../report/check.ts";
import type { Sailing } from "../sailing/sailing.ts";
import { sailingWithout } from "../sailing/troubleCure.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { recordingSummary } from "./recordingSummary.ts";
import { sailingOfLogs } from "./sailingOfLogs.ts";
import { surveyLogs } from "./survey.ts";

/** What of the boat the reading depends on: other sources are other readings, other active settings are undone otherwise. */
export type ReadAs = Pick<Boat, "sources" | "variation"> & Pick<ActiveSettings, "active">;

/** What some logs hold, before any fit: all that an answer is drawn from. Plain values, which a worker can pass on. */
export interface LogsSummary {
  readonly recording: RecordingSummary;
  readonly sailing: Sailing;
  readonly health: RecordingHealth;
  readonly readAs: ReadAs;
}

const readAs = ({ sources, variation, settings }: Boat): ReadAs => ({
  sources,
  variation,
  active: settings.active,
});

/**
 * Reads logs: lines, sources, gaps, sailing. The slow part of the job; `answerOf` is the fast one.
 *
 * @param logs of one recording, made with the same settings active
 * @param boat what is known of her; `settings` are those that were active in the instruments
 * @param run progress and a signal to call it off
 * @throws UnusableLog where a log cannot be used; what the chunks throw; the signal's reason when aborted
 * @example
 * const { sailing } = await summariseLogs([shortLog], UNKNOWN_BOAT);
 * sailing.legs.map(({ tack }) => tack) // ["starboard"]
 */
export async function summariseLogs(
  logs: readonly LogSource[],
  boat: Boat,
  run: JobRun = {},
): Promise<LogsSummary> {
  const survey = await surveyLogs(logs, boat, run);
  const sailed = await sailingOfLogs(survey.logs, survey.plan, boat.settings.active, run);
  await run.steps?.release?.();
  run.progress?.("looking for sensors in trouble", Number.NaN);
  const sailing = sailingWithoutSteps(sailingWithout(sailed, survey.mixed));
  return {
    recording: recordingSummary(survey, sailing),
    sailing,
    health: survey.health,
    readAs: readAs(boat),
  };
}

/** The same value as text, whatever the order of its fields; NaN and ±0 by their own names. */
const inOrder = (value: unknown): string => {
  if (typeof value !== "object" || value === null) return Object.is(value, -0) ? "-0" : String(value);
  const fields = Object.entries(value).filter(([, field]) => field !== undefined);
  return `{${fields
    .map(([name, field]) => `${name}:${inOrder(field)}`)
    .sort()
    .join()}}`;
};

/**
 * Whether logs that were read for one boat must be read again to answer for what another boat file tells. Never throws.
 *
 * @example
 * mustReadAgain(summary, { ...boat, variation: radians(3) }) // true
 */
export const mustReadAgain = (summary: Pick<LogsSummary, "readAs">, boat: Boat): boolean =>
  inOrder(summary.readAs) !== inOrder(readAs(boat));
