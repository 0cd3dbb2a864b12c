/**
 * A compass that jumps as no boat turns is found to the second, GPS or not (M90); turns are no jumps.
 * INPUTS: simulated sails of which the troubles are known; jumps written down by hand.
 * MARGIN: 3 s of the times, the lag and damping of the simulated compass; 6° of the size, for the boat yaws and turns on meanwhile.
 */
import { describe, expect, it } from "vitest";
import { thrownCompass } from "../../packages/core/src/sailing/headingJumps.ts";
import type { SensorTrouble } from "../../packages/core/src/simulate/sensorTroubles.ts";
import { radians } from "../../packages/core/src/units.ts";
import { troubledSail } from "../support/troubledSails.ts";

const thrown: SensorTrouble = {
  kind: "turned",
  sensor: "compass",
  angle: radians(-40),
  at: 1000,
  seconds: 400,
};

describe("a compass thrown by 40°", () => {
  it.each([{}, { without: ["gps"] as const }])("is found by its jumps %o", (options) => {
    const { found, sailing, sail } = troubledSail(8602, [thrown], {
      seconds: 2400,
      motoring: false,
      ...options,
    });
    expect(found).toMatchObject([{ kind: "turned", channel: "heading", remedy: "rows left out" }]);
    expect(Math.abs(found[0]!.start - 1000)).toBeLessThan(3);
    expect(Math.abs(found[0]!.end - 1400)).toBeLessThan(3);
    expect(Math.abs(found[0]!.size - radians(-40))).toBeLessThan(radians(6));
    const from = sail.scenario.start + 1000;
    expect(sailing.rows.some(({ start }) => start >= from && start < from + 390)).toBe(false);
  });
});

describe("a jump", () => {
  const jump = (second: number, degrees: number, besideCourse = false) => ({
    second,
    by: radians(degrees),
    besideCourse,
  });
  const spans = (...jumps: readonly ReturnType<typeof jump>[]) => {
    const { troubles, strays } = thrownCompass(jumps, 0, 9000);
    return { long: troubles.map(({ start, end }) => [start, end]), strays: strays.length };
  };

  it("and the one that takes it back hold a spell between them, of which a short one is a burst", () => {
    expect(spans(jump(1000, 40), jump(1500, -38))).toEqual({ long: [[1000, 1501]], strays: 0 });
    expect(spans(jump(1000, 40), jump(1004, -38))).toEqual({ long: [], strays: 5 });
  });

  it("of a chain of which the first was missed is told from the others", () => {
    const chain = [jump(1005, -40), jump(1060, 40), jump(1065, -40), jump(1120, 40), jump(1125, -40)];
    expect(spans(...chain)).toEqual({ long: [], strays: 12 });
  });

  it("that none takes back leaves the longer side, or all to the course over ground", () => {
    expect(spans(jump(7000, 40)).long).toEqual([[7000, 9000]]);
    expect(spans(jump(2000, 40)).long).toEqual([[0, 2001]]);
    expect(spans(jump(7000, 40, true)).long).toEqual([]);
  });

  it("is seen in no tack or gybe", () => {
    const { sailing } = troubledSail(8603, []);
    expect(sailing.turns.length).toBeGreaterThan(15);
    expect(sailing.troubles).toEqual([]);
  });
});
