import { availableParallelism } from "node:os";
import type { LogSteps } from "../job/logSteps.ts";
import { CODE_IDENTITY } from "./codeIdentity.ts";
import { fileStepsHere } from "./fileSteps.ts";
import { keptSteps } from "./keptSteps.ts";
import { LogCache } from "./logCache.ts";
import type { LogFile } from "./logFile.ts";
import { threadedSteps } from "./threads.ts";

/** Threads are started where there is so much to read: starting them takes about as long as reading this. */
const WORTH_THREADS = 20e6;

/** More threads than this wait for the disk, and for memory. */
const MOST_THREADS = 8;

/** How logs are to be read. */
export interface ReadingOptions {
  /** How many threads read, a number; unless told, as many as there are cores, or none where there is little to read. */
  readonly threads?: number;
  /** Where what is found is kept; undefined: nowhere. */
  readonly cacheFolder?: string;
  /** Whether a log counts as known by the hash of its bytes only. */
  readonly verify?: boolean;
  /** Told in one line when something could not be kept. */
  readonly complain?: (text: string) => void;
}

/** How logs on disk are read; `end` when they are. */
export interface LogReading {
  readonly steps: LogSteps;
  readonly end: () => Promise<void>;
}

/** How many threads pay; 1: none beside this one. */
function threadsThatPay(logs: readonly LogFile[]): number {
  const bytes = logs.reduce((sum, log) => sum + log.bytes, 0);
  return bytes < WORTH_THREADS ? 1 : Math.min(availableParallelism(), MOST_THREADS);
}

/**
 * Prepares to read logs on disk: in threads where that pays, and without reading again what was read before. What is found is the
 * same, bit for bit, for any number of threads and whatever was kept.
 *
 * @throws RangeError where the number of threads is none
 * @example
 * await writeFileWhole(`${folder}/days/day.nmea`, chunks, false);
 * const days = await logsAt([`${folder}/days`]);
 * const reading = readingLogs(days, { threads: 1, cacheFolder: `${folder}/kept` });
 * const found = await summariseLogs(days, boat, { steps: reading.steps }).finally(reading.end);
 * found.recording.files.length // 1
 */
export function readingLogs(
  logs: readonly LogFile[],
  { threads = threadsThatPay(logs), cacheFolder, verify = false, complain = () => undefined }: ReadingOptions,
): LogReading {
  if (!(Number.isInteger(threads) && threads >= 1))
    throw new RangeError(`readingLogs: threads must be a whole number from 1 on, got ${threads}`);
  const atOnce = Math.min(threads, logs.length);
  const kept = CODE_IDENTITY === undefined ? undefined : cacheFolder;
  const cache = kept === undefined ? undefined : new LogCache(kept, complain);
  const threaded = atOnce > 1 ? threadedSteps(atOnce, { cacheFolder: kept }, complain) : undefined;
  const stop = async (): Promise<void> => threaded?.stop();
  return {
    steps: {
      ...keptSteps(logs, { steps: threaded ?? fileStepsHere(cache), atOnce, cache, verify }),
      release: stop,
    },
    end: async () => {
      await stop();
      await cache?.tidy(Date.now());
    },
  };
}
