import { RecordingInventory } from "../recording/inventory.ts";
import type { InventoryPart } from "../recording/inventoryPart.ts";
import type { Source } from "../recording/readings.ts";
import { SourceList } from "../recording/sourceList.ts";
import { LagEstimator, type LagPart } from "../sailing/lags.ts";
import type { SailingPart } from "../sailing/mergedSailing.ts";
import { type MixedPart, MixedStreams } from "../sailing/mixedStreams.ts";
import { type PairPart, SourcePairs } from "../sailing/sourcePairs.ts";
import { SailingSummary } from "../sailing/summary.ts";
import { WindOrder, type WindOrderPart } from "../sailing/windOrder.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { type LogCount, readingsOfLog } from "./readingsOfLog.ts";
import { alignedSeconds, type SecondsPlan, type SecondsSource, secondsOfLog } from "./secondsOfLog.ts";
import { type Span, SpanOfSeconds } from "./spanOfSeconds.ts";
import { undoing } from "./undoing.ts";

/** What the lines of one log hold, before any source is chosen. */
export interface SurveyedLog {
  readonly count: LogCount;
  readonly inventory: InventoryPart;
  readonly mixed: MixedPart;
  readonly pairs: readonly PairPart[];
  readonly windOrder: readonly WindOrderPart[];
}

/** What the seconds of one log tell of the time that it spans, and of lags. */
export interface TimedLog {
  readonly span: Span;
  readonly lags: LagPart;
}

/**
 * M165. The three steps from a log to what is kept of it. Each is about one log alone and gives plain values, which depend on nothing
 * but the log's bytes and the arguments: so a step may be done in another thread, or not again at all.
 */
export interface LogSteps {
  /** How many logs may be worked on at once. */
  readonly atOnce: number;
  readonly survey: (log: LogSource, run: JobRun) => Promise<SurveyedLog>;
  readonly time: (log: LogSource, chosen: readonly Source[], run: JobRun) => Promise<TimedLog>;
  /** @param active what was active in the instruments, counted from the base */
  readonly sail: (
    log: LogSource,
    plan: SecondsPlan,
    active: SensorSettings,
    run: JobRun,
  ) => Promise<SailingPart>;
  /** Called when no step is asked for any more, though the job goes on: what they needed may be let go. */
  readonly release?: () => Promise<void>;
}

async function surveyed(log: LogSource, run: JobRun): Promise<SurveyedLog> {
  const sources = new SourceList();
  const [inventory, streams, pairs] = [new RecordingInventory(), new MixedStreams(), new SourcePairs()];
  const windOrder = new WindOrder();
  let count: LogCount | undefined;
  for await (const readings of readingsOfLog(log, sources, run, (found) => {
    count = found;
  })) {
    inventory.add(readings, sources.sources);
    streams.add(readings, sources.sources);
    pairs.add(readings, sources.sources);
    windOrder.add(readings, sources.sources);
  }
  if (count === undefined) throw new Error(`surveyed: the reading of ${log.name} ended without a count`);
  return {
    count,
    inventory: inventory.part,
    mixed: streams.finish(),
    pairs: pairs.finish(),
    windOrder: windOrder.finish(),
  };
}

/**
 * The steps done in this thread, one log at a time.
 *
 * @param aligned where the seconds of a log come from; unless told, from the log itself
 */
export const stepsHere = (aligned: SecondsSource = alignedSeconds): LogSteps => ({
  atOnce: 1,
  survey: surveyed,

  async time(log, chosen, run) {
    const [span, lags] = [new SpanOfSeconds(), new LagEstimator()];
    for await (const block of secondsOfLog(log, { chosen }, run, aligned)) {
      lags.push(block);
      span.push(block);
    }
    return { span: span.span, lags: lags.part };
  },

  async sail(log, plan, active, run) {
    const transform = undoing(active);
    const summary = new SailingSummary(transform ? { transform } : {});
    for await (const block of secondsOfLog(log, plan, run, aligned)) summary.push(block);
    return summary.finish();
  },
});
