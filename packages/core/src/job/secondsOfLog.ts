import { variationAt } from "../physics/variation.ts";
import type { QuantityName } from "../recording/readings.ts";
import type { SourceList } from "../recording/sourceList.ts";
import { SecondsAligner } from "../sailing/clock.ts";
import { LagShifter } from "../sailing/lagShifter.ts";
import type { Lags } from "../sailing/lags.ts";
import type { SecondsBlock } from "../sailing/series.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { readingsOfLog } from "./readingsOfLog.ts";

/** How readings become seconds. */
export interface SecondsPlan {
  readonly sources: SourceList;
  /** For each quantity the index of the source that was chosen for it. */
  readonly chosen: Partial<Readonly<Record<QuantityName, number>>>;
  /** Channels are put in step by these; undefined: they stay as they are. */
  readonly lags?: Lags;
}

/**
 * The seconds of a log: all channels on one clock (M35) and, where lags are known, in step (M36).
 *
 * @returns blocks in the order of time
 * @throws as `readingsOfLog`
 */
export async function* secondsOfLog(
  log: LogSource,
  plan: SecondsPlan,
  run: JobRun = {},
): AsyncGenerator<SecondsBlock, void, undefined> {
  const aligner = new SecondsAligner({ chosen: plan.chosen, variationAt });
  const shifter = plan.lags && new LagShifter(plan.lags);
  const inStep = (block: SecondsBlock): SecondsBlock => (shifter ? shifter.push(block) : block);
  for await (const readings of readingsOfLog(log, plan.sources, run))
    for (const block of aligner.push(readings)) yield inStep(block);
  for (const block of aligner.finish()) yield inStep(block);
  if (shifter) yield shifter.finish();
}
