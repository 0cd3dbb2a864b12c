/**
 * INPUTS: numbers about a mean, one of them changed; means with their scatter stand for any fit.
 * MARGIN: none: places are compared.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { suspectReadings } from "../../packages/core/src/judge/suspectReadings.ts";

/** Standard deviation about the mean over 0.1, NaN for fewer than two. */
function scatterOf(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return values.length < 2 ? Number.NaN : Math.sqrt(squares / (values.length - 1)) / 0.1;
}

const close = fc.array(fc.double({ min: -0.1, max: 0.1, noNaN: true }), { minLength: 4, maxLength: 12 });

describe("the reading that was noted wrongly", () => {
  it("is named wherever it stands, and none where all agree", () => {
    fc.assert(
      fc.property(close, fc.nat(), fc.constantFrom(-3, 3), (values, place, wrong) => {
        const at = place % values.length;
        expect(suspectReadings(values, scatterOf)).toEqual([]);
        expect(suspectReadings(values.with(at, wrong), scatterOf)).toEqual([at]);
      }),
    );
  });

  it("is one of two that can stand for each other, and no one of three", () => {
    // pairs that ought to be alike: a fit to what each pair has in common sees only that they differ
    const pairs = (values: readonly { readonly pair: number; readonly value: number }[]): number => {
      const of = (pair: number) => values.filter((one) => one.pair === pair).map(({ value }) => value);
      const spread = [0, 1, 2].map((pair) => Math.max(...of(pair)) - Math.min(...of(pair)));
      return Math.hypot(...spread) / 0.1;
    };
    const readings = [0, 0, 1, 1, 2, 2].map((pair, at) => ({ pair, value: at === 2 ? 1 : 0 }));
    expect(suspectReadings(readings, pairs).toSorted()).toEqual([2, 3]);
    const all = [0, 0, 0, 9, 9, 9];
    expect(suspectReadings(all, scatterOf)).toEqual([]);
  });

  it("is nobody where one fewer leaves nothing to check by", () => {
    expect(suspectReadings([0, 5], scatterOf)).toEqual([]);
    expect(suspectReadings([], () => Number.NaN)).toEqual([]);
  });
});
