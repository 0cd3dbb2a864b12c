import { tableShare } from "./csvDialect.ts";
import { CsvReader } from "./csvReader.ts";
import type { LogFormat } from "./logFormat.ts";

export const CSV: LogFormat = {
  record: "CSV row",
  likeness: ({ lines }) => tableShare(lines),
  reader: (options) => new CsvReader(options),
};
