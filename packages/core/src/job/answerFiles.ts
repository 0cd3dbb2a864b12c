import type { Boat } from "../calibration/boat.ts";
import { calibrationFileText } from "../calibration/calibrationFile.ts";
import { tablesCsv } from "../report/csv.ts";
import { htmlReport } from "../report/html.ts";
import type { CorrectionTables } from "../report/tables.ts";
import type { LegRow } from "../sailing/legRow.ts";
import type { Seconds } from "../units.ts";
import type { Answer } from "./answer.ts";
import { calibrationOf } from "./calibrationOf.ts";

/** The names of the files that a calibration leaves. */
export const ANSWER_FILES = ["calibration.json", "tables.csv", "report.html"] as const;

export type AnswerFiles = Readonly<Record<(typeof ANSWER_FILES)[number], string>>;

/** A solved answer with what its files are drawn from. */
export interface AnswerParts {
  readonly answer: Answer;
  readonly tables: CorrectionTables;
  /** The rows that the fit was made from. */
  readonly rows: readonly LegRow[];
  readonly boat: Boat;
}

/**
 * The texts of the files that a solved answer leaves: calibration, tables, report.
 *
 * @param plotlySource source text of plotly.js, to be inlined in the report
 * @param made when, s since 1970 UTC
 * @returns undefined where the fit is unsolved. Never throws.
 */
export function answerFiles(
  parts: AnswerParts,
  plotlySource: string,
  made: Seconds,
): AnswerFiles | undefined {
  const { answer, tables, rows, boat } = parts;
  const calibration = calibrationOf(answer, boat, made);
  if (calibration === undefined) return undefined;
  return {
    "calibration.json": calibrationFileText(calibration),
    "tables.csv": tablesCsv(tables),
    "report.html": htmlReport({ answer, tables, rows, boatName: boat.name }, plotlySource),
  };
}
