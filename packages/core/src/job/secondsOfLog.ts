import { variationAt } from "../physics/variation.ts";
import type { QuantityName, Source } from "../recording/readings.ts";
import { SourceList } from "../recording/sourceList.ts";
import { SecondsAligner } from "../sailing/clock.ts";
import { LagShifter } from "../sailing/lagShifter.ts";
import type { Lags } from "../sailing/lags.ts";
import type { SecondsBlock } from "../sailing/series.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { readingsOfLog } from "./readingsOfLog.ts";

/** How readings become seconds. Plain values. */
export interface SecondsPlan {
  /** The source that was chosen for each quantity of the channels. */
  readonly chosen: readonly Source[];
  /** Channels are put in step by these; undefined: they stay as they are. */
  readonly lags?: Lags;
}

/** Where the seconds of a log come from: all channels on one clock, not yet in step. */
export type SecondsSource = (
  log: LogSource,
  chosen: readonly Source[],
  run?: JobRun,
) => AsyncIterable<SecondsBlock>;

/**
 * The seconds of a log, all channels on one clock (M35), not yet in step.
 *
 * @returns blocks in the order of time
 * @throws as `readingsOfLog`
 */
export async function* alignedSeconds(
  log: LogSource,
  chosen: readonly Source[],
  run: JobRun = {},
): AsyncGenerator<SecondsBlock, void, undefined> {
  const sources = new SourceList();
  const places: Partial<Record<QuantityName, number>> = {};
  for (const { quantity, name } of chosen) places[quantity] = sources.indexOf(quantity, name);
  const aligner = new SecondsAligner({ chosen: places, variationAt });
  for await (const readings of readingsOfLog(log, sources, run)) yield* aligner.push(readings);
  yield* aligner.finish();
}

/**
 * The seconds of a log: all channels on one clock (M35) and, where lags are known, in step (M36).
 *
 * @param aligned where the seconds come from; unless told, from the log itself
 * @returns blocks in the order of time
 * @throws as `aligned`
 */
export async function* secondsOfLog(
  log: LogSource,
  { chosen, lags }: SecondsPlan,
  run: JobRun = {},
  aligned: SecondsSource = alignedSeconds,
): AsyncGenerator<SecondsBlock, void, undefined> {
  const shifter = lags && new LagShifter(lags);
  for await (const block of aligned(log, chosen, run)) yield shifter ? shifter.push(block) : block;
  if (shifter) yield shifter.finish();
}
