/**
 * Means that ought to vanish (M53): of legs that were close-hauled alone, and known no better than chance over their rows leaves them.
 * INPUTS: legs made by hand; rows under power whose heel is chance alone, of fixed seeds. Expected: that chance of the mean of n independent values is their standard deviation over √n.
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

describe("symmetry of sailing is asked of close-hauled legs (M53)", () => {
  /** Legs of ten rows each at apparent angles in degrees, positive on starboard. */
  function symmetryOf(angles: readonly number[]) {
    const rows = angles.flatMap((angle, leg) =>
      Array.from({ length: 10 }, (_, row) => {
        const mean = { awa: radians(angle), aws: 8, stw: 3, heading: 0, heel: 0, east: 0, north: 3 };
        return handmadeRow({ leg, at: 300 * leg + 30 * row, mean });
      }),
    );
    const evidence = rowEvidence(rows, CHANNELS);
    const states = impliedStates(rows.length);
    rows.forEach(({ mean }, row) => {
      states.apparentAngle[row] = mean.awa;
      states.speed[row] = 3;
      states.heel[row] = radians(-15) * Math.sign(mean.awa);
    });
    const { scalars } = scalarEvidence(evidence, states, CONTEXT, CHANNELS);
    return scalars.find(({ name }) => name === "symmetry of sailing")!;
  }
  const legsOf = ({ groups }: ReturnType<typeof symmetryOf>) =>
    groups.map((rows) => [...new Set(rows.map((row) => Math.floor(row / 10)))]);

  it("and not of a reach on one tack that comes near", () => {
    // 48° is upwind of 55° like the beats, and 20° freer than they are: in the mean it would turn the vane by 5°
    expect(legsOf(symmetryOf([28, -29, 30, -48, 29, -28]))).toEqual([
      [0, 2, 4],
      [1, 5],
    ]);
  });

  it("in light air too, which frees her by 5° or 6°", () => {
    expect(legsOf(symmetryOf([28, -29, 34, -35]))).toEqual([
      [0, 2],
      [1, 3],
    ]);
  });

  it("and trusts them less the more they scatter", () => {
    const [steady, scattered] = [
      [28, -28, 28, -28],
      [26, -25, 32, -32],
    ].map((angles) => symmetryOf(angles).error.day);
    expect(steady).toBeCloseTo(radians(0.7), 12);
    expect(scattered).toBeGreaterThan(radians(1));
  });
});
