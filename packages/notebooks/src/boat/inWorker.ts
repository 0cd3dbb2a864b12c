import type { JobRun } from "@bothtacks/core";
import type { Said, Task } from "./messages.ts";
import type { Workshop } from "./workshop.ts";

type Ended = Exclude<Said, { kind: "progress" | "failed" }>;

/**
 * The work done in a worker, which stays for the next task. A task that is called off takes the worker with it, at once,
 * whatever it is at; so there must be no second task before the first has ended or was called off.
 *
 * @param newWorker makes a worker that answers tasks
 */
export function inWorker(newWorker: () => Worker): Workshop & { readonly close: () => void } {
  let worker: Worker | undefined;
  const close = (): void => {
    worker?.terminate();
    worker = undefined;
  };

  function ended(task: Task, { progress, signal }: JobRun): Promise<Ended> {
    return new Promise((resolve, reject) => {
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
      worker.onmessage = ({ data }: MessageEvent<Said>) => {
        if (data.kind === "progress") progress?.(data.what, data.share);
        else if (data.kind === "failed") end(() => reject(new Error(data.words)));
        else end(() => resolve(data));
      };
      worker.onerror = ({ message }) => {
        close();
        end(() => reject(new Error(message || "The work stopped, and the browser does not say why.")));
      };
      worker.postMessage(task);
    });
  }

  return {
    close,
    read: async (task, run) => {
      const said = await ended(task, run);
      if (said.kind !== "read") throw new Error("The worker answered another task.");
      return said.result;
    },
    answer: async (task, run) => {
      const said = await ended(task, run);
      if (said.kind !== "answer") throw new Error("The worker answered another task.");
      return said.result;
    },
  };
}
