import { type LogFormat, type LogHead, shareOfLines } from "./logFormat.ts";
import { SignalKReader } from "./signalKReader.ts";

/** An object with the properties that messages of a stream have: a delta, or the hello before them. */
const MESSAGE = /^(?:\u00ef\u00bb\u00bf)?[\s,[]*\{.*"(?:updates|context|self)"\s*:/;

/** Objects that are spread over lines: the first line opens one or a list of them, a later one names the updates. */
function isSpread({ lines }: LogHead): boolean {
  const [first = ""] = lines;
  return (
    /^(?:\u00ef\u00bb\u00bf)?\s*[[{]/.test(first) && lines.some((line) => /^\s*"updates"\s*:/.test(line))
  );
}

export const SIGNAL_K: LogFormat = {
  record: "Signal K delta",
  likeness: (head) => (isSpread(head) ? 1 : shareOfLines(head, (line) => MESSAGE.test(line))),
  reader: (options) => new SignalKReader(options),
};
