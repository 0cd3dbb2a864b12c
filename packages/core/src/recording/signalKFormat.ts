import { type LogFormat, shareOfLines } from "./logFormat.ts";
import { SignalKReader } from "./signalKReader.ts";

/** What every delta has, and hardly anything else. */
const UPDATES = /"updates"\s*:\s*\[/;

/** How lines of JSON begin, whether a delta is one of them or spread over many; a mark of byte order may be before. */
const JSON_LINE = /^(?:\u00ef\u00bb\u00bf)?[\s,]*[{}[\]"]/;

export const SIGNAL_K: LogFormat = {
  record: "Signal K delta",
  likeness: (head) =>
    head.lines.some((line) => UPDATES.test(line))
      ? shareOfLines(head, (line) => JSON_LINE.test(line) || UPDATES.test(line))
      : 0,
  reader: (options) => new SignalKReader(options),
};
