import { variationAt } from "../physics/variation.ts";
import type { QuantityName } from "../recording/readings.ts";
import type { SourceList } from "../recording/sourceList.ts";
import { SecondsAligner } from "../sailing/clock.ts";
import { LagShifter } from "../sailing/lagShifter.ts";
import type { Lags } from "../sailing/lags.ts";
import type { SecondsBlock } from "../sailing/series.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { readLog } from "./readLogs.ts";

/** How readings become seconds. */
export interface SecondsPlan {
  readonly sources: SourceList;
  /** For each quantity the index of the source that was chosen for it. */
  readonly chosen: Partial<Readonly<Record<QuantityName, number>>>;
  /** Channels are put in step by these; undefined: they stay as they are. */
  readonly lags?: Lags;
}

/**
 * Reads a log once and hands on its seconds: all channels on one clock (M35) and, where lags are known, in step (M36).
 *
 * @param take is given each block, in the order of time
 * @throws as `readLog`
 */
export async function readSeconds(
  log: LogSource,
  plan: SecondsPlan,
  take: (block: SecondsBlock) => void,
  run: JobRun = {},
): Promise<void> {
  const aligner = new SecondsAligner({ chosen: plan.chosen, variationAt });
  const shifter = plan.lags && new LagShifter(plan.lags);
  const pass = (blocks: readonly SecondsBlock[]): void => {
    for (const block of blocks) take(shifter ? shifter.push(block) : block);
  };
  await readLog(log, plan.sources, (readings) => pass(aligner.push(readings)), run);
  pass(aligner.finish());
  if (shifter) take(shifter.finish());
}
