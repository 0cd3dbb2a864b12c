import { createHash, type Hash } from "node:crypto";
import type { JobRun } from "../job/logSource.ts";
import { type LogSteps, type SurveyedLog, stepsHere, type TimedLog } from "../job/logSteps.ts";
import type { SecondsPlan } from "../job/secondsOfLog.ts";
import type { Source } from "../recording/readings.ts";
import type { SailingPart } from "../sailing/mergedSailing.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { SpoiltFrames } from "./frames.ts";
import { type KnownLog, keptSeconds, readAndKeptSeconds } from "./keptSeconds.ts";
import type { LogCache } from "./logCache.ts";
import type { LogFile } from "./logFile.ts";

/** A survey with the hash of the bytes that it was made from: SHA-256, hexadecimal. */
export interface HashedSurvey extends SurveyedLog {
  readonly sha256: string;
}

/** The steps from a log on disk to what is kept of it; `known` where its seconds may be kept, too. */
export interface FileSteps {
  readonly survey: (log: LogFile, run: JobRun) => Promise<HashedSurvey>;
  readonly time: (log: LogFile | KnownLog, chosen: readonly Source[], run: JobRun) => Promise<TimedLog>;
  readonly sail: (
    log: LogFile | KnownLog,
    plan: SecondsPlan,
    active: SensorSettings,
    run: JobRun,
  ) => Promise<SailingPart>;
}

async function* hashed(chunks: AsyncIterable<Uint8Array>, hash: Hash): AsyncGenerator<Uint8Array> {
  for await (const chunk of chunks) {
    hash.update(chunk);
    yield chunk;
  }
}

/** The hash of a file's bytes: SHA-256, hexadecimal. @throws FileProblem; the signal's reason when aborted */
export async function hashOf(log: LogFile, { signal }: JobRun): Promise<string> {
  const hash = createHash("sha256");
  for await (const chunk of log.chunks) {
    signal?.throwIfAborted();
    hash.update(chunk);
  }
  return hash.digest("hex");
}

/**
 * The steps done in this thread.
 *
 * @param cache where the seconds of logs are kept between one step and the next; undefined: nowhere, the log is read again
 */
export function fileStepsHere(cache: LogCache | undefined): FileSteps {
  const direct = stepsHere();
  /** Does a step from the seconds that were kept, else from the log. */
  async function fromSeconds<Result>(
    log: LogFile | KnownLog,
    step: (steps: LogSteps) => Promise<Result>,
  ): Promise<Result> {
    if (cache === undefined || !("identity" in log)) return step(direct);
    try {
      return await step(stepsHere((_, chosen, run) => keptSeconds(cache, log, chosen, run)));
    } catch (error) {
      if (!(error instanceof SpoiltFrames)) throw error;
      return step(stepsHere((_, chosen, run) => readAndKeptSeconds(cache, log, chosen, run)));
    }
  }
  return {
    async survey(log, run) {
      const hash = createHash("sha256");
      const survey = await direct.survey({ ...log, chunks: hashed(log.chunks, hash) }, run);
      return { ...survey, sha256: hash.digest("hex") };
    },
    time: (log, chosen, run) => fromSeconds(log, (steps) => steps.time(log, chosen, run)),
    sail: (log, plan, active, run) => fromSeconds(log, (steps) => steps.sail(log, plan, active, run)),
  };
}
