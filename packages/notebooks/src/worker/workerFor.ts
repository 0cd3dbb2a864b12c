import type { JobRun } from "@bothtacks/core";
import { isFailed, isProgress, type Said } from "./said.ts";

/** A worker that does one task after the other. */
export interface TaskWorker<Task, Done> {
  /** Rejects with the worker's words, or with the signal's reason. */
  readonly ended: (task: Task, run: JobRun) => Promise<Done>;
  readonly close: () => void;
}

/**
 * A worker for tasks, made when it is first needed, which stays for the next one. A task that is called off takes the worker with
 * it, at once, whatever it is at; so there must be no second task before the first has ended or was called off.
 *
 * @param newWorker makes a worker that answers tasks
 */
export function workerFor<Task, Done extends { readonly kind: string }>(
  newWorker: () => Worker,
): TaskWorker<Task, Exclude<Done, { kind: "progress" | "failed" }>> {
  type Ended = Exclude<Done, { kind: "progress" | "failed" }>;
  let worker: Worker | undefined;
  const close = (): void => {
    worker?.terminate();
    worker = undefined;
  };
  const ended = (task: Task, { progress, signal }: JobRun): Promise<Ended> =>
    new Promise((resolve, reject) => {
      signal?.throwIfAborted();
      worker ??= newWorker();
      const calledOff = (): void => {
        close();
        reject(signal?.reason);
      };
      const end = (finish: () => void): void => {
        signal?.removeEventListener("abort", calledOff);
        finish();
      };
      signal?.addEventListener("abort", calledOff);
      worker.onmessage = ({ data }: MessageEvent<Said<Ended>>) => {
        if (isProgress(data)) progress?.(data.what, data.share);
        else if (isFailed(data)) end(() => reject(new Error(data.words)));
        else end(() => resolve(data));
      };
      worker.onerror = ({ message }) => {
        close();
        end(() => reject(new Error(message || "The work stopped, and the browser does not say why.")));
      };
      worker.postMessage(task);
    });
  return { ended, close };
}
