import {
  answerOf,
  type Boat,
  type Calibrated,
  type JobRun,
  type LeaveOut,
  type LogsSummary,
  summariseLogs,
} from "@bothtacks/core";
import { logsAndColumns } from "./logsAndColumns.ts";
import { logsOfFiles } from "./logsOfFiles.ts";

/** What is to be read, and for which boat. */
export interface ReadTask {
  readonly kind: "read";
  readonly files: readonly File[];
  readonly boat: Boat;
}

/** What is to be answered from logs that were read. */
export interface AnswerTask {
  readonly kind: "answer";
  readonly summary: LogsSummary;
  readonly boat: Boat;
  readonly leaveOut: LeaveOut;
}

/** Where the long work is done: in a worker on the page, in the same thread in Node. Both reject as the job throws. */
export interface Workshop {
  readonly read: (task: ReadTask, run: JobRun) => Promise<LogsSummary>;
  readonly answer: (task: AnswerTask, run: JobRun) => Promise<Calibrated>;
}

const withSignal = ({ signal }: JobRun): JobRun => (signal ? { signal } : {});

/** The work done where it is asked for. */
export const inThisThread: Workshop = {
  read: async ({ files, boat }, run) => {
    const { logs: logFiles, ...columns } = await logsAndColumns(files);
    const names = logFiles.map(({ name }) => name).join(", ");
    const logs = logsOfFiles(logFiles, (share) => run.progress?.(`reading ${names}`, share));
    return summariseLogs(
      logs.map((log) => ({ ...log, ...columns })),
      boat,
      withSignal(run),
    );
  },
  answer: async ({ summary, boat, leaveOut }, run) => {
    run.progress?.("fitting", Number.NaN);
    return answerOf(summary, boat, { leaveOut, ...withSignal(run) });
  },
};
