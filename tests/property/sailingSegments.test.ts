/**
 * Legs, turns and rows of scripted sails (M37 to M39), where the script says what the boat did.
 */
import { describe, expect, it } from "vitest";
import { wrapAngle } from "../../packages/core/src/angles.ts";
import { MOMENT_CHANNELS } from "../../packages/core/src/sailing/legRow.ts";
import { mergedSailing } from "../../packages/core/src/sailing/mergedSailing.ts";
import type { Sailing } from "../../packages/core/src/sailing/sailing.ts";
import { byChannel, type Channel, type SecondsBlock } from "../../packages/core/src/sailing/series.ts";
import { SailingSummary, summariseSailing } from "../../packages/core/src/sailing/summary.ts";
import { radians } from "../../packages/core/src/units.ts";
import { scriptedSail } from "../support/scriptedSail.ts";

const beatAndRun = scriptedSail({
  from: 0,
  wind: 12,
  steps: [
    { heading: 43, hold: 240 },
    { heading: -43, hold: 240 },
    { heading: 43, hold: 100 },
    { heading: 150, hold: 240 },
    { heading: 210, hold: 240, rate: 5 },
    { heading: 150, hold: 240, rate: 5 },
    { heading: 90, hold: 240 },
    { heading: 43, hold: 240 },
  ],
});

const motor = scriptedSail({
  from: 300,
  wind: 13,
  steps: [
    { heading: 300, hold: 240, engine: 6 },
    { heading: 300, hold: 20, circles: 2, rate: 3, engine: 6 },
    { heading: 300, hold: 20, circles: -2, rate: 4, engine: 6 },
    { heading: 120, hold: 120, engine: 6 },
    { heading: 345, hold: 300 },
    { heading: 257, hold: 300 },
    { heading: 345, hold: 300 },
    { heading: 70, hold: 300 },
    { heading: 20, hold: 300 },
  ],
});

const pieces = (block: SecondsBlock, length: number): SecondsBlock[] =>
  Array.from({ length: Math.ceil(block.length / length) }, (_, piece) =>
    part(block, piece * length, (piece + 1) * length),
  );

function part(block: SecondsBlock, from: number, to: number): SecondsBlock {
  const time = block.time.slice(from, to);
  const columns = byChannel((channel) => block.columns[channel].slice(from, to));
  return { length: time.length, time, headingIsTrue: block.headingIsTrue, columns };
}

const changed = (
  block: SecondsBlock,
  change: Partial<Record<Channel, (value: number) => number>>,
): SecondsBlock => ({
  ...block,
  columns: byChannel((channel) => block.columns[channel].map((value) => change[channel]?.(value) ?? value)),
});

const without = (block: SecondsBlock, ...names: readonly Channel[]): SecondsBlock =>
  changed(block, Object.fromEntries(names.map((name) => [name, () => Number.NaN])));

const kindsOf = ({ turns }: Sailing) => turns.map(({ kind }) => kind);

describe("turns (M37)", () => {
  const expected = ["tack", "tack", "other", "gybe", "gybe", "other", "other"];

  it("are found and told apart by compass", () => {
    expect(kindsOf(summariseSailing([beatAndRun.block]))).toEqual(expected);
  });

  it("are found by the course over ground without a compass", () => {
    expect(kindsOf(summariseSailing([without(beatAndRun.block, "heading")]))).toEqual(expected);
  });

  it("are found where only the wind angle can tell, if they are tacks", () => {
    const blind = without(beatAndRun.block, "heading", "east", "north");
    expect(kindsOf(summariseSailing([blind])).filter((kind) => kind === "tack")).toHaveLength(2);
  });

  it("change places port for starboard in a mirror", () => {
    const plain = summariseSailing([beatAndRun.block]);
    const flip = (value: number) => -value;
    const mirrored = summariseSailing([
      changed(beatAndRun.block, { awa: flip, heading: (value) => wrapAngle(-value), heel: flip, east: flip }),
    ]);
    expect(kindsOf(mirrored)).toEqual(kindsOf(plain));
    expect(mirrored.legs.map(({ tack }) => tack)).toEqual(
      plain.legs.map(({ tack }) => (tack === "port" ? "starboard" : "port")),
    );
    expect(mirrored.rows.map(({ start }) => start)).toEqual(plain.rows.map(({ start }) => start));
  });
});

