/**
 * Troubles that show only against the other sensors (M94, M95) are found with their times and sizes; healthy sails are left as they are.
 * INPUTS: simulated sails of which the troubles are known.
 * MARGIN: times to two minutes (rows are half a minute, and stop for a minute or so about each turn), of a vane to
 * the next close-hauled leg; sizes to a third, of which half is the standard deviation that the wander of current and wind leaves.
 */
import { describe, expect, it } from "vitest";
import { sailingWithoutSteps } from "../../packages/core/src/fit/stepTroubles.ts";
import { strongestStep } from "../../packages/core/src/fit/troubleScan.ts";
import type { ScenarioOptions } from "../../packages/core/src/simulate/drawScenario.ts";
import type { SensorTrouble } from "../../packages/core/src/simulate/sensorTroubles.ts";
import { radians } from "../../packages/core/src/units.ts";
import { normals } from "../support/normals.ts";
import { sinceStart, troubledSail } from "../support/troubledSails.ts";

const MINUTES = 120;

/** Long enough for what happens within the first hour. */
const SHORT = { seconds: 6000 };

function found(seed: number, trouble: SensorTrouble, options: ScenarioOptions = {}) {
  const seen = troubledSail(seed, [trouble], options);
  const cured = sailingWithoutSteps(seen.sailing);
  return { troubles: sinceStart(seen, cured.troubles), cured, seen };
}

describe("a step against the other sensors", () => {
  it("of a fouled wheel is told with its share, and left out", () => {
    const { troubles, cured, seen } = found(
      8101,
      { kind: "fouled", share: 0.85, at: 3000, seconds: 780 },
      SHORT,
    );
    expect(troubles).toMatchObject([{ kind: "fouled", channel: "stw", remedy: "rows left out" }]);
    expect(Math.abs(troubles[0]!.start - 3000)).toBeLessThan(MINUTES);
    expect(Math.abs(troubles[0]!.end - 3780)).toBeLessThan(MINUTES);
    expect(Math.abs(1 - troubles[0]!.size - 0.15)).toBeLessThan(0.05);
    const start = seen.sail.scenario.start;
    const within = cured.rows.filter((row) => row.start >= start + 3100 && row.start < start + 3700);
    expect(within).toEqual([]);
  });

  it("of a fouled wheel is found where GPS is silent at its beginning", () => {
    const { troubles, seen } = found(
      9102,
      { kind: "fouled", share: 0.7, at: 3000, seconds: 2400 },
      { seconds: 7200 },
    );
    const start = seen.sail.scenario.start + 3000;
    const near = seen.sailing.rows.filter((row) => Math.abs(row.start - start) < 130);
    expect(near.some(({ mean }) => Number.isNaN(mean.east))).toBe(true);
    expect(troubles).toMatchObject([{ kind: "fouled", channel: "stw" }]);
  });

  it("of a compass thrown for a quarter of an hour is told with its angle", () => {
    const { troubles } = found(
      8103,
      {
        kind: "turned",
        sensor: "compass",
        angle: radians(-8),
        at: 3000,
        seconds: 900,
      },
      SHORT,
    );
    expect(troubles).toMatchObject([{ kind: "turned", channel: "heading", remedy: "rows left out" }]);
    expect(Math.abs(troubles[0]!.start - 3000)).toBeLessThan(MINUTES);
    expect(Math.abs(troubles[0]!.end - 3900)).toBeLessThan(MINUTES);
    expect(Math.abs(troubles[0]!.size - radians(-8))).toBeLessThan(radians(2.7));
  });

  it("of a vane knocked for good leaves the longer side", () => {
    const { troubles, cured } = found(8102, {
      kind: "turned",
      sensor: "vane",
      angle: radians(7),
      at: 5600,
      seconds: 9000,
    });
    expect(troubles).toMatchObject([{ kind: "turned", channel: "awa" }]);
    expect(Math.abs(troubles[0]!.size - radians(7))).toBeLessThan(radians(2.3));
    expect(troubles[0]!.start).toBeLessThan(5600);
    expect(troubles[0]!.end).toBeGreaterThan(8500);
    expect(cured.rows.length).toBeGreaterThan(100);
  });

  it("of a heel sensor knocked early is told by what was before, and set right there", () => {
    const { troubles, cured, seen } = found(8105, {
      kind: "turned",
      sensor: "heel",
      angle: radians(-6),
      at: 3600,
      seconds: 9000,
    });
    expect(troubles).toMatchObject([{ kind: "turned", channel: "heel" }]);
    expect(Math.abs(troubles[0]!.size - radians(6))).toBeLessThan(radians(2));
    expect(troubles[0]!.start).toBeLessThan(400);
    expect(Math.abs(troubles[0]!.end - 3600)).toBeLessThan(900);
    expect(troubles[0]!.remedy).toBe("set right");
    const row = cured.rows.find(({ start }) => start > seen.sail.scenario.start + 2000)!;
    const before = seen.sailing.rows.find(({ start }) => start === row.start)!;
    expect(before.mean.heel - row.mean.heel).toBeCloseTo(troubles[0]!.size, 12);
  });
});

