/**
 * The deviation of a circle (M59), against the handbook's table, the other least squares (M26) and series written out here.
 */
import fc from "fast-check";
import { expect, it } from "vitest";
import table from "../../datasets/published/compassDeviation.json" with { type: "json" };
import { circleDeviationAt, fitDeviation } from "../../packages/core/src/fit/deviationCircle.ts";
import { deviationSeriesByLeastSquares } from "../../packages/core/src/sensors/deviationSeries.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { agrees, published } from "../support/published.ts";

const SOLVED = "rounding of a solved system of a few unknowns";
const rad = (angle: number): number => (angle * Math.PI) / 180;
const deg = (angle: number): number => (angle * 180) / Math.PI;
const eight = table.headingDeg.map((heading, index) => ({
  heading: rad(heading),
  deviation: rad(table.deviationDeg[index]!),
}));

published("eight points: the same as by singular values, and orthogonal errors", table.source, () => {
  const found = fitDeviation(eight, { deviation: rad(0.5) });
  if (found.status === "unsolved") throw new Error(found.reason);
  const other = deviationSeriesByLeastSquares(
    eight.map(({ heading }) => heading),
    eight.map(({ deviation }) => deviation),
  );
  for (const term of ["a", "b", "c", "d", "e"] as const)
    agrees(found.series[term], other[term], 1e-12, SOLVED);
  // on eight even points the columns are orthogonal, of squared length 8 for 1 and 4 for the others
  agrees(deg(found.deviations.a), 0.5 / Math.sqrt(8), 1e-10, SOLVED);
  for (const term of ["b", "c", "d", "e"] as const) agrees(deg(found.deviations[term]), 0.25, 1e-10, SOLVED);
  // the same everywhere: 0.5° √(1/8 + 4/8 … ), since sin² + cos² = 1 for both harmonics
  for (const heading of [0, 1, 2.5])
    agrees(deg(circleDeviationAt(found, heading)), 0.5 * Math.sqrt(1 / 8 + 1 / 4 + 1 / 4), 1e-10, SOLVED);
  expect(found.spare).toBe(3);
});

it("finds any series again, heeling error too, from both tacks on the same headings", () => {
  const term = fc.double({ min: -0.2, max: 0.2, noNaN: true });
  fc.assert(
    fc.property(fc.tuple(term, term, term, term, term, term), ([a, b, c, d, e, heeling]) => {
      const seen = [10, 80, 140, 215, 260, 330].flatMap((heading) =>
        [-18, 22].map((heel) => {
          const [t, h] = [rad(heading), rad(heel)];
          const value =
            a + b * Math.sin(t) + (c + heeling * h) * Math.cos(t) + d * Math.sin(2 * t) + e * Math.cos(2 * t);
          return { heading: t, heel: h, deviation: value };
        }),
      );
      const found = fitDeviation(seen, { deviation: 0.01, withHeelingError: true });
      if (found.status === "unsolved") throw new Error(found.reason);
      const wanted = { a, b, c, d, e, heelingError: heeling };
      for (const name of found.terms) agrees(found.series[name], wanted[name], 1e-10, SOLVED);
    }),
  );
});

it("has intervals that hold what they say", () => {
  const { normal } = randomNumbers(5, 2);
  let held = 0;
  for (let trial = 0; trial < 1500; trial++) {
    const seen = [0, 50, 110, 160, 200, 250, 300, 340].map((heading) => ({
      heading: rad(heading),
      deviation: 0.1 * Math.sin(rad(heading)) + 0.01 * normal(),
    }));
    const found = fitDeviation(seen, { deviation: 0.01 });
    if (found.status === "solved" && Math.abs(found.series.b - 0.1) < 1.96 * found.deviations.b) held++;
  }
  // 3σ of the count at 95 % of 1500 is 1.7 %; widening by scatter adds some
  expect(held / 1500).toBeGreaterThan(0.933);
  expect(held / 1500).toBeLessThan(0.99);
});

it("refuses four headings, however often repeated, and too few readings for the heeling error", () => {
  const few = { status: "unsolved", reason: "too few headings" };
  const four = [0, 90, 180, 270].flatMap((heading) =>
    [0, 0.4, -0.4].map((off) => ({ heading: rad(heading + off), deviation: 0.1 })),
  );
  expect(fitDeviation(four, { deviation: 0.01 })).toEqual(few);
  const noneTwice = [0, 359.8, 90, 180, 270].map((heading) => ({ heading: rad(heading), deviation: 0.1 }));
  expect(fitDeviation(noneTwice, { deviation: 0.01 })).toEqual(few);
  const five = [0, 70, 140, 220, 290].map((heading) => ({
    heading: rad(heading),
    deviation: 0.1,
    heel: 0.3,
  }));
  expect(fitDeviation(five, { deviation: 0.01 }).status).toBe("solved");
  expect(fitDeviation(five, { deviation: 0.01, withHeelingError: true })).toEqual(few);
  const oneHeel = [...five, { heading: 3.3, deviation: 0.1, heel: 0.3 }];
  expect(fitDeviation(oneHeel, { deviation: 0.01, withHeelingError: true })).toEqual({
    status: "unsolved",
    reason: "not told apart",
  });
  expect(() => fitDeviation(five, { deviation: 0 })).toThrow(/deviation must be positive/);
  expect(() => fitDeviation(eight, { deviation: 1, withHeelingError: true })).toThrow(/needs a heel/);
  expect(() => fitDeviation([{ heading: Number.NaN, deviation: 0 }], { deviation: 1 })).toThrow(/finite/);
});
