import { RefusedFile } from "../calibration/refusedFile.ts";
import { UnusableLog } from "../job/readingsOfLog.ts";
import { FileProblem } from "../node/fileProblem.ts";

/** The exit statuses of the command line; `moved`: `compare` found that something has. */
export const EXIT = { done: 0, cannotAnswer: 1, usage: 2, moved: 3, interrupted: 130 } as const;

/** The command was called in a way that it does not understand: exit status 2. */
export class UsageFailure extends Error {
  override readonly name = "UsageFailure";
}

/** What was given cannot answer the question: exit status 1. */
export class InputFailure extends Error {
  override readonly name = "InputFailure";
}

const inOneLine = (text: string): string => text.replace(/\s*[\r\n]+\s*/g, " ").trim();

/** The exit status that an error leads to, and the one line that says why. Never throws. */
export function failureOf(error: unknown): { readonly status: number; readonly line: string } {
  if (!(error instanceof Error)) return { status: EXIT.cannotAnswer, line: inOneLine(String(error)) };
  if (error.name === "AbortError")
    return { status: EXIT.interrupted, line: "interrupted; nothing was written" };
  if (error instanceof UsageFailure) return { status: EXIT.usage, line: inOneLine(error.message) };
  const foreseen = [InputFailure, RefusedFile, FileProblem, UnusableLog].some(
    (kind) => error instanceof kind,
  );
  const line = inOneLine(error.message);
  return { status: EXIT.cannotAnswer, line: foreseen ? line : `unforeseen: ${line}` };
}
