/**
 * The job in its two steps, with legs and turns left out.
 * INPUTS: a simulated sail of some 50 minutes (seed 41207), its log read as the job reads it.
 * MARGIN: exact, but where whitening is compared between rows that were turned: 1e-9 rad, rounding of some hundred steps.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { wrapDirection } from "../../packages/core/src/angles.ts";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { calibrationFileText } from "../../packages/core/src/calibration/calibrationFile.ts";
import { answerOf, type Calibrated } from "../../packages/core/src/job/answerOf.ts";
import { calibrateLogs } from "../../packages/core/src/job/calibrateLogs.ts";
import { calibrationOf } from "../../packages/core/src/job/calibrationOf.ts";
import { sailingKept } from "../../packages/core/src/job/leaveOut.ts";
import type { LogSource } from "../../packages/core/src/job/logSource.ts";
import { type LogsSummary, mustReadAgain, summariseLogs } from "../../packages/core/src/job/summariseLogs.ts";
import { agreementsOf } from "../../packages/core/src/judge/agreements.ts";
import { statesOnBoard } from "../../packages/core/src/judge/rowWind.ts";
import { htmlReport } from "../../packages/core/src/report/html.ts";
import { leftOutWords } from "../../packages/core/src/report/leftOutWords.ts";
import { printedSummary } from "../../packages/core/src/report/summary.ts";
import type { LegRow } from "../../packages/core/src/sailing/legRow.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { linesOfSail } from "../../packages/core/src/simulate/simulatedLog.ts";
import { simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { radians } from "../../packages/core/src/units.ts";

const BOAT = { ...UNKNOWN_BOAT, steeredBy: "sails" } as const;

/** The log, and how often it was read from its beginning. */
function simulatedLog(): LogSource & { readings: number } {
  const sail = simulatedSail(drawScenario(41207, { seconds: 3000, motoring: false }));
  const bytes = new TextEncoder().encode([...linesOfSail(sail)].map((line) => `${line}\r\n`).join(""));
  return {
    name: "simulated.nmea",
    bytes: bytes.length,
    readings: 0,
    chunks: {
      async *[Symbol.asyncIterator]() {
        log.readings += 1;
        for (let at = 0; at < bytes.length; at += 1 << 16) yield bytes.subarray(at, at + (1 << 16));
      },
    },
  };
}

const log = simulatedLog();
let summary: LogsSummary;
let whole: Calibrated;
let tackTurn: number;

beforeAll(async () => {
  summary = await summariseLogs([log], BOAT);
  whole = answerOf(summary, BOAT);
  const tacks = summary.sailing.turns.flatMap(({ kind }, place) => (kind === "tack" ? [place] : []));
  tackTurn = tacks[2]!;
});

describe("in two steps", () => {
  it("answers the same as in one, to the last bit, and without reading again", async () => {
    expect(whole.answer.fit.status).toBe("solved");
    const readings = log.readings;
    expect(answerOf(summary, BOAT, { leaveOut: { legs: [], turns: [] } })).toEqual(whole);
    expect(answerOf(structuredClone(summary), BOAT)).toEqual(whole);
    expect(log.readings).toBe(readings);
    expect(await calibrateLogs([log], BOAT)).toEqual(whole);
    expect(log.readings).toBe(2 * readings);
    expect("leftOut" in whole.answer).toBe(false);
  });

  it("reads again only for what is undone in reading", () => {
    const { settings } = BOAT;
    expect(mustReadAgain(summary, BOAT)).toBe(false);
    expect(mustReadAgain(structuredClone(summary), structuredClone(BOAT))).toBe(false);
    const computer = { ...BOAT.computer, correctsHeel: true };
    expect(mustReadAgain(summary, { ...BOAT, name: "Other", computer, steeredBy: "display" })).toBe(false);
    // no corrections and unknown ones are undone alike: not at all
    const none = { base: "sensors without corrections", active: noCorrections } as const;
    expect(mustReadAgain(summary, { ...BOAT, settings: none })).toBe(false);
    const active = { ...noCorrections, vane: { ...noCorrections.vane, mastheadOffset: radians(2) } };
    const corrected = { ...BOAT, settings: { ...settings, active } };
    const varied = { ...BOAT, variation: radians(3) };
    const sourced = { ...BOAT, sources: { heel: "XDR HEEL" } };
    for (const boat of [corrected, varied, sourced]) {
      expect(mustReadAgain(summary, boat)).toBe(true);
      expect(() => answerOf(summary, boat)).toThrow(RangeError);
    }
  });

  it("is called off by its signal", () => {
    const signal = AbortSignal.abort(new Error("enough"));
    expect(() => answerOf(summary, BOAT, { signal })).toThrow("enough");
  });
});

