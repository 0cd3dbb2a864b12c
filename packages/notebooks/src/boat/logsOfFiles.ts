import type { LogSource } from "@bothtacks/core";

/** Bytes taken from a file at once: some hundredths of a second of work, so that progress moves and calling off is quick. */
const SLICE_BYTES = 1 << 20;

/** How often the job reads each log: for its sources, for the lags between them, and for the sailing. */
const READINGS = 3;

/** The bytes of a file, slice by slice. */
async function* slicesOf(file: Blob, taken: (bytes: number) => void): AsyncGenerator<Uint8Array> {
  for (let start = 0; start < file.size; start += SLICE_BYTES) {
    const slice = new Uint8Array(await file.slice(start, start + SLICE_BYTES).arrayBuffer());
    yield slice;
    taken(slice.length);
  }
}

/**
 * Logs as the job reads them, of files that were chosen or dropped.
 *
 * @param progress is told the share of all reading that is done, 0 to 1
 * @returns logs whose chunks reject where a file cannot be read any more. Never throws.
 */
export function logsOfFiles(
  files: readonly File[],
  progress: (share: number) => void = () => {},
): readonly LogSource[] {
  const all = READINGS * files.reduce((sum, { size }) => sum + size, 0);
  let done = 0;
  const taken = (bytes: number): void => {
    done += bytes;
    progress(done / all);
  };
  return files.map((file) => ({
    name: file.name,
    bytes: file.size,
    chunks: { [Symbol.asyncIterator]: () => slicesOf(file, taken) },
  }));
}
