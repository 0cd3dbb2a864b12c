import { columnsFromFile } from "../calibration/columnsFile.ts";
import type { LogFile } from "../node/logFile.ts";
import { readText } from "../node/readText.ts";
import type { Given, OptionShape } from "./arguments.ts";

/** The option that says how the columns of logs are to be understood. */
export const COLUMNS_OPTION: Readonly<Record<"columns", OptionShape>> = {
  columns: {
    value: "FILE",
    meaning: "the mapping file: what the columns of a CSV log hold, where their headers do not tell it",
  },
};

/**
 * How the columns of logs are to be understood, as logs have it: nothing where nothing is given.
 *
 * @param option that names the mapping file
 * @throws FileProblem, RefusedFile
 */
export async function columnsOfLogs(
  { options }: Given,
  option = "columns",
): Promise<Pick<LogFile, "columns">> {
  const path = options.get(option);
  return path === undefined ? {} : { columns: columnsFromFile(await readText(path), path) };
}
