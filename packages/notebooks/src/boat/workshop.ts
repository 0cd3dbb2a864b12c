import type { AnswerFiles, Boat, Calibrated, JobRun, LeaveOut, LogsSummary, Sailing } from "@bothtacks/core";
import type { Evidence } from "@bothtacks/core/page";
import type { Ended, Task } from "./messages.ts";

/** Logs that were read, as a page shows them: their rows, most of what was found, stay in the workshop. */
export interface LogsSeen extends Omit<LogsSummary, "sailing"> {
  readonly sailing: Omit<Sailing, "rows">;
  readonly evidence: Evidence;
  /** What the workshop holds them as. */
  readonly number: number;
}

/** An answer as a page shows it; the rows that it rests on stay in the workshop. */
export interface AnswerSeen extends Omit<Calibrated, "rows"> {
  /** What the workshop holds it as. */
  readonly number: number;
}

/** What is to be read, and for which boat. */
export interface ReadWish {
  readonly files: readonly File[];
  readonly boat: Boat;
}

/** What is to be answered from logs that were read. */
export interface AnswerWish extends ReadWish {
  readonly summary: LogsSeen;
  readonly leaveOut: LeaveOut;
}

/** Which file of an answer is to be made. */
export interface FileWish extends AnswerWish {
  readonly name: keyof AnswerFiles;
  readonly calibrated: AnswerSeen;
  /** Source text of plotly; empty where the file takes none along. */
  readonly plotly: string;
  /** s since 1970 UTC. */
  readonly made: number;
}

/**
 * Where the long work is done, and where what it needs is held: in a worker on the page, in the same thread in Node. Each rejects
 * as the job throws.
 */
export interface Workshop {
  readonly read: (wish: ReadWish, run: JobRun) => Promise<LogsSeen>;
  readonly answer: (wish: AnswerWish, run: JobRun) => Promise<AnswerSeen>;
  /** undefined where the answer leaves no files. */
  readonly file: (wish: FileWish, run: JobRun) => Promise<string | undefined>;
}

/** A workshop whose tasks are done elsewhere; it counts what is to be held there. */
export function workshopOf(done: (task: Task, run: JobRun) => Promise<Ended>): Workshop {
  let last = 0;
  const number = (): number => {
    last += 1;
    return last;
  };
  const of = async <Kind extends Ended["kind"]>(kind: Kind, task: Task, run: JobRun) => {
    const ended = await done(task, run);
    if (ended.kind !== kind) throw new Error("Another task was answered.");
    return ended as Extract<Ended, { kind: Kind }>;
  };
  const answerTask = ({ files, boat, leaveOut, summary }: AnswerWish, as: number) =>
    ({ kind: "answer", as, logs: summary.number, files, boat, leaveOut }) as const;
  return {
    read: async ({ files, boat }, run) =>
      (await of("read", { kind: "read", as: number(), files, boat }, run)).result,
    answer: async (wish, run) => (await of("answer", answerTask(wish, number()), run)).result,
    file: async (wish, run) => {
      const { name, plotly, made, calibrated } = wish;
      const answer = answerTask(wish, calibrated.number);
      return (await of("file", { kind: "file", answer, name, plotly, made }, run)).result;
    },
  };
}
