import { columnsSkeleton } from "@bothtacks/core";

/** So much of a table tells its columns, bytes. */
const HEAD = 1 << 16;

/** The library's words where a table holds columns that it does not know. */
const ASKS = "mapping file to fill in";

const GZIP = [0x1f, 0x8b] as const;

/** The first bytes of a stream, at most so many; what has come where it breaks off. */
async function firstOf(stream: ReadableStream<Uint8Array>, most: number): Promise<Uint8Array> {
  const first = new Uint8Array(most);
  let length = 0;
  const reader = stream.getReader();
  try {
    while (length < most) {
      const { done, value } = await reader.read();
      if (done) break;
      const part = value.subarray(0, most - length);
      first.set(part, length);
      length += part.length;
    }
  } catch {
    // a compressed file that was cut off in reading its head, or is broken further on
  }
  void reader.cancel().catch(() => undefined);
  return first.subarray(0, length);
}

/** The first bytes of a file, gzip undone. */
async function plainHead(file: File): Promise<Uint8Array> {
  const begun = file.slice(0, HEAD);
  const [one, two] = new Uint8Array(await begun.slice(0, 2).arrayBuffer());
  const isGzip = one === GZIP[0] && two === GZIP[1];
  const stream = isGzip ? begun.stream().pipeThrough(new DecompressionStream("gzip")) : begun.stream();
  return firstOf(stream, HEAD);
}

/**
 * A mapping file to fill in, for logs that were refused since the columns of one are not known.
 *
 * @param why they were refused, in words that begin with the log's name
 * @returns undefined where that was not why. Rejects with nothing but what reading a file does.
 */
export async function columnsToFillIn(files: readonly File[], why: string): Promise<string | undefined> {
  if (!why.includes(ASKS)) return undefined;
  const asked = files.find(({ name }) => why.startsWith(`${name}:`));
  return asked && columnsSkeleton(await plainHead(asked));
}
