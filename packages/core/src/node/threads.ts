import { Worker, type WorkerOptions } from "node:worker_threads";
import type { JobRun } from "../job/logSource.ts";
import type { TimedLog } from "../job/logSteps.ts";
import type { SailingPart } from "../sailing/mergedSailing.ts";
import type { FileSteps, HashedSurvey } from "./fileSteps.ts";
import type { KnownLog } from "./keptSeconds.ts";
import type { LogFile } from "./logFile.ts";
import type { ThreadData } from "./logThread.ts";
import { errorTold, type LogToRead, type Reply, type Request } from "./threadMessages.ts";

/** A thread needs little: with the usual limits each would let its garbage grow to as much as the whole program has. */
const LIMITS = { maxOldGenerationSizeMb: 256, maxYoungGenerationSizeMb: 8 } as const;

/** Starts a thread; from source by way of a file that lets Node read TypeScript. */
function startThread(workerData: ThreadData): Worker {
  const program = import.meta.url.endsWith(".ts") ? "logThreadFromSource.mjs" : "logThread.js";
  const options: WorkerOptions = { workerData, resourceLimits: LIMITS, execArgv: [] };
  return new Worker(new URL(program, import.meta.url), options);
}

/** A log without what cannot be told to another thread. */
const toRead = ({ chunks: _, ...log }: LogFile | KnownLog): LogToRead => log;

/** A step that waits for its end. */
interface Pending {
  readonly run: JobRun;
  readonly resolve: (found: unknown) => void;
  readonly reject: (error: unknown) => void;
}

/** One thread, which does one step at a time. */
class LogThread {
  readonly #worker: Worker;
  #pending: Pending | undefined;

  constructor(data: ThreadData, complain: (text: string) => void) {
    this.#worker = startThread(data);
    this.#worker.on("message", (reply: Reply) => {
      if (reply.kind === "complaint") complain(reply.text);
      else if (reply.kind === "progress") this.#pending?.run.progress?.("reading", reply.share);
      else if (reply.kind === "found") this.#end()?.resolve(reply.found);
      else this.#end()?.reject(errorTold(reply.error));
    });
    this.#worker.on("error", (error) => this.#end()?.reject(error));
    this.#worker.on("exit", () => this.#end()?.reject(new Error("a thread that reads logs ended too early")));
  }

  ask(request: Request, run: JobRun): Promise<unknown> {
    return new Promise((resolve, reject) => {
      this.#pending = { run, resolve, reject };
      this.#worker.postMessage(request);
    });
  }

  async stop(): Promise<void> {
    await this.#worker.terminate();
  }

  #end(): Pending | undefined {
    const pending = this.#pending;
    this.#pending = undefined;
    return pending;
  }
}

/** What is waited for, or the signal's reason when aborted meanwhile. */
async function orAborted<Found>(waiting: Promise<Found>, { signal }: JobRun): Promise<Found> {
  if (signal === undefined) return waiting;
  let stop = (): void => undefined;
  const aborted = new Promise<never>((_, reject) => {
    stop = () => reject(signal.reason);
    signal.addEventListener("abort", stop, { once: true });
  });
  try {
    return await Promise.race([waiting, aborted]);
  } finally {
    signal.removeEventListener("abort", stop);
  }
}

/** Steps done in several threads, one log each at a time; `stop` when they are not needed any more. */
export interface ThreadedSteps extends FileSteps {
  readonly stop: () => Promise<void>;
}

/**
 * Steps done in threads of their own, which are started when they are first needed. No more than `count` steps may be asked for
 * at once.
 *
 * @param complain told when something could not be kept
 */
export function threadedSteps(
  count: number,
  data: ThreadData,
  complain: (text: string) => void,
): ThreadedSteps {
  const [all, free]: [LogThread[], LogThread[]] = [[], []];

  async function ask(request: Request, run: JobRun): Promise<unknown> {
    run.signal?.throwIfAborted();
    if (free.length === 0 && all.length >= count)
      throw new RangeError(`threadedSteps: at most ${count} steps may be asked for at once`);
    const thread = free.pop() ?? new LogThread(data, complain);
    if (!all.includes(thread)) all.push(thread);
    try {
      return await orAborted(thread.ask(request, run), run);
    } finally {
      free.push(thread);
    }
  }

  return {
    // a thread answers a request with what that step of `fileStepsHere` found
    survey: async (log, run) => (await ask({ step: "survey", log: toRead(log) }, run)) as HashedSurvey,
    time: async (log, chosen, run) =>
      (await ask({ step: "time", log: toRead(log), chosen }, run)) as TimedLog,
    sail: async (log, plan, active, run) =>
      (await ask({ step: "sail", log: toRead(log), plan, active }, run)) as SailingPart,
    stop: async () => {
      free.length = 0;
      await Promise.all(all.splice(0).map((thread) => thread.stop()));
    },
  };
}
