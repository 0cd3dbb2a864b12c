import type { QuantityName, Source } from "../../recording/readings.ts";
import { SourceList } from "../../recording/sourceList.ts";
import type { Seconds } from "../../units.ts";
import type { JobRun, LogSource } from "../logSource.ts";
import { readingsOfLog } from "../readingsOfLog.ts";

/** Told of one reading: its source, the time of it, and its value in SI and radians. */
export type TakesReading = (source: Source, time: Seconds, value: number) => void;

/**
 * Goes over the readings of some quantities in logs, in the order of the logs; readings that have no time are left out.
 *
 * @param take told of each; every source is one and the same object in all its readings
 * @throws what reading throws
 */
export async function readingsOf(
  logs: readonly LogSource[],
  quantities: readonly QuantityName[],
  run: JobRun,
  take: TakesReading,
): Promise<void> {
  const sources = new SourceList();
  for (const log of logs)
    for await (const readings of readingsOfLog(log, sources, run))
      for (let at = 0; at < readings.length; at++) {
        const source = sources.sources[readings.source[at]!];
        const time = readings.time[at]!;
        if (source && quantities.includes(source.quantity) && !Number.isNaN(time))
          take(source, time, readings.value[at]!);
      }
}
