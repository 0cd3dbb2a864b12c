import type { JobRun, LogSource } from "./logSource.ts";

/** Which part of the whole job a reading of the logs is: from which share of it to which. */
export interface Phase {
  readonly from: number;
  readonly to: number;
}

/** Logs are read three times: for sources, for lags, for the sailing. */
export const PHASES = {
  survey: { from: 0, to: 1 / 3 },
  time: { from: 1 / 3, to: 2 / 3 },
  sail: { from: 2 / 3, to: 1 },
} as const satisfies Record<string, Phase>;

/** Tells how far a reading of some logs is, each log weighted by its size. */
function progressOver(logs: readonly LogSource[], { progress }: JobRun, { from, to }: Phase) {
  const sizes = logs.map(({ bytes }) => bytes ?? Number.NaN);
  const all = sizes.reduce((sum, bytes) => sum + bytes, 0);
  const shares = new Float64Array(logs.length);
  let finished = 0;
  const tell = (place: number, share: number): void => {
    shares[place] = share;
    const done = shares.reduce((sum, one, at) => sum + one * sizes[at]!, 0) / all;
    const what =
      logs.length === 1
        ? `reading ${logs[0]!.name}`
        : `reading ${logs.length} logs, ${finished} of them done`;
    progress?.(what, from + (to - from) * done);
  };
  return {
    share: tell,
    finish: (place: number): void => {
      finished += 1;
      tell(place, 1);
    },
  };
}

/**
 * Does some work for each of some logs, several at once where that is allowed; what comes of it does not depend on how many.
 *
 * @param work told the log and how to run
 * @returns the results in the order of the logs
 * @throws the first error; no work is begun after it
 */
export async function overLogs<Result>(
  logs: readonly LogSource[],
  atOnce: number,
  run: JobRun,
  phase: Phase,
  work: (log: LogSource, run: JobRun) => Promise<Result>,
): Promise<readonly Result[]> {
  const results: Result[] = [];
  const progress = progressOver(logs, run, phase);
  let [next, hasFailed] = [0, false];
  const hand = async (): Promise<void> => {
    while (next < logs.length && !hasFailed) {
      const place = next++;
      run.signal?.throwIfAborted();
      const own: JobRun = { ...run, progress: (_, share) => progress.share(place, share) };
      try {
        results[place] = await work(logs[place]!, own);
      } catch (error) {
        hasFailed = true;
        throw error;
      }
      progress.finish(place);
    }
  };
  await Promise.all(Array.from({ length: Math.min(atOnce, logs.length) }, hand));
  return results;
}
