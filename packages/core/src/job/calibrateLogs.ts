import type { Boat } from "../calibration/boat.ts";
import { leewayLawBreakers } from "../calibration/boat.ts";
import { fitBoat } from "../fit/fitBoat.ts";
import { channelsOf } from "../fit/recordingChannels.ts";
import { agreementsOf } from "../judge/agreements.ts";
import { statesCorrected, statesOnBoard } from "../judge/rowWind.ts";
import type { Answer, WordlessAnswer } from "../report/answer.ts";
import { type CorrectionTables, correctionTables } from "../report/tables.ts";
import { plainWords } from "../report/words.ts";
import type { LegRow } from "../sailing/legRow.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { recordingSummary } from "./recordingSummary.ts";
import { sailingOfLogs } from "./sailingOfLogs.ts";
import { surveyLogs } from "./survey.ts";
import { windTrack } from "./windTrack.ts";

/** An answer with what its files and the report are drawn from. */
export interface Calibrated {
  readonly answer: Answer;
  /** undefined where the fit is unsolved. */
  readonly tables: CorrectionTables | undefined;
  readonly rows: readonly LegRow[];
  readonly boat: Boat;
}

/** Rows without a variation take the one that the boat file gives. */
const withVariation = (rows: readonly LegRow[], { variation }: Boat): readonly LegRow[] =>
  rows.map((row) => (Number.isNaN(row.variation) ? { ...row, variation } : row));

/**
 * The main job: from the logs of one boat to corrections, agreements, tables and words. Command line, browser worker and
 * tests all call this.
 *
 * @param logs of one recording, made with the same settings active
 * @param boat what is known of her; `settings` are those that were active in the instruments
 * @param run progress and a signal to call it off
 * @returns an answer, solved or not
 * @throws UnusableLog where a log cannot be used; what the chunks throw; the signal's reason when aborted
 */
export async function calibrateLogs(
  logs: readonly LogSource[],
  boat: Boat,
  run: JobRun = {},
): Promise<Calibrated> {
  const survey = await surveyLogs(logs, boat, run);
  const { base, active } = boat.settings;
  const sailing = await sailingOfLogs(logs, survey.plan, active, run);
  const rows = withVariation(sailing.rows, boat);
  run.progress?.("fitting", Number.NaN);
  const fit = fitBoat(rows, {
    heelSign: boat.heelSensorSign,
    steeredBy: boat.steeredBy,
    leewayLawHolds: leewayLawBreakers(boat.rig).length === 0,
    ...(run.signal ? { signal: run.signal } : {}),
  });
  const before = statesOnBoard(rows, active, boat.computer);
  const after = fit.status === "solved" ? statesCorrected(rows, fit.settings) : undefined;
  const scales = fit.status === "solved" ? fit.wander : undefined;
  const tables = fit.status === "solved" ? correctionTables(fit, base, active, boat, rows) : undefined;
  const wordless: WordlessAnswer = {
    recording: recordingSummary(survey, sailing),
    legs: sailing.legs,
    turns: sailing.turns,
    base,
    active,
    fit,
    before: agreementsOf(rows, before, scales),
    ...(after ? { after: agreementsOf(rows, after, scales) } : {}),
    track: windTrack(rows, fit, before, after, channelsOf(rows).gps),
  };
  return { answer: { ...wordless, words: plainWords(wordless, boat, tables) }, tables, rows, boat };
}
