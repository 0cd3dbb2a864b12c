/**
 * The speed sensor from runs over a measured distance (M121 to M123) in a tide that turns.
 * INPUTS: boats drawn here; the tide by its integral (tests/support/tidalRuns.ts).
 * MARGIN: as each says. The coverage of more cases: scripts/exerciseCoverage.ts.
 */
import { describe, expect, it } from "vitest";
import { speedFromRuns } from "../../packages/core/src/fit/speedFromRuns.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { METRES_PER_SECOND_IN_A_KNOT as KNOT, radians } from "../../packages/core/src/units.ts";
import { agrees } from "../support/published.ts";
import { runsIn } from "../support/tidalRuns.ts";

const options = { deviation: 0.05 * KNOT, stream: 2 * KNOT };
const still = { intercept: 0.3 * KNOT, gain: 1.05, stream: 2 * KNOT, phase: 0, error: () => 0 };

describe("speed sensor from runs", () => {
  it("finds intercept and gain again from three speeds, with the tide at its turn", () => {
    const found = speedFromRuns(runsIn(still, [3, 3, 5, 5, 7, 7]), options);
    if (found.status === "unsolved") throw new Error(found.reason);
    expect(found.law).toBe("intercept");
    agrees(found.intercept, 0.3 * KNOT, 0.03 * KNOT, "the priors pull by a fraction of the interval");
    agrees(found.gain, 1.05, 0.005, "likewise");
    for (const { reading, gain } of found.gains)
      agrees(gain, 1.05 + (0.3 * KNOT) / reading, 0.006, "the pull of intercept and gain partly cancels");
  });

  it("tells of one speed the gain there, and of the intercept no more than is usual", () => {
    const found = speedFromRuns(runsIn(still, [5, 5, 5, 5]), options);
    if (found.status === "unsolved") throw new Error(found.reason);
    expect(found.gains).toHaveLength(1);
    const [at] = found.gains;
    agrees(at!.gain, 1.05 + (0.3 * KNOT) / at!.reading, 0.004, "the tide's curvature, held by its strength");
    expect(at!.half).toBeLessThan(0.02);
    // the intercept's prior is 0.2 ± 0.2 kn: half its 95 % interval, 0.39 kn, less what the gain's prior tells
    expect(found.interceptHalf).toBeGreaterThan(0.3 * KNOT);
  });

  it("prefers a deficit that falls with speed where the readings say so, and says by how much", () => {
    const reading = (speed: number): number => (speed - (0.9 * KNOT * 3 * KNOT) / speed) / 1.02;
    const found = speedFromRuns(runsIn({ ...still, reading }, [2, 2, 3, 3, 5, 5, 7, 7]), {
      ...options,
      deviation: 0.02 * KNOT,
    });
    if (found.status === "unsolved") throw new Error(found.reason);
    expect(found.law).toBe("falling deficit");
    expect(found.preferredBy).toBeGreaterThan(4);
  });

  it("finds the tacks' gains apart", () => {
    const runs = runsIn(still, [5, 5, 6, 6, 5, 5, 6, 6]).map((run, index) => ({
      ...run,
      tack: index % 4 < 2 ? ("starboard" as const) : ("port" as const),
      reading: run.reading * (index % 4 < 2 ? 0.98 : 1.02),
    }));
    const found = speedFromRuns(runs, options);
    if (found.status === "unsolved") throw new Error(found.reason);
    agrees(found.gainDifference, 0.04, found.gainDifferenceHalf, "its own interval");
    expect(found.gainDifferenceHalf).toBeLessThan(0.03);
  });

  /** Two speeds under power, then both tacks at 20° of heel, where ln gain is larger by a share. */
  const heeledBy = (share: number, error: () => number, phase = 0) =>
    runsIn({ ...still, phase, error }, [5, 5, 6.5, 6.5, 5, 5, 6.5, 6.5]).map((run, index) => {
      const heel = index < 4 ? 0 : radians(20);
      const tack = index % 4 < 2 ? ("starboard" as const) : ("port" as const);
      const reading = run.reading / (1 + (share * heel) / radians(20));
      return { ...run, heel, reading, ...(heel > 0 ? { tack } : {}) };
    });

  it("lets the gain depend on heel where the runs insist, and tells it upright then", () => {
    const found = speedFromRuns(
      heeledBy(0.06, () => 0),
      options,
    );
    if (found.status === "unsolved") throw new Error(found.reason);
    expect(found.heelInsists).toBe(true);
    agrees(radians(20) * found.heelSlope, 0.06, radians(20) * found.heelSlopeHalf, "its own interval");
    expect(radians(20) * found.heelSlopeHalf).toBeLessThan(0.03);
    agrees(found.gain, 1.05, found.gainHalf, "likewise");
  });

  it("is silent of heel where it does nothing, but for 5 in 100", () => {
    const { between, normal } = randomNumbers(121, 0);
    const trials = 200;
    let insists = 0;
    for (let trial = 0; trial < trials; trial++) {
      const runs = heeledBy(0, () => 0.05 * KNOT * normal(), between(0, 2 * Math.PI));
      const found = speedFromRuns(runs, options);
      if (found.status === "unsolved") throw new Error(found.reason);
      if (found.heelInsists) insists++;
    }
    // 5 % of 200, and 2.6 times the count's own standard deviation of 3.1: once in 170 draws (scipy 1.17.1, binom.sf(18, 200, 0.05): 5.8e-3)
    expect(insists).toBeLessThanOrEqual(18);
  });

  it("asks nothing of heel where it was noted of some runs only, or was the same on all", () => {
    const runs = heeledBy(0.06, () => 0);
    for (const asked of [
      runs.map(({ heel: _, ...run }, at) => (at === 0 ? run : { ...run, heel: 0.3 })),
      runs.slice(4),
    ]) {
      const found = speedFromRuns(asked, options);
      if (found.status === "unsolved") throw new Error(found.reason);
      expect([found.heelSlope, found.heelInsists]).toEqual([Number.NaN, false]);
    }
  });

  it("has intervals that hold 93 to 97 in 100, whatever the scatter, with two speeds in a tide that turns", () => {
    const { between, normal } = randomNumbers(120, 0);
    const counts = { gain: 0, intercept: 0, middle: 0 };
    const trials = 400;
    for (let trial = 0; trial < trials; trial++) {
      const [intercept, gain] = [0.2 * KNOT * (1 + normal()), 1 + 0.06 * normal()];
      // a scatter that is drawn as the interval takes it: four readings' worth is known of it
      const freedom = [0, 0, 0, 0].reduce((sum) => sum + normal() ** 2, 0);
      const scatter = 0.05 * KNOT * Math.sqrt(4 / freedom);
      const phase = between(0, 2 * Math.PI);
      const boat = { intercept, gain, stream: 2 * KNOT, phase, error: () => scatter * normal() };
      const found = speedFromRuns(runsIn(boat, [4, 4, 4, 4, 6.5, 6.5, 6.5, 6.5]), options);
      if (found.status === "unsolved") throw new Error(found.reason);
      const middle = found.gains[2]!;
      if (Math.abs(found.gain - gain) < found.gainHalf) counts.gain++;
      if (Math.abs(found.intercept - intercept) < found.interceptHalf) counts.intercept++;
      if (Math.abs(middle.gain - gain - intercept / middle.reading) < middle.half) counts.middle++;
    }
    for (const count of Object.values(counts)) {
      // 95 % of 400, and twice the count's own standard deviation of 1.1 %
      expect(count / trials).toBeGreaterThan(0.93);
      expect(count / trials).toBeLessThan(0.98);
    }
  });
});

describe("what cannot be answered is refused", () => {
  it("two runs in the same direction, and one run", () => {
    const [one, , other] = runsIn(still, [5, 5, 5]);
    for (const runs of [[one!, other!], [one!]])
      expect(speedFromRuns(runs, options)).toEqual({ status: "unsolved", reason: "one way" });
  });
  it("a caller's mistake", () => {
    const runs = runsIn(still, [5, 5]);
    expect(() => speedFromRuns(runs, { ...options, stream: 0 })).toThrow(/stream/);
    expect(() => speedFromRuns([{ ...runs[0]!, reading: 0 }, runs[1]!], options)).toThrow(/reading above 0/);
  });
});
