import type { JobRun } from "@bothtacks/core";
import { workerFor } from "../worker/workerFor.ts";
import type { Ended, Task } from "./messages.ts";
import type { Workshop } from "./workshop.ts";

/**
 * The work done in a worker (see `workerFor`).
 *
 * @param newWorker makes a worker that answers tasks
 */
export function inWorker(newWorker: () => Worker): Workshop & { readonly close: () => void } {
  const { ended, close } = workerFor<Task, Ended>(newWorker);
  const of = async <Kind extends Ended["kind"]>(kind: Kind, task: Task, run: JobRun) => {
    const said = await ended(task, run);
    if (said.kind !== kind) throw new Error("The worker answered another task.");
    return said as Extract<Ended, { kind: Kind }>;
  };
  return {
    close,
    read: async (task, run) => (await of("read", task, run)).result,
    answer: async (task, run) => (await of("answer", task, run)).result,
  };
}
