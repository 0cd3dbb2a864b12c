import type { JobRun } from "../job/logSource.ts";
import { alignedSeconds } from "../job/secondsOfLog.ts";
import type { Source } from "../recording/readings.ts";
import type { SecondsBlock } from "../sailing/series.ts";
import type { LogCache } from "./logCache.ts";
import { isUnchanged, type LogFile } from "./logFile.ts";

/** A log of which what is found may be kept. */
export interface KnownLog extends LogFile {
  /** What its content and the program that reads it are known by. */
  readonly identity: string;
}

const aboutSeconds = ({ identity }: KnownLog, chosen: readonly Source[]): string =>
  JSON.stringify(["seconds", identity, chosen.map(({ quantity, name }) => [quantity, name])]);

/**
 * The seconds of a log as they were kept.
 *
 * @returns blocks in the order of time
 * @throws SpoiltFrames where none were kept, or at the first that is not whole: what was made of those before is to be thrown away
 */
export async function* keptSeconds(
  cache: LogCache,
  log: KnownLog,
  chosen: readonly Source[],
  { signal }: JobRun = {},
): AsyncGenerator<SecondsBlock, void, undefined> {
  for await (const block of cache.values(log.path, "seconds", aboutSeconds(log, chosen))) {
    signal?.throwIfAborted();
    // a frame with the right check sum, under a name that holds this program's identity, is one that `readAndKept` wrote
    yield block as SecondsBlock;
  }
}

/**
 * The seconds of a log, read and kept for the next time if the log has not changed meanwhile.
 *
 * @returns blocks in the order of time
 * @throws as `alignedSeconds`
 */
export async function* readAndKeptSeconds(
  cache: LogCache,
  log: KnownLog,
  chosen: readonly Source[],
  run: JobRun = {},
): AsyncGenerator<SecondsBlock, void, undefined> {
  const keeping = await cache.begin(log.path, "seconds", aboutSeconds(log, chosen));
  try {
    for await (const block of alignedSeconds(log, chosen, run)) {
      await keeping.add(block);
      yield block;
    }
    if (await isUnchanged(log)) await keeping.finish();
  } finally {
    await keeping.giveUp();
  }
}
