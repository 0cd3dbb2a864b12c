import { stayingWorker, type WorkerLine } from "../worker/stayingWorker.ts";
import type { Ended, Task } from "./messages.ts";
import { type Workshop, workshopOf } from "./workshop.ts";

/**
 * A workshop in a worker (see `stayingWorker`).
 *
 * @param newWorker makes the worker
 */
export function inWorker(newWorker: () => WorkerLine): Workshop & { readonly close: () => void } {
  const { ended, close } = stayingWorker<Task, Ended>(newWorker);
  return { close, ...workshopOf(ended) };
}
