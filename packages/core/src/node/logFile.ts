import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { resolve } from "node:path";
import type { LogSource } from "../job/logSource.ts";
import { fileProblem } from "./fileProblem.ts";

/** A log on disk. */
export interface LogFile extends LogSource {
  /** Size in bytes. */
  readonly bytes: number;
  /** Where it lies, from the root. */
  readonly path: string;
  /** When it was changed last, nanoseconds since 1970. */
  readonly changed: bigint;
}

const CHUNK_BYTES = 1 << 18;

/** The bytes of a file, in chunks. @throws FileProblem */
export async function* chunksOf(path: string): AsyncGenerator<Uint8Array> {
  try {
    yield* createReadStream(path, { highWaterMark: CHUNK_BYTES });
  } catch (error) {
    throw fileProblem(path, error);
  }
}

/**
 * A log file, there and readable.
 *
 * @param path what it is called in messages, too
 * @param mayBeNone whether it may turn out to be no log
 * @throws FileProblem when it is absent or no file
 * @example
 * await writeFileWhole(`${folder}/log.nmea`, ["$GPZDA,160012.71,11,03,2004,-1,00*7D\r\n"], true);
 * (await logFile(`${folder}/log.nmea`)).bytes // 38
 */
export async function logFile(path: string, mayBeNone = false): Promise<LogFile> {
  const status = await stat(path, { bigint: true }).catch((error: unknown) => {
    throw fileProblem(path, error);
  });
  if (!status.isFile()) throw fileProblem(path, status.isDirectory() ? "is a folder" : "is no file");
  return {
    name: path,
    bytes: Number(status.size),
    path: resolve(path),
    changed: status.mtimeNs,
    mayBeNone,
    chunks: { [Symbol.asyncIterator]: () => chunksOf(path) },
  };
}

/** Whether a log is as it was when it was looked at: its size and the time of its last change. Never throws. */
export async function isUnchanged({ path, bytes, changed }: LogFile): Promise<boolean> {
  const status = await stat(path, { bigint: true }).catch(() => undefined);
  return status !== undefined && Number(status.size) === bytes && status.mtimeNs === changed;
}
