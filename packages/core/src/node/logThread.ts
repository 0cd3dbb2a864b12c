/** Runs in a thread of its own: does the steps that it is asked for, one after the other. */
import { parentPort, workerData } from "node:worker_threads";
import type { JobRun } from "../job/logSource.ts";
import { type FileSteps, fileStepsHere } from "./fileSteps.ts";
import { LogCache } from "./logCache.ts";
import { chunksOf } from "./logFile.ts";
import { type Reply, type Request, toldError } from "./threadMessages.ts";

/** What a thread is started with. */
export interface ThreadData {
  /** Where seconds are kept; undefined: nowhere. */
  readonly cacheFolder: string | undefined;
}

const LEAST_MILLISECONDS = 50;

const tell = (reply: Reply): void => parentPort?.postMessage(reply);

/** Tells how far a step is, not too often. */
function sparingProgress(): JobRun {
  let last = 0;
  return {
    progress: (_, share) => {
      const now = performance.now();
      if (now - last < LEAST_MILLISECONDS) return;
      last = now;
      tell({ kind: "progress", share });
    },
  };
}

async function answer(steps: FileSteps, request: Request): Promise<void> {
  const log = {
    ...request.log,
    chunks: { [Symbol.asyncIterator]: () => chunksOf(request.log.path) },
  };
  const run = sparingProgress();
  const find = (): Promise<unknown> => {
    if (request.step === "survey") return steps.survey(log, run);
    if (request.step === "time") return steps.time(log, request.chosen, run);
    return steps.sail(log, request.plan, request.active, run);
  };
  try {
    tell({ kind: "found", found: await find() });
  } catch (error) {
    tell({ kind: "failed", error: toldError(error) });
  }
}

const { cacheFolder }: ThreadData = workerData;
const cache =
  cacheFolder === undefined
    ? undefined
    : new LogCache(cacheFolder, (text) => tell({ kind: "complaint", text }));
const steps = fileStepsHere(cache);
parentPort?.on("message", (request: Request) => answer(steps, request));
