import { columnsFromFile } from "../../packages/core/src/calibration/columnsFile.ts";
import { CsvReader } from "../../packages/core/src/recording/csvReader.ts";
import { readWhole, type WholeLog } from "./wholeLog.ts";

/**
 * Reads a log in columns to its end, from text (UTF-8) or bytes, in chunks of some sizes, used in turn.
 *
 * @param mapping what its mapping file holds
 */
export function wholeCsv(
  log: string | Uint8Array,
  mapping?: unknown,
  sizes?: readonly number[],
): WholeLog<CsvReader> {
  const columns =
    mapping === undefined ? undefined : columnsFromFile(JSON.stringify(mapping), "columns.json");
  const bytes = typeof log === "string" ? new TextEncoder().encode(log) : log;
  return readWhole(new CsvReader({ file: "log.csv", ...(columns ? { columns } : {}) }), bytes, sizes);
}
