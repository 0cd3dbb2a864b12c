import { applicability } from "../calibration/activeSettings.ts";
import type { Boat } from "../calibration/boat.ts";
import type { Calibration } from "../calibration/calibration.ts";
import { channelsOf } from "../fit/recordingChannels.ts";
import { type CorrectionOptions, correctedSeconds } from "../sailing/correctedSeconds.ts";
import type { Leg, LegRow } from "../sailing/legRow.ts";
import { type LoggedSecond, loggedSecond } from "../sailing/loggedSecond.ts";
import type { Seconds } from "../units.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { sailingOfLogs } from "./sailingOfLogs.ts";
import { secondsOfLog } from "./secondsOfLog.ts";
import { type Survey, surveyLogs } from "./survey.ts";

/** A log with its faults undone. */
export type CorrectedLog =
  | {
      readonly status: "corrected";
      readonly directionsAre: "true" | "magnetic";
      /** Sentences for the navigator. */
      readonly notes: readonly string[];
      /** Reads the log anew each time it is iterated. */
      readonly seconds: AsyncIterable<LoggedSecond>;
    }
  | { readonly status: "refused"; readonly reason: string };

/** Whether the sails are down at a second, from the legs under power. */
function motoringAt(legs: readonly Leg[]): (time: Seconds) => boolean {
  const motoring = legs.filter(({ kind }) => kind === "motoring");
  return (time) => motoring.some(({ start, end }) => time >= start && time < end);
}

/** The instruments that work, as the fit judges them from its rows; those that are there, where nothing was sailed. */
function instrumentsOf({ plan: { chosen } }: Survey, rows: readonly LegRow[]): CorrectionOptions["has"] {
  if (rows.length > 0) return channelsOf(rows);
  const quantities = new Set(chosen.map(({ quantity }) => quantity));
  return {
    paddle: quantities.has("speedThroughWater"),
    compass: quantities.has("headingMagnetic") || quantities.has("headingTrue"),
    heel: quantities.has("heel"),
  };
}

async function* secondsCorrected(
  log: LogSource,
  survey: Survey,
  options: CorrectionOptions,
  run: JobRun,
): AsyncGenerator<LoggedSecond, void, undefined> {
  for await (const block of secondsOfLog(log, survey.plan, run)) {
    let index = 0;
    for (const corrected of correctedSeconds(block, options)) yield loggedSecond(corrected, block, index++);
  }
}

/**
 * Applies a calibration to a log, second by second; refused where the corrections that were active in the instruments
 * are not those of the calibration's own log (M28).
 *
 * @param boat of the log, with the settings that were active
 * @throws UnusableLog; what the log's chunks throw; the signal's reason when aborted
 * @example
 * const corrected = await correctedLog(shortLog, calibration, boat);
 * corrected.status // "corrected"
 */
export async function correctedLog(
  log: LogSource,
  calibration: Calibration,
  boat: Boat,
  run: JobRun = {},
): Promise<CorrectedLog> {
  const applies = applicability(boat.settings, calibration.settings);
  if (applies.status === "refused") return applies;
  const survey = await surveyLogs([log], boat, run);
  const { active } = boat.settings;
  const { legs, rows } = await sailingOfLogs([log], survey.plan, active, run);
  const options: CorrectionOptions = {
    settings: calibration.fit.settings,
    boat,
    has: instrumentsOf(survey, rows),
    directionsAre: survey.directionsAre,
    isMotoring: motoringAt(legs),
  };
  return {
    status: "corrected",
    directionsAre: survey.directionsAre,
    notes: applies.note === undefined ? [] : [applies.note],
    seconds: { [Symbol.asyncIterator]: () => secondsCorrected(log, survey, options, run) },
  };
}
