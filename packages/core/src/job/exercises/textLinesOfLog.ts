import { LogBytes } from "../../recording/logBytes.ts";
import type { JobRun, LogSource } from "../logSource.ts";

/** The lines of a log as text, plain or gzip; what is no text comes as replacement characters. @throws what the chunks throw */
export async function* textLines(
  log: LogSource,
  { signal }: JobRun,
): AsyncGenerator<string, void, undefined> {
  const decoder = new TextDecoder();
  let text = "";
  const bytes = new LogBytes((plain) => {
    text += decoder.decode(plain, { stream: true });
  });
  for await (const chunk of log.chunks) {
    signal?.throwIfAborted();
    bytes.push(chunk);
    const lines = text.split(/\r\n|\n|\r/);
    text = lines.pop() ?? "";
    yield* lines;
  }
  bytes.finish();
  yield* text.split(/\r\n|\n|\r/);
}
