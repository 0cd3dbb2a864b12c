/**
 * Means that ought to vanish (M53) are known no better than chance over their rows leaves them.
 * INPUTS: rows under power whose heel is chance alone, of fixed seeds; expected: that chance of the mean of n independent values is their standard deviation over √n.
 * MARGIN: M128 sums correlations that are chance themselves, which makes it larger on few rows, not smaller.
 */
import { describe, expect, it } from "vitest";
import { impliedStates } from "../../packages/core/src/fit/impliedState.ts";
import { rowEvidence } from "../../packages/core/src/fit/rowEvidence.ts";
import { scalarEvidence } from "../../packages/core/src/fit/scalarEvidence.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { radians } from "../../packages/core/src/units.ts";
import { handmadeRow } from "../support/handmadeRows.ts";

const CHANNELS = { compass: true, paddle: true, gps: true, heel: true };
const CONTEXT = { heelSign: 1, steeredBy: "sails", leewayLawHolds: true } as const;

/** Variance that the day's mean heel under power is given, of so many rows that roll by so much. */
function varianceOf(rows: number, rolls: number, seed: number): number {
  const { normal } = randomNumbers(seed, 1);
  const mean = { awa: 0, aws: 5, stw: 3, heading: 0, heel: 0, east: 0, north: 3 };
  const made = Array.from({ length: rows }, (_, row) =>
    handmadeRow({ leg: 0, at: 30 * row, mean, kind: "motoring" }),
  );
  const evidence = rowEvidence(made, CHANNELS);
  const states = impliedStates(rows);
  for (let row = 0; row < rows; row++) states.heel[row] = rolls * normal();
  const { scalars } = scalarEvidence(evidence, states, CONTEXT, CHANNELS);
  expect(scalars.map(({ name }) => name)).toEqual(["upright under power"]);
  return scalars[0]!.error.day ** 2;
}

describe("the error of a mean that ought to vanish (M53)", () => {
  const still = varianceOf(10, 0, 1);

  it("is the day's own where nothing moves", () => {
    expect(Math.sqrt(still)).toBeCloseTo(radians(0.4), 12);
  });

  it("grows by what chance leaves in a mean over few rows, and hardly over many", () => {
    const rolls = radians(3);
    for (const rows of [10, 40, 160]) {
      const seeds = Array.from({ length: 200 }, (_, seed) => seed);
      const added =
        seeds.reduce((sum, seed) => sum + varianceOf(rows, rolls, seed) - still, 0) / seeds.length;
      const chance = rolls ** 2 / rows;
      expect(added / chance, `${rows} rows`).toBeGreaterThan(0.95);
      expect(added / chance, `${rows} rows`).toBeLessThan(1.7);
    }
  });
});
