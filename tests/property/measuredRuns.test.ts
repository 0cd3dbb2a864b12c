/**
 * Runs over a measured distance: M18, M57 and M58 on runs that are worked out here from a current by its integral.
 * MARGIN: as each says.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  currentOfRuns,
  logOfRuns,
  type MeasuredRun,
  speedOfRuns,
} from "../../packages/core/src/fit/measuredRuns.ts";
import { binomialWeights, meanOfMeans } from "../../packages/core/src/physics/meanOfMeans.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { agrees } from "../support/published.ts";

const SOLVED = "rounding of a solved system of a few unknowns";

/** A current in m/s over hours, by powers. */
type Tide = readonly number[];

/** What a tide carries the water along between two times, m. */
const carried = (tide: Tide, from: number, to: number): number =>
  tide.reduce(
    (sum, part, power) =>
      sum + (3600 * part * ((to / 3600) ** (power + 1) - (from / 3600) ** (power + 1))) / (power + 1),
    0,
  );

const tideAt = (tide: Tide, time: number): number =>
  tide.reduce((sum, part, power) => sum + part * (time / 3600) ** power, 0);

const run = (tide: Tide, start: number, lasts: number, way: 1 | -1, speed: number): MeasuredRun => ({
  start,
  end: start + lasts,
  distance: lasts * speed + way * carried(tide, start, start + lasts),
  way,
});

const UNEQUAL = [
  [0, 500, 1],
  [900, 700, -1],
  [1700, 450, 1],
  [2900, 650, -1],
  [3700, 520, 1],
] as const;

describe("least squares", () => {
  it("finds speed and current again, however long the runs and their intervals", () => {
    const part = fc.double({ min: -0.6, max: 0.6, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: 2, max: 6, noNaN: true }), fc.tuple(part, part, part), (speed, tide) => {
        const runs = UNEQUAL.map(([start, lasts, way]) => run(tide, start, lasts, way, speed));
        const found = speedOfRuns(runs, { deviation: 0.05, degree: 2 });
        if (found.status === "unsolved") throw new Error(found.reason);
        agrees(found.speed, speed, 1e-9, SOLVED);
        expect(found.spare).toBe(1);
        for (const time of [0, 1800, 4000])
          agrees(currentOfRuns(found.current, time).speed, tideAt(tide, time), 1e-8, SOLVED);
      }),
    );
  });

  it("finds intercept and gain of the log from two speeds", () => {
    const tide = [0.7, -0.5];
    const runs = [
      ...UNEQUAL.map(([start, lasts, way]) => ({
        ...run(tide, start, lasts, way, 2),
        reading: (2 - 0.2) / 1.08,
      })),
      ...UNEQUAL.map(([start, lasts, way]) => ({
        ...run(tide, start + 4500, lasts, way, 3.6),
        reading: (3.6 - 0.2) / 1.08,
      })),
    ];
    const found = logOfRuns(runs, { deviation: 0.05, degree: 1 });
    if (found.status === "unsolved") throw new Error(found.reason);
    agrees(found.intercept, 0.2, 1e-8, SOLVED);
    agrees(found.gain, 1.08, 1e-8, SOLVED);
    expect(found.covariance).toBeLessThan(0);
  });

  it("has intervals that hold what they say, in a tide that turns", () => {
    const { normal } = randomNumbers(11, 3);
    const tide = [0.8, -1.1, 0.2];
    let held = 0;
    const trials = 2000;
    for (let trial = 0; trial < trials; trial++) {
      const runs = UNEQUAL.map(([start, lasts, way]) => run(tide, start, lasts, way, 3.5 + 0.05 * normal()));
      const found = speedOfRuns(runs, { deviation: 0.05, degree: 2 });
      if (found.status === "solved" && Math.abs(found.speed - 3.5) < 1.96 * found.deviation) held++;
    }
    // at 95 % of 2000 the count's own 3σ is 1.5 %; one run to spare widens an interval in a third of the trials
    expect(held / trials).toBeGreaterThan(0.935);
    expect(held / trials).toBeLessThan(0.99);
  });

  it("widens by what scatters more than was stated", () => {
    const runs = [3, 4, 3.2, 4.4, 2.8].map((speed, index) =>
      run([0], 1000 * index, 600, index % 2 ? -1 : 1, speed),
    );
    const [tight, loose] = [0.01, 0.02].map((deviation) => speedOfRuns(runs, { deviation, degree: 0 }));
    if (tight?.status !== "solved" || loose?.status !== "solved") throw new Error("unsolved");
    expect(tight.scatter).toBeGreaterThan(1);
    agrees(tight.deviation, loose.deviation, 1e-9, SOLVED);
  });
});

describe("what cannot be answered is refused", () => {
  const there = UNEQUAL.map(([start, lasts]) => run([0.5], start, lasts, 1, 3));
  it("runs that all go one way, two of them or five", () => {
    for (const runs of [there, there.slice(0, 2), there.slice(0, 1)])
      expect(speedOfRuns(runs, { deviation: 0.1, degree: 0 })).toEqual({
        status: "unsolved",
        reason: "one way",
      });
  });
  it("fewer runs than unknowns, and two trips of one instant", () => {
    const both = UNEQUAL.map(([start, lasts, way]) => run([0.5], start, lasts, way, 3));
    const too = { status: "unsolved", reason: "too few runs" };
    expect(speedOfRuns(both.slice(0, 3), { deviation: 0.1, degree: 2 })).toEqual(too);
    expect(speedOfRuns([], { deviation: 0.1, degree: 0 })).toEqual(too);
    const readings = both.map((one) => ({ ...one, reading: 3 }));
    const alike = { status: "unsolved", reason: "not told apart" };
    expect(logOfRuns(readings, { deviation: 0.1, degree: 0 })).toEqual(alike);
  });
  it("a caller's mistake", () => {
    const options = { deviation: 0.1, degree: 0 };
    const [one] = there;
    if (!one) throw new Error("no run");
    expect(() => speedOfRuns([{ ...one, end: one.start }], options)).toThrow(/run 1 must end/);
    expect(() => speedOfRuns([{ ...one, distance: 0 }], options)).toThrow(/distance of run 1/);
    expect(() => speedOfRuns([one], { ...options, deviation: 0 })).toThrow(/deviation/);
    expect(() => speedOfRuns([one], { ...options, degree: 1.5 })).toThrow(/degree/);
    expect(() => logOfRuns([one], options)).toThrow(/reading above 0/);
    expect(() => meanOfMeans([3])).toThrow(/two runs/);
    expect(() => binomialWeights(0)).toThrow(/count/);
  });
});

it("n runs take out a current of degree n − 2, and no more", () => {
  for (let count = 2; count <= 7; count++) {
    const of = (degree: number): number =>
      meanOfMeans(Array.from({ length: count }, (_, t) => 6 + (t % 2 ? -1 : 1) * (t / count) ** degree));
    for (let degree = 0; degree <= count - 2; degree++) agrees(of(degree), 6, 1e-12, "rounding");
    expect(Math.abs(of(count - 1) - 6)).toBeGreaterThan(1e-5);
  }
  // a parabola of 0.2 t² with three runs leaves half its coefficient
  agrees(meanOfMeans([6, 6 - 0.2, 6 + 0.8]), 6.1, 1e-12, "rounding");
});
