import { ANSWER_FILES, type AnswerFiles } from "@bothtacks/core";

export { ANSWER_FILES };

/** What each file is for. */
export const FILE_PURPOSES: Readonly<Record<keyof AnswerFiles, string>> = {
  "calibration.json":
    "every parameter with its interval: to compare with the next one, and to correct recordings",
  "tables.csv": "the numbers to key in, as a spreadsheet reads them",
  "report.html": "all of it to read and to print, in one file that needs no network",
};
