import type { JobRun } from "../job/logSource.ts";
import type { LogFile } from "../node/logFile.ts";
import { readingLogs } from "../node/readingLogs.ts";
import type { Given, OptionShape } from "./arguments.ts";
import type { Surroundings } from "./command.ts";
import { UsageFailure } from "./failures.ts";
import { progressLine } from "./progressLine.ts";

const MOST_THREADS = 64;

/** The options that say how logs are read; what is found is the same whatever they say. */
export const READING_OPTIONS: Readonly<Record<"threads" | "no-cache" | "verify", OptionShape>> = {
  threads: {
    value: "N",
    meaning: "how many logs are read at once; unless told, one for each core where there is much to read",
  },
  "no-cache": { meaning: "read all logs anew, and keep nothing of them for the next time" },
  verify: { meaning: "compare the content of logs that were read before, not only size and time of change" },
};

function threadsIn({ options }: Given): number | undefined {
  const text = options.get("threads");
  if (text === undefined) return undefined;
  const threads = Number(text);
  if (!(Number.isInteger(threads) && threads >= 1 && threads <= MOST_THREADS))
    throw new UsageFailure(`--threads must be a whole number from 1 to ${MOST_THREADS}, got ${text}`);
  return threads;
}

/**
 * Does work that reads logs, with progress, in threads where that pays, and without reading again what was read before.
 *
 * @param work told how to run
 * @throws what the work throws
 */
export async function whileReading<Found>(
  given: Given,
  logs: readonly LogFile[],
  { progress, complain, signal, cacheFolder }: Surroundings,
  work: (run: JobRun) => Promise<Found>,
): Promise<Found> {
  const threads = threadsIn(given);
  const keeps = cacheFolder !== undefined && !given.options.has("no-cache");
  const line = progressLine(progress);
  const reading = readingLogs(logs, {
    ...(threads === undefined ? {} : { threads }),
    ...(keeps ? { cacheFolder } : {}),
    verify: given.options.has("verify"),
    complain: (text) => {
      line.clear();
      complain(`bothtacks: ${text}\n`);
    },
  });
  try {
    return await work({ steps: reading.steps, progress: line.show, signal });
  } finally {
    line.clear();
    await reading.end();
  }
}
