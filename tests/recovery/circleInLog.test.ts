/**
 * Deviation from a log of circles under power (M186).
 * INPUTS: motions made here from known coefficients; boats drawn from seeds 710000 to 710023, with faults and a sea that the fit does not know.
 * MARGIN: exact where no noise is; else the binomial of 95 %: of 120 numbers held 95 times in 100, fewer than 105 are once in 3,000 draws
 * were they independent (scipy 1.17.1, binom.cdf(104, 120, 0.95): 3.3e-4). Coverage by kind: scripts/exerciseCoverage.ts.
 */
import { describe, expect, it } from "vitest";
import { circleInLog } from "../../packages/core/src/fit/circleInLog.ts";
import { deviation, headingReadingOf } from "../../packages/core/src/sensors/compass.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { nearestSettings } from "../../packages/core/src/simulate/nearestSettings.ts";
import type { PlanStep } from "../../packages/core/src/simulate/scenario.ts";
import { degrees, radians } from "../../packages/core/src/units.ts";
import { circles, HEADINGS_HELD, motored } from "../support/circlesUnderPower.ts";
import { agrees } from "../support/published.ts";

const SERIES = {
  a: radians(2),
  b: radians(3),
  c: radians(-2),
  d: radians(1),
  e: radians(-0.5),
  heelingError: 0,
};
/** Half an hour round a course: to windward, across, and before the wind. */
const SAILED: readonly PlanStep[] = drawScenario(725_001, { seconds: 1800, motoring: false }).plan;

const TERMS = ["a", "b", "c", "d", "e"] as const;

/** A circle in four minutes in a current, sensed without noise; boat speed reads a tenth too little. */
const noiseless = (
  options: { readonly rate?: number; readonly seconds?: number; readonly variation?: number } = {},
) => {
  const { rate = 1.5, seconds = 480, variation = radians(4) } = options;
  return Array.from({ length: seconds }, (_, time) => {
    const heading = radians(rate * time);
    const reading = headingReadingOf(heading - variation, 0, SERIES);
    return {
      time,
      heading: reading,
      variation,
      stw: 2.7,
      east: 3 * Math.sin(heading) + 0.4,
      north: 3 * Math.cos(heading) - 0.3,
    };
  });
};

describe("a log of circles", () => {
  it("gives the coefficients, the current taken out and the boat speed's gain with it", () => {
    const found = circleInLog(noiseless());
    if (found.status === "unsolved") throw new Error(found.reason);
    for (const term of TERMS)
      agrees(
        degrees(found.series[term]),
        degrees(SERIES[term]),
        0.05,
        "the priors of gain and tide pull a little",
      );
    agrees(found.current, 0.5, 0.01, "likewise");
    agrees(degrees(found.at(1).deviation), degrees(deviation(1, 0, SERIES)), 0.05, "likewise");
    // one way at 1.5° a second: 1.96 · 1 s · 1.5° and the variation's own half degree, but for what the readings' own rates tell of the lag
    expect(degrees(found.halves.a)).toBeGreaterThan(0.95 * 1.96 * Math.hypot(1.5, 0.5));
    expect(found.turning).toBeCloseTo(radians(1.5), 6);
  });

  it("holds the coefficients of simulated boats within its intervals, whose sizes are of use", () => {
    let held = 0;
    for (let seed = 710_000; seed < 710_024; seed++) {
      const { faults, seconds } = motored(seed, circles(1, -1));
      const found = circleInLog(seconds);
      if (found.status === "unsolved") throw new Error(found.reason);
      const truth = nearestSettings(faults).compass;
      for (const term of TERMS) if (Math.abs(found.series[term] - truth[term]) < found.halves[term]) held++;
      expect(degrees(found.halves.b)).toBeLessThan(1.5);
    }
    expect(held).toBeGreaterThanOrEqual(105);
  });

  it("leaves out what was sailed heeling", () => {
    const circle = noiseless().map((second) => ({ ...second, heel: radians(1) }));
    const slid = noiseless().map((second) => ({
      ...second,
      time: second.time + 480,
      heel: radians(20),
      east: second.east + 0.5,
    }));
    const [alone, both] = [circleInLog(circle), circleInLog([...circle, ...slid])];
    if (alone.status === "unsolved" || both.status === "unsolved") throw new Error("unsolved");
    expect(both.series).toEqual(alone.series);
    expect([alone.heeled, both.heeled]).toEqual([0, 480]);
  });

  it("leaves out what was sailed upright, by wind, speed and turning", () => {
    const { faults, seconds } = motored(725_001, [...circles(1, -1), ...SAILED]);
    const found = circleInLog(seconds);
    if (found.status === "unsolved") throw new Error(found.reason);
    // but for tacks and what the log leaves out
    expect(found.sailed).toBeGreaterThan(0.7 * 1800);
    expect(found.seconds).toBeGreaterThan(0.9 * 480);
    const truth = nearestSettings(faults).compass;
    for (const term of TERMS)
      expect(Math.abs(found.series[term] - truth[term])).toBeLessThan(2 * found.halves[term]);
    const alone = circleInLog(motored(725_001, SAILED).seconds);
    expect(alone).toEqual({ status: "unsolved", reason: "sailing" });
    // eight headings across and before the wind look like sailing, but for the one into it at their speed
    const held = circleInLog(motored(725_002, HEADINGS_HELD).seconds);
    expect(held).toMatchObject({ status: "solved", sailed: 0 });
  });

  it("is refused where it cannot tell", () => {
    const reason = (seconds: ReturnType<typeof noiseless>) => {
      const found = circleInLog(seconds);
      return found.status === "unsolved" ? found.reason : "solved";
    };
    expect(reason([])).toBe("no seconds");
    expect(reason(noiseless({ rate: 0 }))).toBe("one heading");
    expect(reason(noiseless({ seconds: 120 }))).toBe("not all round");
    // twice as fast as a compass can be asked
    expect(reason(noiseless({ rate: 6 }))).toBe("no seconds");
    expect(reason(noiseless().map((second) => ({ ...second, stw: 0.3 })))).toBe("no seconds");
    expect(reason(noiseless().map((second) => ({ ...second, east: Number.NaN })))).toBe("no seconds");
    expect(reason(noiseless().map((second) => ({ ...second, heel: radians(-12) })))).toBe("heeled");
  });
});
