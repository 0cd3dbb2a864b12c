/**
 * SOURCE: simulation. Boats with nothing wrong (seeds 22001 to 22005), in a wind that wanders, with noise, sea and rounding.
 * MARGIN: one joint test at 5 %: the sum of ten squared ratios of tack gap to its expected standard deviation (M62) stays
 * below the 95 % point of χ² with 10 degrees of freedom, 18.31 (scipy 1.17.1, chi2.ppf(0.95, 10):
 * 18.307).
 */
import { describe, expect, it } from "vitest";
import { scoredBoat } from "../support/scoredSails.ts";

const CHI_SQUARE_95_OF_10 = 18.31;

describe("faultless boats", () => {
  it("are left alone: their tack gaps stay within what the fit expects", () => {
    const squares = [22001, 22002, 22003, 22004, 22005].flatMap((seed) => {
      const { corrected, expected } = scoredBoat(seed, { faults: "none" });
      return [(corrected.upwind / expected.upwind) ** 2, (corrected.offTheWind / expected.offTheWind) ** 2];
    });
    expect(squares.every(Number.isFinite)).toBe(true);
    expect(squares.reduce((sum, square) => sum + square, 0)).toBeLessThan(CHI_SQUARE_95_OF_10);
  });
});
