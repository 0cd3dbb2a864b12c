import type { Calibrated, LogsSummary } from "@bothtacks/core";
import type { AnswerTask, ReadTask } from "./workshop.ts";

/** What the page says to the worker: one task at a time. */
export type Task = ReadTask | AnswerTask;

/** What the worker says to the page: how far it is, then how it ended. */
export type Said =
  | { readonly kind: "progress"; readonly what: string; readonly share: number }
  | { readonly kind: "read"; readonly result: LogsSummary }
  | { readonly kind: "answer"; readonly result: Calibrated }
  | { readonly kind: "failed"; readonly words: string };

/** What an error says, in words. Never throws. */
export const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
