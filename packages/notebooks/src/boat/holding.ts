import {
  answerFiles,
  answerInTurns,
  type Calibrated,
  type JobRun,
  type LogsSummary,
  summariseLogs,
} from "@bothtacks/core";
import { evidenceIn } from "@bothtacks/core/page";
import { logsAndColumns } from "./logsAndColumns.ts";
import { logsOfFiles } from "./logsOfFiles.ts";
import type { AnswerTask, Ended, FileTask, ReadTask, Task } from "./messages.ts";
import { type LogsSeen, type Workshop, workshopOf } from "./workshop.ts";

/** So many logs and answers are held: those of the answer on the page, and those that may take their place. */
const MOST_HELD = 2;

/** Results by number, of which the last that were asked for stay. */
class Lately<Result> {
  private readonly held = new Map<number, Result>();

  get(number: number): Result | undefined {
    const found = this.held.get(number);
    if (found !== undefined) this.keep(number, found);
    return found;
  }

  keep(number: number, result: Result): Result {
    this.held.delete(number);
    this.held.set(number, result);
    for (const one of [...this.held.keys()].slice(0, -MOST_HELD)) this.held.delete(one);
    return result;
  }
}

function seen({ recording, sailing, health, readAs }: LogsSummary, number: number): LogsSeen {
  const { rows, ...without } = sailing;
  return {
    recording,
    sailing: without,
    health,
    readAs,
    evidence: evidenceIn({ recording, ...without }, rows),
    number,
  };
}

/** Does the tasks of the page, and holds what later ones need: the rows of logs and answers, which a page has no use for. */
export class Holding {
  private readonly logs = new Lately<LogsSummary>();
  private readonly answers = new Lately<Calibrated>();

  /** Does one task. Rejects as the job throws. */
  readonly done = async (task: Task, run: JobRun): Promise<Ended> => {
    if (task.kind === "read") return { kind: "read", result: seen(await this.read(task, run), task.as) };
    if (task.kind === "file") return { kind: "file", result: await this.file(task, run) };
    const { rows, ...calibrated } = await this.answer(task, run);
    return { kind: "answer", result: { ...calibrated, number: task.as } };
  };

  private async read({ files, boat, as }: Omit<ReadTask, "kind">, run: JobRun): Promise<LogsSummary> {
    const { logs: logFiles, ...columns } = await logsAndColumns(files);
    const names = logFiles.map(({ name }) => name).join(", ");
    const logs = logsOfFiles(logFiles, (share) => run.progress?.(`reading ${names}`, share));
    const { signal } = run;
    const sources = logs.map((log) => ({ ...log, ...columns }));
    return this.logs.keep(as, await summariseLogs(sources, boat, signal ? { signal } : {}));
  }

  private async answer({ as, logs, files, boat, leaveOut }: AnswerTask, run: JobRun): Promise<Calibrated> {
    const summary = this.logs.get(logs) ?? (await this.read({ files, boat, as: logs }, run));
    run.progress?.("fitting", Number.NaN);
    return this.answers.keep(as, await answerInTurns(summary, boat, leaveOut, run));
  }

  private async file({ answer, name, plotly, made }: FileTask, run: JobRun): Promise<string | undefined> {
    const calibrated = this.answers.get(answer.as) ?? (await this.answer(answer, run));
    return answerFiles(calibrated, plotly, made)?.[name];
  }
}

/** A workshop whose work is done where it is asked for. */
export const inThisThread = (): Workshop => workshopOf(new Holding().done);
