import type { Boat } from "../calibration/boat.ts";
import { chooseSources, chosenIndices, type SourceChoice } from "../recording/chooseSources.ts";
import { RecordingInventory } from "../recording/inventory.ts";
import { QUANTITIES, type Source } from "../recording/readings.ts";
import { SourceList } from "../recording/sourceList.ts";
import { LagEstimator } from "../sailing/lags.ts";
import { MixedStreams } from "../sailing/mixedStreams.ts";
import type { SecondsBlock } from "../sailing/series.ts";
import type { Trouble } from "../sailing/trouble.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { type LogCount, readingsOfLog, UnusableLog } from "./readingsOfLog.ts";
import { type SecondsPlan, secondsOfLog } from "./secondsOfLog.ts";

/** A silence of the whole log: its start, s since 1970 UTC, and its length. */
export interface Gap {
  readonly start: number;
  readonly seconds: number;
}

/** What the first two readings of the logs find out: sources, lags, span. */
export interface Survey {
  readonly logs: readonly LogSource[];
  readonly counts: readonly LogCount[];
  readonly choice: SourceChoice;
  readonly plan: SecondsPlan;
  /** First and last second with a value, s since 1970 UTC. */
  readonly start: number;
  readonly end: number;
  readonly gaps: readonly Gap[];
  /** Chosen sources in which two sensors talk under one name (M96). */
  readonly mixed: readonly Trouble[];
  readonly directionsAre: "true" | "magnetic";
}

/** Silences shorter than this are a logger's hiccup. */
const SHORTEST_GAP = 30;

/** Span, gaps and north, from the seconds as they come. */
class Span {
  start = Number.NaN;
  end = Number.NaN;
  readonly gaps: Gap[] = [];
  hasVariation = false;

  add({ time, columns, headingIsTrue, length }: SecondsBlock): void {
    for (let index = 0; index < length; index++) {
      const second = time[index]!;
      if (!(this.start <= second)) this.start = second;
      if (second - this.end > SHORTEST_GAP) this.gaps.push({ start: this.end, seconds: second - this.end });
      this.end = second;
      this.hasVariation ||= headingIsTrue || !Number.isNaN(columns.variation[index]!);
    }
  }
}

function requireWanted(boat: Boat, sources: readonly Source[], logs: readonly LogSource[]): void {
  for (const quantity of QUANTITIES) {
    const wanted = boat.sources[quantity];
    const names = sources.filter((source) => source.quantity === quantity).map(({ name }) => name);
    if (wanted === undefined || names.includes(wanted)) continue;
    const has = names.length === 0 ? "none" : names.join(", ");
    throw new UnusableLog(
      logs.map(({ name }) => name).join(", "),
      `no source "${wanted}" for ${quantity}, which the boat file asks for; there is ${has}`,
    );
  }
}

/**
 * Reads the logs of one recording twice: for their lines and sources, of which one a quantity is chosen (M34), then for
 * span, gaps and the lags between the sensors (M36).
 *
 * @param logs files of one boat, in any order
 * @throws UnusableLog where a log cannot be used, or lacks a source that the boat file asks for; what the chunks throw; the
 *   signal's reason when aborted
 */
export async function surveyLogs(logs: readonly LogSource[], boat: Boat, run: JobRun = {}): Promise<Survey> {
  const sources = new SourceList();
  const inventory = new RecordingInventory();
  const streams = new MixedStreams();
  const counts: LogCount[] = [];
  for (const log of logs)
    for await (const readings of readingsOfLog(log, sources, run, (count) => counts.push(count))) {
      inventory.add(readings, sources.sources);
      streams.add(readings, sources.sources);
    }
  requireWanted(boat, sources.sources, logs);
  const choice = chooseSources(inventory.rows, boat.sources);
  const plan: SecondsPlan = { sources, chosen: chosenIndices(choice) };
  const [estimator, span] = [new LagEstimator(), new Span()];
  for (const log of logs)
    for await (const block of secondsOfLog(log, plan, run)) {
      estimator.push(block);
      span.add(block);
    }
  const knowsNorth = span.hasVariation || !Number.isNaN(boat.variation);
  return {
    logs,
    counts,
    choice,
    plan: { ...plan, lags: estimator.lags() },
    start: span.start,
    end: span.end,
    gaps: span.gaps,
    mixed: streams.troublesOf(Object.values(plan.chosen)),
    directionsAre: plan.chosen.headingMagnetic === undefined || knowsNorth ? "true" : "magnetic",
  };
}
