/**
 * Sensors that freeze, stop or strike wildly are found, told with their times, and in no row any more (M90 to M93).
 * INPUTS: simulated sails of which the troubles are known; a healthy one.
 * MARGIN: 6 s of the times, the longest damping, lag and bridging of the simulated instruments; sizes to the rounding of the log.
 */
import { describe, expect, it } from "vitest";
import { mergedSailing } from "../../packages/core/src/sailing/mergedSailing.ts";
import { byChannel, type SecondsBlock } from "../../packages/core/src/sailing/series.ts";
import { burstsIn } from "../../packages/core/src/sailing/straySeconds.ts";
import { SailingSummary, summariseSailing } from "../../packages/core/src/sailing/summary.ts";
import type { WatchedChannel } from "../../packages/core/src/sailing/trouble.ts";
import type { SensorTrouble, TroubledSensor } from "../../packages/core/src/simulate/sensorTroubles.ts";
import { radians } from "../../packages/core/src/units.ts";
import { troubledSail } from "../support/troubledSails.ts";

const SHORT = { seconds: 2400, motoring: false } as const;
const [AT, SECONDS, EDGE] = [1000, 420, 6];

const frozen = (sensor: TroubledSensor): SensorTrouble => ({
  kind: "frozen",
  sensor,
  at: AT,
  seconds: SECONDS,
});

const CHANNEL_OF: readonly (readonly [TroubledSensor, WatchedChannel])[] = [
  ["vane", "awa"],
  ["anemometer", "aws"],
  ["paddle", "stw"],
  ["compass", "heading"],
  ["heel", "heel"],
];

function overlaps(row: { start: number; duration: number }, start: number, end: number): boolean {
  return row.start < end && row.start + row.duration > start;
}

describe("a frozen sensor", () => {
  it.each(CHANNEL_OF)("is found from its %s to its end, in channel %s", (sensor, channel) => {
    const { found, sailing, sail } = troubledSail(6000, [frozen(sensor)], SHORT);
    expect(found.map(({ kind, channel: where, remedy }) => [kind, where, remedy])).toEqual([
      ["frozen", channel, "rows left out"],
    ]);
    expect(Math.abs(found[0]!.start - AT)).toBeLessThan(EDGE);
    expect(Math.abs(found[0]!.end - AT - SECONDS)).toBeLessThan(EDGE);
    const from = sail.scenario.start + AT;
    expect(sailing.rows.some((row) => overlaps(row, from, from + SECONDS))).toBe(false);
    expect(sailing.rows.every(({ leg }) => sailing.legs[leg] !== undefined)).toBe(true);
    expect(new Set(sailing.rows.map(({ leg }) => leg)).size).toBe(sailing.legs.length);
  });

  it("that never works is left out alone, and the rows stay", () => {
    const dead: SensorTrouble = { kind: "frozen", sensor: "heel", at: 60, seconds: 9000 };
    const { found, sailing } = troubledSail(6000, [dead], SHORT);
    expect(found).toMatchObject([{ kind: "frozen", channel: "heel", remedy: "channel left out" }]);
    expect(sailing.rows.length).toBeGreaterThan(30);
    expect(sailing.rows.every(({ mean }) => Number.isNaN(mean.heel))).toBe(true);
  });
});

describe("a wheel that stops", () => {
  it("is told from a boat that stops", () => {
    const { found } = troubledSail(6000, [{ kind: "fouled", share: 0, at: AT, seconds: SECONDS }], SHORT);
    expect(found).toMatchObject([{ kind: "stopped", channel: "stw", size: 0 }]);
    expect(Math.abs(found[0]!.start - AT)).toBeLessThan(EDGE);
  });
});

describe("bursts of bad readings", () => {
  const bursts: SensorTrouble = {
    kind: "bursts",
    sensor: "vane",
    every: 60,
    lasting: 5,
    angle: radians(30),
    factor: 1,
    at: 600,
    seconds: 1500,
  };

  it("are told as one spell, and their seconds are in no row", () => {
    const { found, sailing } = troubledSail(6000, [bursts], SHORT);
    const plain = troubledSail(6000, [], SHORT).sailing;
    expect(found).toMatchObject([{ kind: "spikes", channel: "awa", remedy: "seconds left out" }]);
    expect(found[0]!.size).toBe(sailing.rows.reduce((sum, { strays = [] }) => sum + strays.length, 0));
    for (const row of sailing.rows.filter(({ strays }) => strays !== undefined)) {
      const healthy = plain.rows.find(({ start }) => start === row.start)!;
      // 25 s of a mean of 30 s, in a wind that turns by some 5°
      expect(Math.abs(row.mean.awa - healthy.mean.awa)).toBeLessThan(radians(1.5));
    }
  });

  it("need four seconds, and no more than a quarter of the row", () => {
    const seconds = Array.from({ length: 30 }, (_, second) => second);
    const away = (count: number) =>
      burstsIn(seconds, (channel, second) => (channel === "stw" ? (second < count ? 5 : 3) : Number.NaN));
    expect([3, 4, 7, 8].map((count) => away(count).length)).toEqual([0, 4, 7, 0]);
  });
});

const part = (block: SecondsBlock, from: number, to: number): SecondsBlock => {
  const time = block.time.slice(from, to);
  const columns = byChannel((channel) => block.columns[channel].slice(from, to));
  return { length: time.length, time, headingIsTrue: block.headingIsTrue, columns };
};

describe("what is found", () => {
  const { blocks, sailing } = troubledSail(6000, [frozen("vane"), frozen("paddle")], SHORT);

  it("does not depend on how the seconds are cut", () => {
    const cut = blocks.flatMap((block) =>
      Array.from({ length: Math.ceil(block.length / 47) }, (_, place) =>
        part(block, 47 * place, 47 * (place + 1)),
      ),
    );
    expect(summariseSailing(cut)).toEqual(sailing);
  });

  it("is the same from two files, in any order", () => {
    const parts = [blocks.slice(0, 4), blocks.slice(4)].map((some) => {
      const summary = new SailingSummary();
      for (const block of some) summary.push(block);
      return summary.finish();
    });
    expect(mergedSailing([...parts].reverse())).toEqual(mergedSailing(parts));
    const channels = (troubles: typeof sailing.troubles) => new Set(troubles.map(({ channel }) => channel));
    expect(channels(mergedSailing(parts).troubles)).toEqual(channels(sailing.troubles));
  });

  it("is nothing on a healthy sail, whose rows stay as they are", () => {
    const healthy = troubledSail(6000, [], SHORT);
    expect(healthy.found).toEqual([]);
    expect(healthy.sailing.rows.every((row) => !("strays" in row))).toBe(true);
  });
});