describe("healthy sails", () => {
  it.each([8201, 8202])("stay the very same (seed %i)", (seed) => {
    const { sailing } = troubledSail(seed, []);
    expect(sailingWithoutSteps(sailing)).toBe(sailing);
  });

  it("without GPS have no word on wheel and compass", () => {
    const { sailing } = troubledSail(8101, [{ kind: "fouled", share: 0.85, at: 3000, seconds: 780 }], {
      ...SHORT,
      without: ["gps"],
    });
    expect(sailingWithoutSteps(sailing)).toBe(sailing);
  });
});

describe("the scan (M94)", () => {
  const rows = 120;
  const normal = normals(5);
  const noise = Float64Array.from({ length: rows }, () => 0.2 * normal());
  const column = (of: (row: number) => number) => Float64Array.from({ length: rows }, (_, row) => of(row));
  const side = column((row) => (row % 20 < 10 ? 1 : -1));
  const scan = (step: (row: number) => number, eitherTack = false) =>
    strongestStep({
      series: [
        {
          times: column((row) => 30 * row + 15),
          durations: column(() => 30),
          variances: column(() => 0.04),
          model: { slow: 0.001, fast: 0.02, fastSeconds: 25 },
          values: noise.map((value, row) => value + step(row)),
          faults: [column(() => 1)],
          trouble: eitherTack ? side.map((one) => (one > 0 ? 1 : 0)) : column(() => 1),
          ...(eitherTack ? { onOtherTack: side.map((one) => (one < 0 ? 1 : 0)) } : {}),
        },
      ],
      faultSds: [10],
      leastRows: 3,
      leastSize: 0,
    });
  const between = (row: number, first: number, end: number) => (row >= first && row < end ? 1 : 0);

  it.each([false, true])("finds the stretch and the size of a step in noise", (eitherTack) => {
    const step = scan((row) => between(row, 40, 65), eitherTack)!;
    expect([step.first, step.end]).toEqual([40, 65]);
    expect(step.size).toBeCloseTo(1, 0);
    expect(step.gain).toBeGreaterThan(40);
  });

  it("gains no more from noise than the highest of so many looks", () => {
    // 7,000 stretches: the largest of so many independent χ²₁ would lie near 2 ln 7000 = 18
    expect(scan(() => 0)!.gain).toBeLessThan(18);
  });

  it("takes nothing for trouble that one tack shows alone, or both in opposite directions", () => {
    const alone = scan((row) => Math.max(0, side[row]!) * between(row, 40, 80), true);
    expect(alone?.gain ?? 0).toBeLessThan(18);
    const opposite = scan((row) => side[row]! * between(row, 40, 80), true);
    expect(opposite?.gain ?? 0).toBeLessThan(18);
  });
});
