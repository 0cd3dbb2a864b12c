/**
 * Properties of the whitening of wander (M44). Expected values follow from the covariance of the rows written out in full
 * (closed forms of the means of a random walk and of an Ornstein-Uhlenbeck process over intervals) and from linear
 * algebra by ml-matrix: another way to the same numbers.
 */
import fc from "fast-check";
import { CholeskyDecomposition, Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { type AveragedStep, averagedStep } from "../../packages/core/src/fit/averagedWander.ts";
import {
  maximumLikelihoodWander,
  type WanderModel,
  wanderLogLikelihood,
  whiten,
} from "../../packages/core/src/fit/stateSpace.ts";

interface Rows {
  readonly times: Float64Array;
  readonly durations: Float64Array;
  readonly variances: Float64Array;
}

const MODEL: WanderModel = { slow: 0.05, fast: 0.4, fastSeconds: 25 };

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const models: fc.Arbitrary<WanderModel> = fc.record({
  slow: between(0.001, 0.1),
  fast: between(0.01, 0.5),
  fastSeconds: between(5, 100),
});

/** Up to nine rows, some touching, some far apart. */
const rowsOf: fc.Arbitrary<Rows> = fc
  .array(fc.tuple(between(1, 60), fc.oneof(fc.constant(0), between(0, 500)), between(0.001, 0.1)), {
    minLength: 3,
    maxLength: 9,
  })
  .map((rows) => {
    let end = 1.7e3;
    const times = rows.map(([duration, gap]) => {
      end += gap + duration;
      return end - duration / 2;
    });
    return {
      times: Float64Array.from(times),
      durations: Float64Array.from(rows, ([duration]) => duration),
      variances: Float64Array.from(rows, ([, , variance]) => variance),
    };
  });

const seriesFor = ({ times }: Rows, phase = 0): Float64Array =>
  times.map((_, row) => Math.sin(3 * row + phase) + 0.1 * row);

/** Covariance of the rows' values, the level at the start of the first row being known. */
function denseCovariance({ slow, fast, fastSeconds }: WanderModel, rows: Rows): Matrix {
  const { times, durations, variances } = rows;
  const start = times[0]! - durations[0]! / 2;
  const spread = (row: number): number => {
    const half = durations[row]! / fastSeconds / 2;
    return Math.sinh(half) / half;
  };
  const entries = Array.from(times, (time, row) =>
    Array.from(times, (other, column) => {
      if (row !== column)
        return (
          slow ** 2 * (Math.min(time, other) - start) +
          fast ** 2 * (spread(row) * spread(column)) * Math.exp(-Math.abs(time - other) / fastSeconds)
        );
      const x = durations[row]! / fastSeconds;
      const walk = slow ** 2 * (time - durations[row]! / 6 - start);
      return walk + (fast ** 2 * 2 * (x - 1 + Math.exp(-x))) / x ** 2 + variances[row]!;
    }),
  );
  return new Matrix(entries);
}

/** ln |V| + ln 1ᵀV⁻¹1 and yᵀ (V⁻¹ − V⁻¹ 1 1ᵀ V⁻¹ / 1ᵀV⁻¹1) y: what the restricted likelihood is made of. */
function denseRestricted(covariance: Matrix, series: Float64Array) {
  const cholesky = new CholeskyDecomposition(covariance);
  const y = Matrix.columnVector(Array.from(series));
  const ones = Matrix.ones(series.length, 1);
  const inner = (a: Matrix, b: Matrix): number => a.transpose().mmul(cholesky.solve(b)).get(0, 0);
  const level = inner(ones, ones);
  const logDeterminant = cholesky.lowerTriangularMatrix
    .diagonal()
    .reduce((sum, one) => sum + 2 * Math.log(one), 0);
  return {
    logDeterminant: logDeterminant + Math.log(level),
    squares: inner(y, y) - inner(ones, y) ** 2 / level,
  };
}

function innovationsOf(model: WanderModel, rows: Rows, columns: Float64Array) {
  const out = new Float64Array(columns.length);
  return { ...whiten(model, rows.times, rows.durations, rows.variances, columns, out), out };
}

const sumOfSquares = (values: Float64Array): number => values.reduce((sum, one) => sum + one * one, 0);

describe("a mean over a short duration", () => {
  it("does not jump where series take over from closed forms", () => {
    const at = (duration: number): AveragedStep => {
      const step = { onMean: 0, onEnd: 0, meanVariance: 0, endVariance: 0, covariance: 0 };
      averagedStep(duration, 1, step);
      return step;
    };
    const series = at(1e-3 * (1 - 1e-12));
    const closed = at(1e-3);
    // The closed form of the variance, 7·10⁻⁴, loses nine digits at this duration; the series errs by x³, relatively.
    for (const name of ["onMean", "onEnd", "meanVariance", "endVariance", "covariance"] as const)
      expect(series[name] / closed[name]).toBeCloseTo(1, 8);
  });
});

describe("whitening", () => {
  it("has the restricted likelihood of the full covariance", () => {
    fc.assert(
      fc.property(models, rowsOf, (model, rows) => {
        const series = seriesFor(rows);
        const dense = denseRestricted(denseCovariance(model, rows), series);
        const { logDeterminant, innovations, out } = innovationsOf(model, rows, series);
        expect(innovations).toBe(rows.times.length - 1);
        expect(logDeterminant).toBeCloseTo(dense.logDeterminant, 6);
        expect(sumOfSquares(out) / dense.squares).toBeCloseTo(1, 6);
        const logLikelihood = wanderLogLikelihood(
          model,
          rows.times,
          rows.durations,
          rows.variances,
          series,
          out,
        );
        const expected = -(dense.squares + dense.logDeterminant + innovations * Math.log(2 * Math.PI)) / 2;
        expect(logLikelihood).toBeCloseTo(expected, 4);
      }),
    );
  });

  it("of all unit columns is an inverse root of the covariance of contrasts", () => {
    fc.assert(
      fc.property(models, rowsOf, (model, rows) => {
        const count = rows.times.length;
        const { out } = innovationsOf(model, rows, Float64Array.from(Matrix.eye(count).to1DArray()));
        const whitener = Matrix.from1DArray(count, count, Array.from(out));
        const whitened = whitener.mmul(denseCovariance(model, rows)).mmul(whitener.transpose());
        for (let row = 0; row < count; row++)
          for (let column = 0; column < count; column++) {
            const expected = row === column && row > 0 ? 1 : 0;
            expect(whitened.get(row, column)).toBeCloseTo(expected, 6);
            if (column > row) expect(whitener.get(row, column)).toBe(0);
          }
      }),
    );
  });

  it("does not see a level that is added to all rows", () => {
    fc.assert(
      fc.property(models, rowsOf, between(-50, 50), (model, rows, level) => {
        const series = seriesFor(rows);
        const { out } = innovationsOf(model, rows, series);
        const shifted = innovationsOf(
          model,
          rows,
          series.map((value) => value + level),
        );
        out.forEach((innovation, row) => {
          expect(shifted.out[row]).toBeCloseTo(innovation, 8);
        });
      }),
    );
  });

  it("is linear, and treats columns side by side as each alone", () => {
    fc.assert(
      fc.property(models, rowsOf, between(-3, 3), (model, rows, factor) => {
        const a = seriesFor(rows);
        const b = seriesFor(rows, 1);
        const columns = Float64Array.from(
          Array.from(a, (value, row) => [value, b[row]!, value + factor * b[row]!]).flat(),
        );
        const { out } = innovationsOf(model, rows, columns);
        const alone = [innovationsOf(model, rows, a).out, innovationsOf(model, rows, b).out];
        for (let row = 0; row < a.length; row++) {
          expect(out[3 * row]).toBe(alone[0]![row]);
          expect(out[3 * row + 1]).toBe(alone[1]![row]);
          expect(out[3 * row + 2]).toBeCloseTo(out[3 * row]! + factor * out[3 * row + 1]!, 9);
        }
      }),
    );
  });

  it("may write over its own columns", () => {
    const rows = fc.sample(rowsOf, { numRuns: 1, seed: 1 })[0]!;
    const columns = seriesFor(rows);
    const { out } = innovationsOf(MODEL, rows, columns);
    whiten(MODEL, rows.times, rows.durations, rows.variances, columns, columns);
    expect(columns).toEqual(out);
  });

  it("passes over rows of infinite variance as if they were not there, whatever they hold", () => {
    fc.assert(
      fc.property(models, rowsOf, fc.nat(8), (model, rows, at) => {
        const left = at % rows.times.length;
        const series = seriesFor(rows).map((value, row) => (row === left ? Number.NaN : value));
        const variances = rows.variances.map((value, row) =>
          row === left ? Number.POSITIVE_INFINITY : value,
        );
        const without = (column: Float64Array): Float64Array => column.filter((_, row) => row !== left);
        const fewer = {
          times: without(rows.times),
          durations: without(rows.durations),
          variances: without(variances),
        };
        const { out, ...sums } = innovationsOf(model, { ...rows, variances }, series);
        const { out: expected, ...expectedSums } = innovationsOf(model, fewer, without(series));
        expect(out[left]).toBe(0);
        expect(without(out)).toEqual(expected);
        expect(sums).toEqual(expectedSums);
      }),
    );
  });

  it("of pure errors is that of a mean known better with each row", () => {
    // No wander: the innovation of row k is y − mean before, variance v (1 + 1/k).
    const rows = {
      times: Float64Array.of(1, 2, 3),
      durations: new Float64Array(3),
      variances: new Float64Array(3).fill(4),
    };
    const { out } = innovationsOf({ slow: 0, fast: 0, fastSeconds: 1 }, rows, Float64Array.of(5, 8, 2));
    expect(out[1]).toBeCloseTo(3 / Math.sqrt(8), 12);
    expect(out[2]).toBeCloseTo(-4.5 / Math.sqrt(6), 12);
  });

  it("keeps its accuracy as rows become short, where the closed forms lose digits", () => {
    // Of points in time: level and turbulence as they stand. Durations of 10⁻⁹ s must not differ from that.
    const times = Float64Array.of(0, 10, 25, 70);
    const variances = new Float64Array(4).fill(0.01);
    const series = Float64Array.of(1, -1, 2, 0.5);
    const points = innovationsOf(MODEL, { times, durations: new Float64Array(4), variances }, series);
    for (const duration of [1e-9, 1e-6, 1e-4]) {
      const short = innovationsOf(
        MODEL,
        { times, durations: new Float64Array(4).fill(duration), variances },
        series,
      );
      short.out.forEach((value, row) => {
        expect(value).toBeCloseTo(points.out[row]!, duration > 1e-5 ? 3 : 5);
      });
    }
  });

  it("counts rows that overlap as touching", () => {
    const durations = new Float64Array(3).fill(10);
    const variances = new Float64Array(3).fill(0.01);
    const series = Float64Array.of(1, 2, 0);
    const touching = innovationsOf(
      MODEL,
      { times: Float64Array.of(5, 15, 25), durations, variances },
      series,
    );
    const overlapping = innovationsOf(
      MODEL,
      { times: Float64Array.of(5, 14.5, 24.5), durations, variances },
      series,
    );
    expect(overlapping.out[1]).toBe(touching.out[1]);
  });

  it("of nothing is nothing", () => {
    const none = new Float64Array(0);
    expect(whiten(MODEL, none, none, none, none, none)).toEqual({ logDeterminant: 0, innovations: 0 });
  });
});

describe("a caller's mistake throws", () => {
  const times = Float64Array.of(1, 2);
  const ones = Float64Array.of(1, 1);
  const scratch = new Float64Array(2);
  it.each<[string, () => unknown]>([
    ["scales must be", () => whiten({ ...MODEL, slow: -1 }, times, ones, ones, ones, scratch)],
    ["scales must be", () => whiten({ ...MODEL, fast: Number.NaN }, times, ones, ones, ones, scratch)],
    ["scales must be", () => whiten({ ...MODEL, fastSeconds: 0 }, times, ones, ones, ones, scratch)],
    ["times must be", () => whiten(MODEL, Float64Array.of(2, 1), ones, ones, ones, scratch)],
    ["times must be", () => whiten(MODEL, Float64Array.of(1, Number.NaN), ones, ones, ones, scratch)],
    ["durations must be", () => whiten(MODEL, times, Float64Array.of(1, -1), ones, ones, scratch)],
    ["variances must be", () => whiten(MODEL, times, ones, Float64Array.of(1, 0), ones, scratch)],
    ["variances must be", () => whiten(MODEL, times, ones, Float64Array.of(Number.NaN, 1), ones, scratch)],
    ["a duration and a variance", () => whiten(MODEL, times, Float64Array.of(1), ones, ones, scratch)],
    ["columns must hold", () => whiten(MODEL, times, ones, ones, new Float64Array(3), new Float64Array(3))],
    ["columns must hold", () => whiten(MODEL, times, ones, ones, ones, new Float64Array(3))],
    [
      "a value for each",
      () => wanderLogLikelihood(MODEL, times, ones, ones, new Float64Array(4), new Float64Array(4)),
    ],
    ["needs a finite value", () => fitted({ series: Float64Array.of(1, Number.NaN) })],
    ["prior's median", () => fitted({ median: 0 })],
    ["at least one time scale", () => fitted({ fastSeconds: [] })],
  ])("%s", (words, call) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(words);
  });

  function fitted({ series = ones, median = 1, fastSeconds = [20] }) {
    const prior = { slow: { median, logSd: 1 }, fast: { median: 1, logSd: 1 }, fastSeconds };
    return maximumLikelihoodWander(times, ones, series, ones, prior);
  }
});
