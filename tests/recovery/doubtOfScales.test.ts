/**
 * The doubt that a series leaves of its scales of wander (M45), and what it adds to the doubt of the settings (M192).
 * INPUTS: wandering series made by the model from fixed seeds; the plain afternoon's rows.
 * EXPECTED: the posterior of the scales summed over a fine grid, which knows of no second derivative.
 * MARGIN: a third in variance: a normal law stands for a skew one.
 */
import { describe, expect, it } from "vitest";
import { withDoubtOfScales } from "../../packages/core/src/fit/doubtOfScales.ts";
import { maximumLikelihoodWander, wanderLogLikelihood } from "../../packages/core/src/fit/stateSpace.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { plainAfternoon } from "../support/traps.ts";

const PRIOR = {
  slow: { median: 0.02, logSd: 0.7 },
  fast: { median: 0.3, logSd: 0.7 },
  fastSeconds: [25],
};
const ROWS = 130;
const times = Float64Array.from({ length: ROWS }, (_, row) => 30 * row);
const durations = times.map(() => 30);
const variances = times.map(() => 0.01);

/** Level and turbulence of one seed, a value a row. */
function wandering(seed: number): Float64Array {
  const { normal } = randomNumbers(seed, 1);
  let level = 0;
  return times.map(() => {
    level += 0.02 * Math.sqrt(30) * normal();
    return level + 0.2 * normal() + 0.1 * normal();
  });
}

interface Spread {
  readonly slow: number;
  readonly fast: number;
  readonly both: number;
}

/** Variances and covariance of ln slow and ln fast, summed over a grid that holds all of the posterior. */
function onGrid(series: Float64Array): Spread {
  const scratch = new Float64Array(ROWS);
  const steps = Array.from({ length: 61 }, (_, step) => (step - 30) / 10);
  const points = steps.flatMap((slow) =>
    steps.map((fast) => {
      const model = {
        slow: PRIOR.slow.median * Math.exp(0.7 * slow),
        fast: PRIOR.fast.median * Math.exp(0.7 * fast),
        fastSeconds: 25,
      };
      const likelihood = wanderLogLikelihood(model, times, durations, variances, series, scratch);
      return { slow: 0.7 * slow, fast: 0.7 * fast, value: likelihood - (slow ** 2 + fast ** 2) / 2 };
    }),
  );
  const highest = Math.max(...points.map(({ value }) => value));
  const total = points.reduce((sum, { value }) => sum + Math.exp(value - highest), 0);
  const mean = (of: (point: (typeof points)[number]) => number): number =>
    points.reduce((sum, point) => sum + of(point) * Math.exp(point.value - highest), 0) / total;
  const [slow, fast] = [mean((point) => point.slow), mean((point) => point.fast)];
  return {
    slow: mean((point) => (point.slow - slow) ** 2),
    fast: mean((point) => (point.fast - fast) ** 2),
    both: mean((point) => (point.slow - slow) * (point.fast - fast)),
  };
}

/** The same from the scales that are called as likely: each pair lies one standard deviation to both sides. */
function ofLikely(series: Float64Array): Spread {
  const { asLikely, rootMeanSquare } = maximumLikelihoodWander(times, durations, series, variances, PRIOR);
  const moves = asLikely.map(({ slow, fast }) => [
    Math.log(slow / rootMeanSquare.slow),
    Math.log(fast / rootMeanSquare.fast),
  ]);
  const sum = (of: (slow: number, fast: number) => number): number =>
    moves.reduce((total, [slow, fast]) => total + of(slow!, fast!) / 2, 0);
  return {
    slow: sum((slow) => slow ** 2),
    fast: sum((_, fast) => fast ** 2),
    both: sum((slow, fast) => slow * fast),
  };
}

describe("scales as likely as those found (M45)", () => {
  it("lie as far away, and hang together, as the posterior has them", () => {
    const seeds = [1, 2, 3, 4, 5, 6];
    const [exact, found] = [onGrid, ofLikely].map((of) => seeds.map((seed) => of(wandering(seed))));
    const mean = (of: readonly Spread[], what: keyof Spread): number =>
      of.reduce((sum, one) => sum + one[what], 0) / of.length;
    for (const what of ["slow", "fast"] as const)
      expect(Math.abs(mean(found!, what) / mean(exact!, what) - 1), what).toBeLessThan(1 / 3);
    const correlation = (of: readonly Spread[]): number =>
      mean(of, "both") / Math.sqrt(mean(of, "slow") * mean(of, "fast"));
    expect(correlation(exact!)).toBeLessThan(-0.05);
    expect(Math.abs(correlation(found!) - correlation(exact!))).toBeLessThan(0.15);
  });
});

describe("settings where the scales are in doubt (M192)", () => {
  /** By how much the doubt makes a variance grow, of all that is free. */
  function growths(legs: number): readonly number[] {
    const { settled, setting } = plainAfternoon(1, legs);
    const doubted = withDoubtOfScales(settled, setting);
    const size = setting.free.length;
    for (let row = 0; row < size; row++)
      for (let column = 0; column < row; column++) {
        const scale = Math.sqrt(doubted[row * (size + 1)]! * doubted[column * (size + 1)]!);
        const apart = doubted[row * size + column]! - doubted[column * size + row]!;
        expect(Math.abs(apart) / scale, "asymmetry of a covariance, of rounding").toBeLessThan(1e-9);
      }
    return setting.free.map(
      (_, place) => doubted[place * (size + 1)]! / settled.covariance[place * (size + 1)]! - 1,
    );
  }

  it("are in more doubt by some hundredths after few legs, and by less after many", () => {
    const [few, some, many] = [12, 36, 144].map(growths);
    few!.forEach((growth, place) => {
      expect(growth).toBeGreaterThan(0.005);
      expect(growth).toBeLessThan(0.2);
      expect(some![place]).toBeLessThan(growth);
      expect(many![place]).toBeLessThan(some![place]! / 2);
      expect(many![place]).toBeGreaterThan(0);
    });
  });
});
