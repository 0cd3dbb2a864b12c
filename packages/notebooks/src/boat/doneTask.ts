import { type Said, type Task, wordsOf } from "./messages.ts";
import { inThisThread } from "./workshop.ts";

/**
 * A task done, with everything said about it on the way. Never rejects: what goes wrong is said.
 *
 * @param say is told progress as often as there is some, and the end once
 */
export async function doneTask(task: Task, say: (said: Said) => void): Promise<void> {
  const progress = (what: string, share: number): void => say({ kind: "progress", what, share });
  try {
    say(
      task.kind === "read"
        ? { kind: "read", result: await inThisThread.read(task, { progress }) }
        : { kind: "answer", result: await inThisThread.answer(task, { progress }) },
    );
  } catch (error) {
    say({ kind: "failed", words: wordsOf(error) });
  }
}
