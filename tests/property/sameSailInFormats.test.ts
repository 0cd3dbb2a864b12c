/**
 * One sail, written in three formats, is one sail: a simulated log as NMEA 0183, and its readings as NMEA 2000 frames and as
 * Signal K deltas.
 */
import { describe, expect, it } from "vitest";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { summariseLogs } from "../../packages/core/src/job/summariseLogs.ts";
import type { LegRow, MomentChannel } from "../../packages/core/src/sailing/legRow.ts";
import { Bench } from "../../packages/notebooks/src/boat/bench.ts";
import { inThisThread } from "../../packages/notebooks/src/boat/holding.ts";
import { logsOfFiles } from "../../packages/notebooks/src/boat/logsOfFiles.ts";
import { fileOf, goodLog, oneTackLog } from "../support/boatLogs.ts";
import { agrees } from "../support/published.ts";
import { deltasOf, framesOf } from "../support/sameReadings.ts";
import { wholeLog } from "../support/wholeLog.ts";

/** The first twenty minutes of a sail. */
const log = goodLog().bytes;
const part = log.subarray(0, log.lastIndexOf(0x0a, 0.4 * log.length) + 1);
const whole = wholeLog(part);
const summaryOf = (name: string, text: string | Buffer) =>
  summariseLogs(logsOfFiles([fileOf({ name, bytes: Buffer.from(text) })]), UNKNOWN_BOAT);

/** Fields count in 0.0001 rad and 0.01 m/s; the lags found from such readings are others by hundredths of a second. */
const ROUNDING: Readonly<Record<MomentChannel, number>> = {
  awa: 3e-4,
  aws: 0.01,
  stw: 0.01,
  heading: 3e-4,
  heel: 3e-4,
  east: 0.01,
  north: 0.01,
};

function expectSameRow(row: LegRow, expected: LegRow, within: (channel: MomentChannel) => number): void {
  expect({ ...row, covariance: [], autocovariance: [] }).toMatchObject({
    leg: expected.leg,
    kind: expected.kind,
    tack: expected.tack,
    start: expected.start,
    duration: expected.duration,
    count: expected.count,
  });
  for (const channel of Object.keys(ROUNDING) as readonly MomentChannel[])
    agrees(
      row.mean[channel],
      expected.mean[channel],
      within(channel),
      "what a field of the format counts in",
    );
}

describe("a sail", () => {
  it("has the same legs and rows in all of them", async () => {
    const [sentences, frames, deltas] = await Promise.all([
      summaryOf("log.nmea", part),
      summaryOf("log.candump", framesOf(whole)),
      summaryOf("log.jsonl", deltasOf(whole)),
    ]);
    const { rows, legs, turns } = sentences.sailing;
    expect(rows.length).toBeGreaterThan(20);
    for (const [other, within] of [
      [deltas, () => 1e-9],
      [frames, (channel: MomentChannel) => ROUNDING[channel]],
    ] as const) {
      expect(other.recording.lines.problems).toBe(0);
      expect(other.sailing.legs.map(({ start, end }) => [start, end])).toEqual(
        legs.map(({ start, end }) => [start, end]),
      );
      expect(other.sailing.turns.map(({ kind }) => kind)).toEqual(turns.map(({ kind }) => kind));
      expect(other.sailing.rows).toHaveLength(rows.length);
      other.sailing.rows.forEach((row, index) => {
        expectSameRow(row, rows[index]!, within);
      });
    }
  });
});

describe("the page Your boat", () => {
  const oneTack = wholeLog(oneTackLog().bytes);

  it.each([
    ["frames", framesOf(oneTack)],
    ["deltas", deltasOf(oneTack)],
  ])("takes %s, and refuses one tack in words", async (name, text) => {
    const bench = new Bench(inThisThread());
    await bench.open([fileOf({ name, bytes: Buffer.from(text) })]);
    const answer = bench.state.answered?.calibrated.answer;
    expect(answer?.fit.status === "unsolved" && answer.fit.reason).toMatch(/all on starboard tack/);
    expect(answer?.recording.lines.problems).toBe(0);
  });
});
