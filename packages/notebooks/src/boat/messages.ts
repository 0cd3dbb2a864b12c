import type { Calibrated, LogsSummary } from "@bothtacks/core";
import type { Said as SaidOf } from "../worker/said.ts";
import type { AnswerTask, ReadTask } from "./workshop.ts";

/** What the page says to the worker: one task at a time. */
export type Task = ReadTask | AnswerTask;

/** How a task ended well. */
export type Ended =
  | { readonly kind: "read"; readonly result: LogsSummary }
  | { readonly kind: "answer"; readonly result: Calibrated };

export type Said = SaidOf<Ended>;

export { wordsOf } from "../worker/said.ts";
