import { tableShare } from "./csvDialect.ts";
import { CsvReader } from "./csvReader.ts";
import type { LogFormat } from "./logFormat.ts";

/** The byte order mark of text in UTF-16, byte by byte. */
const WIDE_TEXT = /^(?:\xff\xfe|\xfe\xff)/;

/** Text in UTF-16, whatever is in it, goes to this reader, too: it says what to do about that. */
export const CSV: LogFormat = {
  record: "CSV row",
  likeness: ({ lines }) => (WIDE_TEXT.test(lines[0] ?? "") ? 1 : tableShare(lines)),
  reader: (options) => new CsvReader(options),
};
