import type { Boat } from "../calibration/boat.ts";
import { chooseSources, type SourceChoice } from "../recording/chooseSources.ts";
import { inventoryRows, secondsCovered } from "../recording/inventoryPart.ts";
import { PROBLEM_KINDS, QUANTITIES, type Source } from "../recording/readings.ts";
import type { RecordingHealth } from "../report/check.ts";
import { isOfAChannel } from "../sailing/clock.ts";
import { lagsOf, windIsMirrored } from "../sailing/lags.ts";
import { mixedTroubles } from "../sailing/mixedStreams.ts";
import { sourcePairs } from "../sailing/sourcePairs.ts";
import type { Trouble } from "../sailing/trouble.ts";
import { swappedWinds } from "../sailing/windOrder.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { type LogSteps, type SurveyedLog, stepsHere } from "./logSteps.ts";
import { type LogLeftOut, usedLogs } from "./logsUsed.ts";
import { overLogs, PHASES } from "./overLogs.ts";
import { type LogCount, UnusableLog } from "./readingsOfLog.ts";
import type { SecondsPlan } from "./secondsOfLog.ts";
import { spanOfAll } from "./spanOfSeconds.ts";

/** What the first two readings of the logs find out: sources, lags, span. */
export interface Survey {
  /** Those that are used. */
  readonly logs: readonly LogSource[];
  readonly leftOut: readonly LogLeftOut[];
  readonly counts: readonly LogCount[];
  readonly health: RecordingHealth;
  readonly choice: SourceChoice;
  readonly plan: SecondsPlan;
  /** First and last second with a value, s since 1970 UTC. */
  readonly start: number;
  readonly end: number;
  /** Chosen sources in which two sensors talk under one name (M96). */
  readonly mixed: readonly Trouble[];
  readonly directionsAre: "true" | "magnetic";
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

/** Problems of each kind in all logs, of which there is one at least. */
function problemsOf([first, ...others]: readonly LogCount[]): RecordingHealth["problemCounts"] {
  const sums = { ...first!.problemCounts };
  for (const { problemCounts } of others) for (const kind of PROBLEM_KINDS) sums[kind] += problemCounts[kind];
  return sums;
}

/** A log's survey, or why it is no log where that may be. */
async function surveyOrNone(
  steps: LogSteps,
  log: LogSource,
  run: JobRun,
): Promise<SurveyedLog | UnusableLog> {
  try {
    return await steps.survey(log, run);
  } catch (error) {
    if (log.mayBeNone && error instanceof UnusableLog) return error;
    throw error;
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
  const { steps = stepsHere() } = run;
  const found = await overLogs(logs, steps.atOnce, run, PHASES.survey, (log, own) =>
    surveyOrNone(steps, log, own),
  );
  const { used, leftOut } = usedLogs(logs, found);
  const inventories = used.map(({ survey }) => survey.inventory);
  const sources = inventoryRows(inventories);
  requireWanted(
    boat,
    sources.map(({ source }) => source),
    logs,
  );
  const choice = chooseSources(sources, boat.sources, secondsCovered(inventories));
  const taken = choice.chosen.map(({ source }) => source);
  const chosen = taken.filter(({ quantity }) => isOfAChannel(quantity));
  const usedSources = used.map(({ log }) => log);
  const timed = await overLogs(usedSources, steps.atOnce, run, PHASES.time, (log, own) =>
    steps.time(log, chosen, own),
  );
  const span = spanOfAll(timed.map((one) => one.span));
  const knowsNorth = span.knowsNorth || !Number.isNaN(boat.variation);
  const hasMagneticOnly = chosen.some(({ quantity }) => quantity === "headingMagnetic");
  return {
    logs: usedSources,
    leftOut,
    counts: used.map(({ survey }) => survey.count),
    health: {
      logs: timed.map((one, place) => ({
        name: usedSources[place]!.name,
        start: one.span.start,
        end: one.span.end,
      })),
      gaps: span.gaps,
      sources,
      pairs: sourcePairs(used.map(({ survey }) => survey.pairs)),
      windIsMirrored: windIsMirrored(timed.map(({ lags }) => lags)),
      swapped: swappedWinds(used.map(({ survey }) => survey.windOrder)),
      problemCounts: problemsOf(used.map(({ survey }) => survey.count)),
    },
    choice,
    plan: { chosen, lags: lagsOf(timed.map(({ lags }) => lags)) },
    start: span.start,
    end: span.end,
    mixed: mixedTroubles(
      used.map(({ survey }) => survey.mixed),
      taken,
    ),
    directionsAre: !hasMagneticOnly || knowsNorth ? "true" : "magnetic",
  };
}
