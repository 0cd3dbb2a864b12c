import type { AnswerFiles, Boat, LeaveOut } from "@bothtacks/core";
import type { AnswerSeen, LogsSeen } from "./workshop.ts";

/** Logs to be read, and held as a number that the page gives them. */
export interface ReadTask {
  readonly kind: "read";
  readonly as: number;
  readonly files: readonly File[];
  readonly boat: Boat;
}

/** An answer to be found, and held as a number, from logs that are held as another; where they are no more, from their files. */
export interface AnswerTask {
  readonly kind: "answer";
  readonly as: number;
  readonly logs: number;
  readonly files: readonly File[];
  readonly boat: Boat;
  readonly leaveOut: LeaveOut;
}

/** A file to be made of an answer; where it is held no more, it is found again. */
export interface FileTask {
  readonly kind: "file";
  readonly answer: AnswerTask;
  readonly name: keyof AnswerFiles;
  readonly plotly: string;
  readonly made: number;
}

/** What the page says to the worker. */
export type Task = ReadTask | AnswerTask | FileTask;

/** How a task ended well. */
export type Ended =
  | { readonly kind: "read"; readonly result: LogsSeen }
  | { readonly kind: "answer"; readonly result: AnswerSeen }
  | { readonly kind: "file"; readonly result: string | undefined };

export { wordsOf } from "../worker/said.ts";
