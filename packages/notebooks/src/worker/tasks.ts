import type { JobRun } from "@bothtacks/core";
import { type Said, wordsOf } from "./said.ts";

/** A task with its number, or the number of one that is called off: what a page says to a worker that stays. */
export type Asked<Task> =
  | { readonly number: number; readonly task: Task }
  | { readonly number: number; readonly isCalledOff: true };

/** What the worker says of it. */
export interface SaidOf<Done> {
  readonly number: number;
  readonly said: Said<Done>;
}

/** An end of the line between page and worker. */
export interface Line {
  readonly postMessage: (message: unknown) => void;
  readonly addEventListener: (kind: "message", heard: (event: { readonly data: unknown }) => void) => void;
}

/**
 * The worker's end: does one task after the other, and breaks off what is called off at the task's next pause.
 *
 * @param line to the page
 * @param done does a task; rejects with its signal's reason when that is aborted
 */
export function serveTasks<Task, Done>(line: Line, done: (task: Task, run: JobRun) => Promise<Done>): void {
  const open = new Map<number, AbortController>();
  let before = Promise.resolve();
  const work = async (number: number, task: Task, signal: AbortSignal): Promise<void> => {
    const say = (said: Said<Done>): void => line.postMessage({ number, said });
    try {
      signal.throwIfAborted();
      say(await done(task, { signal, progress: (what, share) => say({ kind: "progress", what, share }) }));
    } catch (error) {
      say({ kind: "failed", words: wordsOf(error) });
    } finally {
      open.delete(number);
    }
  };
  line.addEventListener("message", ({ data }) => {
    const asked = data as Asked<Task>;
    if ("isCalledOff" in asked) {
      open.get(asked.number)?.abort();
      return;
    }
    const calledOff = new AbortController();
    open.set(asked.number, calledOff);
    before = before.then(() => work(asked.number, asked.task, calledOff.signal));
  });
}