describe("rows (M39)", () => {
  const { rows, legs } = summariseSailing([beatAndRun.block]);

  it("hold no turning second of a sailing boat, nor the 10 s after one", () => {
    for (const { start, duration } of rows) {
      const first = start - beatAndRun.start;
      const held = beatAndRun.instants.slice(Math.max(0, first - 10), first + duration);
      expect(held.some(({ turning }) => turning)).toBe(false);
    }
  });

  it("cover two thirds and more of the steady sailing between turns", () => {
    const steady = beatAndRun.instants.filter(({ turning }) => !turning).length;
    expect(rows.reduce((sum, { count }) => sum + count, 0)).toBeGreaterThan((2 / 3) * steady);
  });

  it("come in time order, belong to a leg of their tack and kind, and do not overlap", () => {
    rows.forEach((row, index) => {
      const leg = legs[row.leg]!;
      expect(leg).toMatchObject({ number: row.leg, kind: row.kind, tack: row.tack });
      expect(row.start >= leg.start && row.start + row.duration <= leg.end).toBe(true);
      const next = rows[index + 1];
      if (next !== undefined)
        expect(next.start >= row.start + row.duration && next.leg >= row.leg).toBe(true);
    });
  });

  it("hold the means and covariances of their seconds", () => {
    const row = rows[3]!;
    const { time, columns } = beatAndRun.block;
    const first = time.indexOf(row.start);
    const stw = [...columns.stw.slice(first, first + row.duration)];
    const aws = [...columns.aws.slice(first, first + row.duration)];
    expect(row.count).toBe(row.duration);
    const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    expect(row.mean.stw).toBeCloseTo(mean(stw), 12);
    const products = stw.map((value, index) => (value - mean(stw)) * (aws[index]! - mean(aws)));
    const at = MOMENT_CHANNELS.indexOf("stw") * MOMENT_CHANNELS.length + MOMENT_CHANNELS.indexOf("aws");
    expect(row.covariance[at]).toBeCloseTo((mean(products) * stw.length) / (stw.length - 1), 12);
    const logs = aws.map(Math.log);
    const pairs = logs
      .slice(0, -5)
      .map((value, index) => (value - mean(logs)) * (logs[index + 5]! - mean(logs)));
    expect(row.autocovariance[3 + 1]).toBeCloseTo(mean(pairs), 12);
    expect(row.variation).toBeCloseTo(radians(4), 12);
  });

  it("leave out a channel that the recording lacks", () => {
    const bare = summariseSailing([without(beatAndRun.block, "heel", "stw")]).rows[0]!;
    expect([bare.mean.heel, bare.mean.stw]).toEqual([Number.NaN, Number.NaN]);
    expect(bare.count).toBeGreaterThanOrEqual(15);
    expect(bare.mean.aws).toBeCloseTo(rows[0]!.mean.aws, 12);
  });
});

describe("motoring (M38)", () => {
  const { rows } = summariseSailing([motor.block]);
  const engineAt = (start: number) => motor.instants[start - motor.start]!.engine !== undefined;

  it("is found straight to windward and in circles, and nowhere else", () => {
    const motoring = rows.filter(({ kind }) => kind === "motoring");
    expect(motoring.filter(({ duration }) => duration > 15).length).toBeGreaterThanOrEqual(5);
    expect(motoring.filter(({ duration }) => duration <= 15).length).toBeGreaterThanOrEqual(20);
    expect(motoring.every(({ start }) => engineAt(start))).toBe(true);
  });

  it("is never taken for sailing", () => {
    expect(rows.filter(({ kind }) => kind === "sailing").some(({ start }) => engineAt(start))).toBe(false);
  });

  it("is told without a heel sensor too", () => {
    const bare = summariseSailing([without(motor.block, "heel")]).rows;
    expect(bare.every(({ kind, start }) => (kind === "motoring") === engineAt(start))).toBe(true);
  });

  it("with sails up is neither", () => {
    const beat = (heading: number) => ({ heading, hold: 180 });
    const { block, instants, start } = scriptedSail({
      from: 0,
      wind: 9,
      steps: [
        beat(42),
        beat(-42),
        { ...beat(38), engine: 7, sails: true },
        beat(-42),
        beat(42),
        beat(-42),
        beat(42),
      ],
    });
    const { rows } = summariseSailing([block]);
    expect(rows.some((row) => instants[row.start - start]!.engine !== undefined)).toBe(false);
    expect(rows.every(({ kind }) => kind === "sailing")).toBe(true);
    expect(rows.length).toBeGreaterThan(20);
  });

  it("is not seen in a boat that lies still, which does not sail either", () => {
    const moored = changed(motor.block, { stw: () => 0.1, east: () => 0.05, north: () => 0.05 });
    expect(summariseSailing([moored]).rows).toEqual([]);
  });
});

describe("the summary", () => {
  it("is the same, bit for bit, however the seconds come in blocks", () => {
    const whole = summariseSailing([motor.block]);
    expect(summariseSailing(pieces(motor.block, 1))).toEqual(whole);
    expect(summariseSailing(pieces(motor.block, 97))).toEqual(whole);
  });

  it("of two days is that of each, joined in time order", () => {
    const tomorrow = { ...motor.block, time: motor.block.time.map((time) => time + 86400) };
    const [first, second] = [beatAndRun.block, tomorrow].map((block) => {
      const summary = new SailingSummary();
      summary.push(block);
      return summary.finish();
    });
    const both = mergedSailing([second!, first!]);
    expect(both).toEqual(mergedSailing([first!, second!]));
    expect(both.legs.map(({ number }) => number)).toEqual(both.legs.map((_, index) => index));
    expect(both.legs.every(({ start }, index) => index === 0 || start >= both.legs[index - 1]!.end)).toBe(
      true,
    );
    expect(both.seconds.sailing + both.seconds.motoring + both.seconds.other).toBe(
      beatAndRun.block.length + motor.block.length,
    );
  });

  it("undoes the active settings second by second where it is told how", () => {
    const transform = (values: Float64Array) => {
      values[2]! *= 1.1;
    };
    const [plain, undone] = [
      summariseSailing([beatAndRun.block]),
      summariseSailing([beatAndRun.block], { transform }),
    ];
    expect(undone.rows).toHaveLength(plain.rows.length);
    undone.rows.forEach((row, index) => {
      expect(row.mean.stw).toBeCloseTo(1.1 * plain.rows[index]!.mean.stw, 9);
      expect(row.mean.aws).toBe(plain.rows[index]!.mean.aws);
    });
  });

  it("has no rows shorter than asked for", () => {
    const { rows } = summariseSailing([beatAndRun.block], { rowSeconds: 60, leastSeconds: 40 });
    expect(rows.every(({ count, duration }) => count >= 40 && duration <= 60)).toBe(true);
    expect(rows.length).toBeGreaterThan(0);
    expect(() => new SailingSummary({ rowSeconds: 10, leastSeconds: 20 })).toThrow(RangeError);
  });
});
