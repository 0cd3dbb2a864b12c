import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import type { LogSource } from "../job/logSource.ts";
import { fileProblem } from "./fileProblem.ts";

/** A log on disk. */
export interface LogFile extends LogSource {
  readonly bytes: number;
}

const CHUNK_BYTES = 1 << 18;

async function* chunksOf(path: string): AsyncGenerator<Uint8Array> {
  try {
    yield* createReadStream(path, { highWaterMark: CHUNK_BYTES });
  } catch (error) {
    throw fileProblem(path, error);
  }
}

/**
 * A log file, there and readable.
 *
 * @throws FileProblem when it is absent or no file
 */
export async function logFile(path: string): Promise<LogFile> {
  const status = await stat(path).catch((error: unknown) => {
    throw fileProblem(path, error);
  });
  if (!status.isFile()) throw fileProblem(path, status.isDirectory() ? "is a folder" : "is no file");
  return { name: path, bytes: status.size, chunks: { [Symbol.asyncIterator]: () => chunksOf(path) } };
}
