import { type Calibration, type History, historyOf, type JobRun, type Plan, planFrom } from "@bothtacks/core";
import type { PlanWish } from "./planWish.ts";

/** What is to be compared. */
export interface HistoryTask {
  readonly kind: "history";
  readonly calibrations: readonly Calibration[];
  readonly nothingKeyedIn: boolean;
}

/** After which calibration what is to be planned. */
export interface PlanTask {
  readonly kind: "plan";
  readonly calibration: Calibration;
  readonly wish: PlanWish;
}

/** Where comparing and planning are done: in workers on the page, in the same thread in Node. */
export interface Bureau {
  readonly history: (task: HistoryTask, run: JobRun) => Promise<History>;
  readonly plan: (task: PlanTask, run: JobRun) => Promise<Plan>;
}

/** The work done where it is asked for. */
export const inThisThread: Bureau = {
  history: async ({ calibrations, nothingKeyedIn }) => historyOf(calibrations, nothingKeyedIn),
  plan: async ({ calibration: { fit, boat, recording }, wish }) =>
    planFrom(fit, boat, recording.chosen, wish),
};
