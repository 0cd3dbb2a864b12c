/**
 * Long work lets others have their turn.
 *
 * INPUTS: a simulated sail; expected is the answer that comes in one go, bit for bit.
 * MARGIN: none; a pause is counted, not timed.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { answerInTurns, answerOf } from "../../packages/core/src/job/answerOf.ts";
import { calibrateLogs } from "../../packages/core/src/job/calibrateLogs.ts";
import { type LogsSummary, summariseLogs } from "../../packages/core/src/job/summariseLogs.ts";
import { goodLog } from "../support/boatLogs.ts";

async function* chunksOf(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += 65_536) yield bytes.subarray(at, at + 65_536);
}

describe("an answer in turns", () => {
  const { name, bytes } = goodLog();
  const log = {
    name,
    bytes: bytes.length,
    chunks: { [Symbol.asyncIterator]: () => chunksOf(bytes) },
  };
  let summary: LogsSummary;
  beforeAll(async () => {
    summary = await summariseLogs([log], UNKNOWN_BOAT);
  });

  it("is the answer in one go, with progress that never goes back and timers that run in between", async () => {
    const shares: number[] = [];
    let ticks = 0;
    const clock = setInterval(() => {
      ticks += 1;
    }, 1);
    const progress = (what: string, share: number) => {
      expect(what).toBe("fitting");
      shares.push(share);
    };
    const inTurns = await answerInTurns(summary, UNKNOWN_BOAT, {}, { progress });
    clearInterval(clock);
    expect(inTurns).toEqual(answerOf(summary, UNKNOWN_BOAT));
    // a crowded machine lets timers run in few of its turns; without turns they run in none
    expect(ticks).toBeGreaterThan(3);
    expect(shares.length).toBeGreaterThan(8);
    expect(shares).toEqual(shares.toSorted((one, other) => one - other));
    expect(shares.at(-1)).toBe(1);
  });

  it("hears an abort while it fits", async () => {
    const controller = new AbortController();
    let shares = 0;
    const progress = () => {
      shares += 1;
      if (shares === 3) setTimeout(() => controller.abort(new Error("enough")), 0);
    };
    const run = { progress, signal: controller.signal };
    await expect(answerInTurns(summary, UNKNOWN_BOAT, {}, run)).rejects.toThrow("enough");
    expect(shares).toBeLessThan(8);
  });

  it("is what calibrateLogs waits for: an abort set off by a timer is heard there too", async () => {
    const controller = new AbortController();
    const heard: string[] = [];
    const progress = (what: string) => {
      if (heard.at(-1) !== what) heard.push(what);
      if (what === "fitting") setTimeout(() => controller.abort(new Error("enough")), 0);
    };
    const run = { progress, signal: controller.signal };
    await expect(calibrateLogs([log], UNKNOWN_BOAT, run)).rejects.toThrow("enough");
    expect(heard.at(-1)).toBe("fitting");
  });
});
