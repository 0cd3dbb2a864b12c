/**
 * Deviation from headings whose true value is known (M124, M125).
 * INPUTS: circles drawn here from known coefficients; the handbook's table (datasets/published/compassDeviation.json).
 * MARGIN: as each says.
 */
import { describe, expect, it } from "vitest";
import data from "../../datasets/published/compassDeviation.json" with { type: "json" };
import { circleFromBearings, deviationTable } from "../../packages/core/src/fit/circleFromBearings.ts";
import { circleMisfit } from "../../packages/core/src/judge/circleMisfit.ts";
import { variationFromChart } from "../../packages/core/src/physics/chartVariation.ts";
import { deviation } from "../../packages/core/src/sensors/compass.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { degrees, radians } from "../../packages/core/src/units.ts";
import { agrees, published } from "../support/published.ts";

const NONE = { a: 0, b: 0, c: 0, d: 0, e: 0, heelingError: 0 };
const options = { deviation: radians(0.7), common: radians(0.5) };
const around = (count: number): readonly number[] =>
  Array.from({ length: count }, (_, index) => (2 * Math.PI * index) / count);

const circle = (headings: readonly number[], series = NONE, error: () => number = () => 0) =>
  headings.map((compass) => ({ compass, magnetic: compass + deviation(compass, 0, series) + error() }));

describe("a circle", () => {
  published("the eight points' table lies within its own intervals", data.source, () => {
    const found = circleFromBearings(
      data.headingDeg.map((heading, at) => ({
        compass: radians(heading),
        magnetic: radians(heading + data.deviationDeg[at]!),
      })),
      options,
    );
    if (found.status === "unsolved") throw new Error(found.reason);
    for (const { heading, deviation: told } of deviationTable(found, 15)) {
      const at = data.headingDeg.indexOf(Math.round(degrees(heading)));
      if (at >= 0) agrees(degrees(told), data.deviationDeg[at]!, 0.15, "what five terms leave of the table");
    }
    expect(circleMisfit(found)).toMatchObject({ beyondSeries: false, tooLarge: false });
  });

  it("has intervals that hold 93 to 97 in 100 with eight headings", () => {
    const { normal } = randomNumbers(125, 0);
    const [trials, held] = [400, { a: 0, b: 0, d: 0, table: 0 }];
    for (let trial = 0; trial < trials; trial++) {
      const series = {
        ...NONE,
        a: radians(normal()),
        b: radians(2 * normal()),
        c: radians(2 * normal()),
        d: radians(normal()),
      };
      const freedom = [0, 0, 0, 0].reduce((sum) => sum + normal() ** 2, 0);
      const scatter = options.deviation * Math.sqrt(4 / freedom);
      const common = options.common * normal();
      const found = circleFromBearings(
        circle(around(8), series, () => common + scatter * normal()),
        options,
      );
      if (found.status === "unsolved") throw new Error(found.reason);
      for (const term of ["a", "b", "d"] as const)
        if (Math.abs(found.series[term] - series[term]) < found.halves[term]) held[term]++;
      const told = deviationTable(found, 15)[3]!;
      const truth = deviation(told.heading, 0, series) + common;
      if (Math.abs(told.deviation - truth) < told.half) held.table++;
    }
    for (const count of Object.values(held)) {
      expect(count / trials).toBeGreaterThan(0.93);
      expect(count / trials).toBeLessThan(0.98);
    }
  });

  it("puts what all headings share into A alone", () => {
    const [small, large] = [0, 2].map((common) =>
      circleFromBearings(circle(around(8)), { ...options, common: radians(common) }),
    );
    if (small?.status !== "solved" || large?.status !== "solved") throw new Error("unsolved");
    expect(large.halves.a).toBeGreaterThan(1.96 * radians(2));
    expect(large.halves.b).toBe(small.halves.b);
    const turning = { rate: radians(2), bothWays: false };
    const turned = circleFromBearings(circle(around(8)), { ...options, turning });
    if (turned.status !== "solved") throw new Error("unsolved");
    expect(turned.halves.a).toBeGreaterThan(small.halves.a);
  });

  it("tells a compass that five terms do not describe", () => {
    const tilted = around(16).map((compass) => ({
      compass,
      magnetic: compass + radians(4) * Math.sin(3 * compass),
    }));
    const found = circleFromBearings(tilted, options);
    if (found.status === "unsolved") throw new Error(found.reason);
    expect(circleMisfit(found).beyondSeries).toBe(true);
  });
});

describe("what cannot be answered is refused", () => {
  const refused = (headings: readonly number[], turning?: { rate: number; bothWays: boolean }) => {
    const found = circleFromBearings(circle(headings), turning ? { ...options, turning } : options);
    return found.status === "unsolved" ? found.reason : "solved";
  };
  it("one heading, four points, half a circle, a circle sailed too fast", () => {
    expect(refused([1, 1.01, 1.02, 1, 1, 1.01])).toBe("one heading");
    expect(refused([...around(4), ...around(4)])).toBe("too few headings");
    expect(refused([0, 0.5, 1, 1.5, 2, 2.5])).toBe("not all round");
    expect(refused(around(8), { rate: radians(6), bothWays: true })).toBe("too fast");
    expect(refused(around(8), { rate: radians(1.5), bothWays: true })).toBe("solved");
  });
});

it("carries a chart's variation on by its annual change", () => {
  const rose = { variation: radians(-3), year: 2020, annualChange: radians(9 / 60) };
  const found = variationFromChart(rose, Date.UTC(2030, 6, 2) / 1000);
  agrees(degrees(found.variation), -1.5, 0.001, "ten years of 9', the day within the year aside");
  agrees(degrees(found.deviation), Math.hypot(0.25, 5 / 60), 0.001, "likewise");
});
