/**
 * Recovery of the scales of wander (M45) from series with known ones, made second by second by the definitions of random
 * walk and Ornstein-Uhlenbeck process, not by the filter's formulas.
 * INPUTS: rows of 30 s over five hours with a gap of an hour, scales as wind has them. MARGIN: statistical, stated with each.
 */
import { describe, expect, it } from "vitest";
import { maximumLikelihoodWander, whiten } from "../../packages/core/src/fit/stateSpace.ts";
import { normals } from "../support/normals.ts";

const ROWS = 600;
const DURATION = 30;
const TRUTH = { slow: 0.003, fast: 0.06, fastSeconds: 25 };
const ERROR = 0.02;
const PRIOR = { slow: { median: 0.006, logSd: 1 }, fast: { median: 0.03, logSd: 1 }, fastSeconds: [25] };

const times = Float64Array.from(
  { length: ROWS },
  (_, row) => (row + 0.5) * DURATION + (row < ROWS / 2 ? 0 : 3600),
);
const durations = new Float64Array(ROWS).fill(DURATION);
const variances = new Float64Array(ROWS).fill(ERROR ** 2);

/** Row means of a wandering quantity, each of 30 means of a second. */
function simulated(seed: number, rows = ROWS): Float64Array {
  const normal = normals(seed);
  const { slow, fast, fastSeconds } = TRUTH;
  const decay = Math.exp(-1 / fastSeconds);
  let level = 0;
  let gust = fast * normal();
  return Float64Array.from({ length: rows }, (_, row) => {
    if (row === ROWS / 2) {
      level += slow * Math.sqrt(3600) * normal();
      gust = fast * normal();
    }
    let sum = 0;
    for (let second = 0; second < DURATION; second++) {
      gust = decay * gust + fast * Math.sqrt(1 - decay ** 2) * normal();
      level += slow * normal();
      sum += level + gust;
    }
    return sum / DURATION + ERROR * normal();
  });
}

const SAILS = 40;
const fits = Array.from({ length: SAILS }, (_, sail) =>
  maximumLikelihoodWander(times, durations, simulated(sail + 1), variances, PRIOR),
);

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

describe("scales of wander", () => {
  it.each(["slow", "fast"] as const)("%s: unbiased, over 40 series", (name) => {
    const errors = fits.map(({ model }) => Math.log(model[name] / TRUTH[name]));
    const spread = Math.sqrt(mean(errors.map((error) => error ** 2)));
    // Four standard errors of the mean, and 5 % for the second's grain in what is simulated.
    expect(Math.abs(mean(errors))).toBeLessThan((4 * spread) / Math.sqrt(SAILS) + 0.05);
    // 300 independent rows' worth of a scale would give 1/√600 = 4 %; walk and turbulence share them: a few times that.
    expect(spread).toBeLessThan(0.25);
  });

  it("innovations at the scales found are white, of unit variance", () => {
    const out = new Float64Array(ROWS);
    let squares = 0;
    let products = 0;
    let count = 0;
    fits.forEach(({ model }, sail) => {
      whiten(model, times, durations, variances, simulated(sail + 1), out);
      for (let row = 2; row < ROWS; row++) {
        squares += out[row]! ** 2;
        products += out[row]! * out[row - 1]!;
        count++;
      }
    });
    // 24 000 of them: standard errors √(2/n) = 0.009 and 1/√n = 0.006; four of each.
    expect(Math.abs(squares / count - 1)).toBeLessThan(0.037);
    expect(Math.abs(products / count)).toBeLessThan(0.026);
  });

  it("of two rows stay with the priors, within the little that one innovation tells", () => {
    const two = (column: Float64Array): Float64Array => column.subarray(0, 2);
    const { model } = maximumLikelihoodWander(
      two(times),
      two(durations),
      two(simulated(1)),
      two(variances),
      PRIOR,
    );
    expect(Math.abs(Math.log(model.slow / PRIOR.slow.median))).toBeLessThan(PRIOR.slow.logSd);
    expect(Math.abs(Math.log(model.fast / PRIOR.fast.median))).toBeLessThan(PRIOR.fast.logSd);
  });

  it("chooses the true time scale among far ones more often than not", () => {
    const prior = { ...PRIOR, fastSeconds: [3, 25, 200] };
    const chosen = Array.from({ length: 12 }, (_, sail) =>
      maximumLikelihoodWander(times, durations, simulated(sail + 1), variances, prior),
    ).filter(({ model }) => model.fastSeconds === TRUTH.fastSeconds);
    expect(chosen.length).toBeGreaterThan(6);
  });

  it("are the same for the same series", () => {
    expect(maximumLikelihoodWander(times, durations, simulated(1), variances, PRIOR)).toEqual(fits[0]);
  });
});
