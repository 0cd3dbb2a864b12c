import { COLUMNS_FILE, type ColumnMapping, columnsFromFile, RefusedFile } from "@bothtacks/core";

/** No mapping file is longer, and no log that begins like one is read as text. */
const LONGEST_MAPPING = 1e6;

/** Files of ours that are no logs, and where they belong. */
const ELSEWHERE = [
  [
    "bothtacks-calibration",
    'a calibration: load it under "The boat file", where it counts as keyed in, or give it to the page Between regattas',
  ],
  ["bothtacks-boat", 'a boat file: load it under "The boat file"'],
] as const;

/** The text of a file that is JSON and no longer than a mapping file may be; empty for others. */
async function jsonIn(file: File): Promise<string> {
  if (file.size > LONGEST_MAPPING) return "";
  const text = await file.text();
  return text.trimStart().startsWith("{") ? text : "";
}

/** Whether a file is a mapping file, by what stands in it. */
async function isMapping(file: File): Promise<boolean> {
  const text = await jsonIn(file);
  for (const [schema, words] of ELSEWHERE)
    if (text.includes(`"${schema}"`)) throw new RefusedFile(file.name, "", "a log", words);
  return text.includes(`"${COLUMNS_FILE.schema}"`);
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
 * @throws RefusedFile where a mapping file cannot be taken, or a calibration or boat file lies among them; what reading a file rejects with
 */
export async function logsAndColumns(files: readonly File[]): Promise<LogsAndColumns> {
  const logs: File[] = [];
  let columns: ColumnMapping | undefined;
  for (const file of files)
    if (await isMapping(file)) columns = columnsFromFile(await file.text(), file.name);
    else logs.push(file);
  return columns === undefined ? { logs } : { logs, columns };
}