describe("a leg left out", () => {
  it("takes its rows with it, moves the answer, and is told in words, calibration and report", () => {
    const { legs } = summary.sailing;
    const leg = legs[5]!;
    const { answer, rows, tables, boat } = answerOf(summary, BOAT, { leaveOut: { legs: [leg.number] } });
    const gone = whole.rows.filter((row) => row.leg === leg.number);
    expect(gone.length).toBeGreaterThan(1);
    expect(rows).toEqual(whole.rows.filter((row) => row.leg !== leg.number));
    expect(answer.fit).not.toEqual(whole.answer.fit);
    expect(answer.legs).toHaveLength(legs.length - 1);
    expect(answer.leftOut).toEqual({ legs: [leg], turns: [] });
    const secondsGone = gone.reduce((sum, { count }) => sum + count, 0);
    const [kept, all] = [answer.recording.seconds, whole.answer.recording.seconds];
    expect(kept.sailing).toBe(all.sailing - secondsGone);
    expect(kept.other).toBe(all.other + secondsGone);
    const said = `Left out at your wish: leg ${leg.number + 1} (`;
    expect(answer.words.notes.join()).toContain(said);
    expect(printedSummary(answer, tables).replace(/\s+/g, " ")).toContain(said);
    expect(calibrationFileText(calibrationOf(answer, boat, 0)!)).toContain(said);
    expect(htmlReport({ answer, tables, rows, boatName: "" }, "").replaceAll("\u00a0", " ")).toContain(said);
  });

  it("throws for a leg or a turn that was not sailed", () => {
    for (const leaveOut of [{ legs: [summary.sailing.legs.length] }, { turns: [-1] }, { legs: [0.5] }])
      expect(() => answerOf(summary, BOAT, { leaveOut })).toThrow(RangeError);
  });
});

describe("a turn left out", () => {
  /** Rows whose whole scene is turned from a moment on: a shift of the wind in that turn. */
  function shifted(rows: readonly LegRow[], from: number, angle: number): readonly LegRow[] {
    return rows.map((row) => {
      if (row.start < from) return row;
      const { heading, east, north } = row.mean;
      const [sine, cosine] = [Math.sin(angle), Math.cos(angle)];
      const mean = {
        ...row.mean,
        heading: wrapDirection(heading + angle),
        east: east * cosine + north * sine,
        north: north * cosine - east * sine,
      };
      return { ...row, mean };
    });
  }

  const between = (rows: readonly LegRow[]) =>
    agreementsOf(rows, statesOnBoard(rows, noCorrections, BOAT.computer))[0];

  it("keeps a shift of the wind in it out of the comparison", () => {
    const turn = summary.sailing.turns[tackTurn]!;
    const withShift = { ...summary.sailing, rows: shifted(summary.sailing.rows, turn.end, radians(15)) };
    const all = between(summary.sailing.rows);
    // where the turn counts, its shift does, far above rounding
    expect(Math.abs(between(withShift.rows).value - all.value)).toBeGreaterThan(radians(0.1));
    const leaveOut = { turns: [tackTurn] };
    const calm = between(sailingKept(summary.sailing, leaveOut).kept.rows);
    const gusty = between(sailingKept(withShift, leaveOut).kept.rows);
    expect(gusty.value).toBeCloseTo(calm.value, 9);
    expect(gusty.sd).toBeCloseTo(calm.sd, 9);
    expect(calm.contrasts).toBe(all.contrasts - 1);
  });

  it("keeps all rows, moves the answer, and is told in words", () => {
    const { answer, rows } = answerOf(summary, BOAT, { leaveOut: { turns: [tackTurn] } });
    expect(rows.map(({ start }) => start)).toEqual(whole.rows.map(({ start }) => start));
    expect(answer.fit).not.toEqual(whole.answer.fit);
    expect(answer.words.notes.join()).toMatch(/Left out at your wish: the tack at \d\d:\d\d UTC/);
    const { recording } = answer;
    const days = { ...answer, recording: { ...recording, end: recording.start + 2 * 86_400 } };
    expect(leftOutWords(days).join()).toMatch(/the tack at \d{4}-\d\d-\d\d \d\d:\d\d UTC/);
  });

  it("leaves nothing to answer with where all of them are", () => {
    const turns = [...summary.sailing.turns.keys()];
    const { answer } = answerOf(summary, BOAT, { leaveOut: { turns } });
    expect(answer.fit.status === "unsolved" && answer.fit.reason).toMatch(/fewer than two are not left out/);
    expect(answer.words.notes.join()).toMatch(/Left out at your wish/);
  });
});
