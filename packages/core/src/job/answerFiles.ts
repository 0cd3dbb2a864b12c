import { type BoatHistory, NO_HISTORY } from "../calibration/boatHistory.ts";
import { calibrationFileText } from "../calibration/calibrationFile.ts";
import { evidenceIn, evidenceOfCalibration } from "../judge/evidence.ts";
import { sensorStates } from "../judge/sensorStates.ts";
import { tablesCsv } from "../report/csv.ts";
import { htmlReport } from "../report/html.ts";
import type { Seconds } from "../units.ts";
import type { Calibrated } from "./answerOf.ts";
import { calibrationOf } from "./calibrationOf.ts";

/**
 * The names of the files that a calibration leaves.
 *
 * @example
 * Object.keys(answerFiles(calibrated, "", 1_790_000_000)) // [...ANSWER_FILES]
 */
export const ANSWER_FILES = ["calibration.json", "tables.csv", "report.html"] as const;

/** The texts of the files that a calibration leaves, by name. */
export type AnswerFiles = Readonly<Record<(typeof ANSWER_FILES)[number], string>>;

/**
 * The texts of the files that a solved answer leaves: calibration, tables, report.
 *
 * @param plotlySource source text of plotly.js, to be inlined in the report
 * @param made when, s since 1970 UTC
 * @param history of the boat, for where her other sensors stand
 * @returns undefined where the fit is unsolved. Never throws.
 * @example
 * answerFiles(calibrated, "", 1_790_000_000)["tables.csv"] === tablesCsv(tables) // true
 */
export function answerFiles(
  { answer, tables, rows, boat }: Calibrated,
  plotlySource: string,
  made: Seconds,
  history: BoatHistory = NO_HISTORY,
): AnswerFiles | undefined {
  const calibration = calibrationOf(answer, boat, made);
  if (calibration === undefined || tables === undefined) return undefined;
  const evidence = [...evidenceIn(history), evidenceOfCalibration("this recording", calibration)];
  const states = sensorStates(
    evidence.sort((one, other) => one.at - other.at),
    calibration.settings,
  );
  return {
    "calibration.json": calibrationFileText(calibration),
    "tables.csv": tablesCsv(tables),
    "report.html": htmlReport({ answer, tables, rows, boatName: boat.name, states }, plotlySource),
  };
}
