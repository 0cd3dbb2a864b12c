import type { LogSource } from "../job/logSource.ts";
import { LogBytes } from "../recording/logBytes.ts";

/** The first bytes of a log, gzip undone: at least so many, or all that there are. @throws what its chunks throw */
export async function plainHead(log: LogSource, length: number): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  let filled = 0;
  const bytes = new LogBytes((plain) => {
    parts.push(plain.slice());
    filled += plain.length;
  });
  for await (const chunk of log.chunks) {
    bytes.push(chunk);
    if (filled >= length) break;
  }
  if (filled < length) bytes.finish();
  const head = new Uint8Array(filled);
  let at = 0;
  for (const part of parts) {
    head.set(part, at);
    at += part.length;
  }
  return head;
}
