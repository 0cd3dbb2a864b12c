/**
 * Lags between sensors (M36): put into a scripted sail by delaying its channels, and to be found again.
 * MARGIN: 0.3 s, a third of the sampling interval, since the peak is interpolated between whole seconds.
 */
import { describe, expect, it } from "vitest";
import { LagShifter } from "../../packages/core/src/sailing/lagShifter.ts";
import { LagEstimator, type Lags, windIsMirrored } from "../../packages/core/src/sailing/lags.ts";
import { byChannel, type SecondsBlock } from "../../packages/core/src/sailing/series.ts";
import { scriptedSail } from "../support/scriptedSail.ts";

const beat = scriptedSail({
  from: 20,
  wind: 12,
  steps: Array.from({ length: 16 }, (_, index) => ({ heading: index % 2 === 0 ? 65 : -25, hold: 90 })),
}).block;

/** The block with some channels shown some seconds late. */
function delayed(block: SecondsBlock, lags: Partial<Record<string, number>>): SecondsBlock {
  return {
    ...block,
    columns: byChannel((channel) => {
      const column = block.columns[channel];
      return column.map((_, index) => column[Math.max(0, index - (lags[channel] ?? 0))]!);
    }),
  };
}

function lagsOf(block: SecondsBlock): Lags {
  const estimator = new LagEstimator();
  estimator.push(block);
  return estimator.lags();
}

/** Pieces of a block, of a length. */
function pieces(block: SecondsBlock, length: number): SecondsBlock[] {
  return Array.from({ length: Math.ceil(block.length / length) }, (_, piece) => {
    const [from, to] = [piece * length, Math.min(block.length, (piece + 1) * length)];
    return {
      length: to - from,
      time: block.time.slice(from, to),
      headingIsTrue: block.headingIsTrue,
      columns: byChannel((channel) => block.columns[channel].slice(from, to)),
    };
  });
}

const none = { seconds: Number.NaN, correlation: Number.NaN, turns: 0 };

describe("lags between sensors (M36)", () => {
  const late = { awa: 2, aws: 2, east: 5, north: 5, heel: 3, stw: 4 };

  it("finds what was put in, behind what the boat itself has", () => {
    const [before, after] = [lagsOf(beat), lagsOf(delayed(beat, late))];
    expect(Math.abs(before.wind.seconds)).toBeLessThan(0.3);
    expect(Math.abs(before.course.seconds)).toBeLessThan(0.3);
    expect(Math.abs(after.wind.seconds - before.wind.seconds - 2)).toBeLessThan(0.3);
    expect(Math.abs(after.course.seconds - before.course.seconds - 5)).toBeLessThan(0.3);
    expect(Math.abs(after.heel.seconds - before.heel.seconds - 3)).toBeLessThan(0.3);
    expect(Math.abs(after.speed.seconds - before.speed.seconds - 4)).toBeLessThan(0.3);
  });

  it("tells a wind angle that has port and starboard swapped (M162)", () => {
    const isMirrored = (block: SecondsBlock): boolean => {
      const estimator = new LagEstimator();
      estimator.push(block);
      return windIsMirrored([estimator.part]);
    };
    const mirrored = { ...beat, columns: { ...beat.columns, awa: beat.columns.awa.map((angle) => -angle) } };
    expect([beat, delayed(beat, late), mirrored, delayed(mirrored, late)].map(isMirrored)).toEqual([
      false,
      false,
      true,
      true,
    ]);
    expect(windIsMirrored([])).toBe(false);
  });

  it("finds a compass that is behind everything else", () => {
    const { wind, course } = lagsOf(delayed(beat, { heading: 3 }));
    expect(Math.abs(wind.seconds + 3)).toBeLessThan(0.3);
    expect(Math.abs(course.seconds + 3)).toBeLessThan(0.3);
  });

  it("counts from the course over ground where there is no compass", () => {
    const blind = {
      ...beat,
      columns: { ...beat.columns, heading: beat.columns.heading.map(() => Number.NaN) },
    };
    const { wind, course } = lagsOf(delayed(blind, { awa: 2, aws: 2 }));
    expect(course.seconds).toBe(0);
    expect(Math.abs(wind.seconds - 2)).toBeLessThan(0.3);
  });

  it("says NaN where the boat did not turn", () => {
    const straight = scriptedSail({ from: 20, wind: 12, steps: [{ heading: 65, hold: 1200 }] }).block;
    const { wind, course, heel } = lagsOf(straight);
    expect([wind.seconds, course.seconds, heel.seconds]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
  });

  it("gives the same lags however the seconds come", () => {
    const estimator = new LagEstimator();
    for (const piece of pieces(beat, 37)) estimator.push(piece);
    expect(estimator.lags()).toEqual(lagsOf(beat));
  });
});

describe("channels put in step (M36)", () => {
  const lags: Lags = {
    wind: { ...none, seconds: 2 },
    course: { ...none, seconds: 5 },
    heel: none,
    speed: { ...none, seconds: -1 },
  };

  it("undoes a delay, and leaves what has no known lag", () => {
    const shifter = new LagShifter(lags);
    const late = delayed(beat, { awa: 2, aws: 2, east: 5, north: 5 });
    const blocks = [...pieces(late, 101).map((piece) => shifter.push(piece)), shifter.finish()];
    const column = (name: "awa" | "east" | "heel") => blocks.flatMap((block) => [...block.columns[name]]);
    expect(blocks.flatMap((block) => [...block.time])).toEqual([...beat.time]);
    const inner = (values: ArrayLike<number>) => Array.from(values).slice(10, -10);
    expect(inner(column("awa"))).toEqual(inner(beat.columns.awa));
    expect(inner(column("east"))).toEqual(inner(beat.columns.east));
    expect(column("heel")).toEqual([...beat.columns.heel]);
  });

  it("goes between whole seconds by the straight line, the short way round", () => {
    const block: SecondsBlock = {
      length: 3,
      time: Float64Array.of(0, 1, 2),
      headingIsTrue: true,
      columns: byChannel((channel) => Float64Array.of(...(channel === "awa" ? [3.1, -3.1, -3] : [0, 1, 2]))),
    };
    const shifter = new LagShifter({ ...lags, wind: { ...none, seconds: 0.5 } });
    shifter.push(block);
    const { awa, aws } = shifter.finish().columns;
    expect(Math.abs(awa[0]!)).toBeCloseTo(Math.PI, 12);
    expect([...aws]).toEqual([0.5, 1.5, Number.NaN]);
  });

  it("refuses a lag that it cannot hold", () => {
    expect(() => new LagShifter({ ...lags, wind: { ...none, seconds: 60 } })).toThrow(RangeError);
  });
});
