import type { Boat } from "../calibration/boat.ts";
import { leewayLawBreakers } from "../calibration/boat.ts";
import { fitBoatInSteps } from "../fit/fitBoat.ts";
import { channelsOf } from "../fit/recordingChannels.ts";
import { finished, finishedInTurns, type Steps } from "../fit/steps.ts";
import { agreementsOf } from "../judge/agreements.ts";
import { planFrom } from "../judge/planFrom.ts";
import { statesCorrected, statesOnBoard } from "../judge/rowWind.ts";
import type { Answer, WordlessAnswer } from "../report/answer.ts";
import { runsNotes } from "../report/runsNote.ts";
import { type CorrectionTables, correctionTables } from "../report/tables.ts";
import { plainWords } from "../report/words.ts";
import type { LegRow } from "../sailing/legRow.ts";
import type { Seconds } from "../units.ts";
import { type LeaveOut, sailingKept } from "./leaveOut.ts";
import type { JobRun } from "./logSource.ts";
import { rowsOfSeason } from "./rowsOfSeason.ts";
import { type LogsSummary, mustReadAgain } from "./summariseLogs.ts";
import { windTrack } from "./windTrack.ts";

/** An answer with what its files and the report are drawn from. */
export interface Calibrated {
  readonly answer: Answer;
  /** undefined where the fit is unsolved. */
  readonly tables: CorrectionTables | undefined;
  readonly rows: readonly LegRow[];
  readonly boat: Boat;
}

/** What an answer is not to rest on, and a signal to call it off. */
export interface AnswerOptions {
  /** Legs and turns that the answer is not to rest on. */
  readonly leaveOut?: LeaveOut;
  readonly signal?: AbortSignal;
}

/** What the report proposes to sail next takes half an hour. */
const SAIL_NEXT: Seconds = 1800;

/** Rows without a variation take the one that the boat file gives. */
const withVariation = (rows: readonly LegRow[], { variation }: Boat): readonly LegRow[] =>
  rows.map((row) => (Number.isNaN(row.variation) ? { ...row, variation } : row));

/**
 * From what logs hold to corrections, agreements, tables and words: the fast part of the job, to be repeated with other legs and
 * turns left out.
 *
 * @param summary of `summariseLogs`
 * @param boat the one that the logs were read for, or one for which they need not be read again
 * @returns an answer, solved or not
 * @throws RangeError where the logs must be read again for this boat, or for a leg or turn that they do not have; the
 *   signal's reason when aborted
 * @example
 * const short = await summariseLogs([shortLog], boat);
 * answerOf(short, boat).answer.fit.status // "unsolved"
 */
export const answerOf = (summary: LogsSummary, boat: Boat, options: AnswerOptions = {}): Calibrated =>
  finished(answerInSteps(keptOf(summary, boat, options), boat, options));

/**
 * As `answerOf`, with pauses in which events, timers and an abort are heard: at most some tenths of a second pass between two.
 *
 * @param summary as to `answerOf`
 * @param boat as to `answerOf`
 * @param leaveOut legs and turns that the answer is not to rest on
 * @param run told `fitting` and the share that is done; a signal to call it off
 * @returns as `answerOf`, the same to the last bit
 * @throws as `answerOf`
 * @example
 * const short = await summariseLogs([shortLog], boat);
 * const { answer } = await answerInTurns(short, boat, {}, { signal: AbortSignal.timeout(60_000) });
 * answer.fit.status // "unsolved"
 */
export const answerInTurns = (
  summary: LogsSummary,
  boat: Boat,
  leaveOut: LeaveOut = {},
  { progress, signal }: JobRun = {},
): Promise<Calibrated> =>
  new Promise((resolve) => {
    const steps = answerInSteps(keptOf(summary, boat, { leaveOut }), boat, signal ? { signal } : {});
    const told = (share: number) => progress?.("fitting", share);
    resolve(finishedInTurns(steps, { progress: told, ...(signal ? { signal } : {}) }));
  });

/** What the answer is made from. The rows of a whole season are not in it, so that they need no memory while it is fitted. */
type Kept = ReturnType<typeof keptOf>;

function keptOf(summary: LogsSummary, boat: Boat, { leaveOut }: AnswerOptions) {
  if (mustReadAgain(summary, boat))
    throw new RangeError(
      "answerOf: boat must have the sources, active settings and variation that the logs were read with, got others",
    );
  const { kept, leftOut } = sailingKept(summary.sailing, leaveOut);
  const rows = withVariation(rowsOfSeason(kept.rows), boat);
  const thinned = { rows: { used: rows.length, all: kept.rows.length } };
  return {
    rows,
    recording: {
      ...summary.recording,
      seconds: kept.seconds,
      ...(rows.length < kept.rows.length ? thinned : {}),
    },
    sailed: {
      legs: kept.legs,
      turns: kept.turns,
      ...(leftOut.legs.length + leftOut.turns.length > 0 ? { leftOut } : {}),
      ...(summary.sailing.troubles.length > 0 ? { troubles: summary.sailing.troubles } : {}),
    },
  };
}

function* answerInSteps(
  { rows, recording, sailed }: Kept,
  boat: Boat,
  { signal }: AnswerOptions,
): Steps<Calibrated> {
  const { base, active } = boat.settings;
  const fit = yield* fitBoatInSteps(rows, {
    heelSign: boat.heelSensorSign,
    steeredBy: boat.steeredBy,
    leewayLawHolds: leewayLawBreakers(boat.rig).length === 0,
    ...(signal ? { signal } : {}),
  });
  const before = statesOnBoard(rows, active, boat.computer);
  const after = fit.status === "solved" ? statesCorrected(rows, fit.settings) : undefined;
  const scales = fit.status === "solved" ? fit.wander : undefined;
  const tables = fit.status === "solved" ? correctionTables(fit, base, active, boat, rows) : undefined;
  yield 1;
  const plan =
    fit.status === "solved" ? planFrom(fit, boat, recording.chosen, { seconds: SAIL_NEXT }) : undefined;
  yield 1;
  const wordless: WordlessAnswer = {
    recording,
    ...sailed,
    base,
    active,
    fit,
    before: agreementsOf(rows, before, scales),
    ...(after ? { after: agreementsOf(rows, after, scales) } : {}),
    track: windTrack(rows, fit, before, after, channelsOf(rows).gps),
  };
  const said = plainWords(wordless, boat, tables, plan);
  const words = { ...said, notes: [...said.notes, ...runsNotes(rows, fit)] };
  return { answer: { ...wordless, words }, tables, rows, boat };
}
