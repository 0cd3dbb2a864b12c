import { COLUMNS_FILE, type ColumnMapping, columnsFromFile } from "@bothtacks/core";

/** No mapping file is longer, and no log that begins like one is read as text. */
const LONGEST_MAPPING = 1e6;

/** Whether a file is a mapping file, by what stands in it. */
async function isMapping(file: File): Promise<boolean> {
  if (file.size > LONGEST_MAPPING) return false;
  const text = await file.text();
  return text.trimStart().startsWith("{") && text.includes(`"${COLUMNS_FILE.schema}"`);
}

/** Files that were chosen or dropped, told apart. */
export interface LogsAndColumns {
  readonly logs: readonly File[];
  /** What the columns of the logs hold, where a mapping file lies among the files; the last counts. */
  readonly columns?: ColumnMapping;
}

/**
 * Tells logs from the mapping file that may lie among them.
 *
 * @throws RefusedFile where a mapping file cannot be taken; what reading a file rejects with
 */
export async function logsAndColumns(files: readonly File[]): Promise<LogsAndColumns> {
  const logs: File[] = [];
  let columns: ColumnMapping | undefined;
  for (const file of files)
    if (await isMapping(file)) columns = columnsFromFile(await file.text(), file.name);
    else logs.push(file);
  return columns === undefined ? { logs } : { logs, columns };
}
