import type { History, Plan } from "@bothtacks/core";
import { workerFor } from "../worker/workerFor.ts";
import type { Bureau, HistoryTask, PlanTask } from "./bureau.ts";

/**
 * Comparing and planning, each in a worker of its own, so that neither waits for the other.
 *
 * @param newWorker makes a worker that answers tasks
 */
export function bureauInWorkers(newWorker: () => Worker): Bureau & { readonly close: () => void } {
  const histories = workerFor<HistoryTask, { kind: "history"; result: History }>(newWorker);
  const plans = workerFor<PlanTask, { kind: "plan"; result: Plan }>(newWorker);
  return {
    history: async (task, run) => (await histories.ended(task, run)).result,
    plan: async (task, run) => (await plans.ended(task, run)).result,
    close: () => {
      histories.close();
      plans.close();
    },
  };
}
