import { ANSWER_FILES, type AnswerFiles, answerFiles } from "@bothtacks/core";
import type { Answered } from "./bench.ts";

export { ANSWER_FILES };

/** What each file is for. */
export const FILE_PURPOSES: Readonly<Record<keyof AnswerFiles, string>> = {
  "calibration.json":
    "every parameter with its interval: to compare with the next one, and to correct recordings",
  "tables.csv": "the numbers to key in, as a spreadsheet reads them",
  "report.html": "all of it to read and to print, in one file that needs no network",
};

/**
 * One of the files that the command line writes for the same logs and boat: the same text.
 *
 * @param plotlySource gives the source text of plotly, asked for only where the file takes it along
 * @returns undefined where the answer leaves no files. @throws what `plotlySource` rejects with
 */
export async function savedText(
  name: keyof AnswerFiles,
  { calibrated, made }: Answered,
  plotlySource: () => Promise<string>,
): Promise<string | undefined> {
  const plotly = name === "report.html" ? await plotlySource() : "";
  return answerFiles(calibrated, plotly, made)?.[name];
}
