import type { JobRun } from "@bothtacks/core";
import { isFailed, isProgress } from "./said.ts";
import type { Asked, SaidOf } from "./tasks.ts";
import type { TaskWorker } from "./workerFor.ts";

/** As much of a worker as is needed. */
export interface WorkerLine {
  onmessage: ((event: MessageEvent) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  readonly postMessage: (message: unknown) => void;
  readonly terminate: () => void;
}

/**
 * A worker for tasks that rest on what it did before: one that is called off is told so, and stays. It is made when it is first
 * needed, and anew where it breaks down.
 *
 * @param newWorker makes a worker that serves tasks (see `serveTasks`)
 */
export function stayingWorker<Task, Done extends { readonly kind: string }>(
  newWorker: () => WorkerLine,
): TaskWorker<Task, Done> {
  let worker: WorkerLine | undefined;
  let last = 0;
  const waiting = new Map<
    number,
    { said: (one: SaidOf<Done>["said"]) => void; fail: (error: Error) => void }
  >();
  const close = (): void => {
    worker?.terminate();
    worker = undefined;
  };
  const made = (): WorkerLine => {
    const fresh = newWorker();
    fresh.onmessage = ({ data: { number, said } }: MessageEvent<SaidOf<Done>>) =>
      waiting.get(number)?.said(said);
    fresh.onerror = ({ message }) => {
      close();
      const error = new Error(message || "The work stopped, and the browser does not say why.");
      for (const { fail } of waiting.values()) fail(error);
    };
    return fresh;
  };
  const ask = (asked: Asked<Task>): void => {
    worker ??= made();
    worker.postMessage(asked);
  };
  const ended = (task: Task, { progress, signal }: JobRun): Promise<Done> =>
    new Promise((resolve, reject) => {
      signal?.throwIfAborted();
      last += 1;
      const number = last;
      const end = (finish: () => void): void => {
        signal?.removeEventListener("abort", calledOff);
        waiting.delete(number);
        finish();
      };
      const calledOff = (): void => {
        ask({ number, isCalledOff: true });
        end(() => reject(signal?.reason));
      };
      signal?.addEventListener("abort", calledOff);
      waiting.set(number, {
        fail: (error) => end(() => reject(error)),
        said: (said) => {
          if (isProgress(said)) progress?.(said.what, said.share);
          else if (isFailed(said)) end(() => reject(new Error(said.words)));
          else end(() => resolve(said));
        },
      });
      ask({ number, task });
    });
  return { ended, close };
}
