/**
 * Properties of least squares (M40 to M42). Expected values follow from linear algebra (by ml-matrix, another way) or from
 * the definitions; ml-levenberg-marquardt gives an independent second answer.
 */
import fc from "fast-check";
import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { inverse, Matrix, solve } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { leastSquares, standardDeviations } from "../../packages/core/src/fit/leastSquares.ts";
import type { LeastSquaresProblem } from "../../packages/core/src/fit/leastSquaresProblem.ts";
import { NIST_MODELS } from "../support/nistModels.ts";
import { nistProblem, nistResiduals } from "../support/nistStrd.ts";

const ROWS = 12;
const COLUMNS = 3;

const values = (length: number) =>
  fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: length, maxLength: length });

/** A design matrix kept away from singular by a large diagonal, and observations. */
const linearProblems = fc.record({ design: values(ROWS * COLUMNS), observed: values(ROWS) }).map((one) => ({
  observed: one.observed,
  design: one.design.map((value, at) => value + (Math.floor(at / COLUMNS) === at % COLUMNS ? 40 : 0)),
}));

const linear = (design: readonly number[], observed: readonly number[]): LeastSquaresProblem => {
  const columns = design.length / observed.length;
  return {
    start: Array.from({ length: columns }, () => 0),
    count: observed.length,
    residuals(parameters, out) {
      for (let row = 0; row < observed.length; row++) {
        out[row] = observed[row]!;
        for (let column = 0; column < columns; column++)
          out[row] = out[row]! - design[row * columns + column]! * parameters[column]!;
      }
    },
  };
};

/** Decay y = a · exp(−b x) at x = 0 … 19, with a ripple that no decay explains. */
const decay = (a: number, b: number, start: readonly number[]): LeastSquaresProblem => ({
  start,
  count: 20,
  residuals([p = Number.NaN, q = Number.NaN], out) {
    for (let x = 0; x < 20; x++)
      out[x] = p * Math.exp(-q * x) - a * Math.exp(-b * x) - 0.01 * Math.sin(3 * x);
  },
});

function solvedFit(...given: Parameters<typeof leastSquares>) {
  const fit = leastSquares(...given);
  if (fit.status !== "solved") return expect.fail(`unsolved: ${fit.reason}`);
  return fit;
}

describe("a linear problem", () => {
  it("has the solution and the covariance of the normal equations", () => {
    fc.assert(
      fc.property(linearProblems, ({ design, observed }) => {
        const matrix = Matrix.from1DArray(ROWS, COLUMNS, design);
        const normal = matrix.transpose().mmul(matrix);
        const expected = solve(normal, matrix.transpose().mmul(Matrix.columnVector(observed))).to1DArray();
        const covariance = inverse(normal).to1DArray();
        const fit = solvedFit(linear(design, observed));
        // At rest within 10⁻⁷ of standard deviations of some tenths; covariances of 10⁻³ by differences good to 10⁻⁸.
        expected.forEach((value, at) => {
          expect(fit.parameters[at]).toBeCloseTo(value, 6);
        });
        covariance.forEach((value, at) => {
          expect(fit.covariance[at]).toBeCloseTo(value, 10);
        });
      }),
    );
  });

  it("has residuals at right angles to its columns", () => {
    fc.assert(
      fc.property(linearProblems, ({ design, observed }) => {
        const { residuals } = solvedFit(linear(design, observed));
        for (let column = 0; column < COLUMNS; column++) {
          let product = 0;
          for (let row = 0; row < ROWS; row++) product += residuals[row]! * design[row * COLUMNS + column]!;
          // Columns of length 50 and residuals of 30, to a share of 10⁻⁷ of the noise.
          expect(Math.abs(product)).toBeLessThan(1e-3);
        }
      }),
    );
  });

  it("with one value and one prior gives their weighted mean", () => {
    // Value 3 ± 0.5, prior 1 ± 2: weights 4 and 1/4, mean 12.25 / 4.25, variance 1 / 4.25.
    const fit = solvedFit({
      start: [0],
      count: 2,
      residuals([p = Number.NaN], out) {
        out[0] = (p - 3) / 0.5;
        out[1] = (p - 1) / 2;
      },
    });
    expect(fit.parameters[0]).toBeCloseTo(12.25 / 4.25, 10);
    expect(standardDeviations(fit)[0]).toBeCloseTo(Math.sqrt(1 / 4.25), 10);
  });

  it("solved exactly, with as many residuals as parameters, has no residual variance", () => {
    const fit = solvedFit(linear([2, 1, 1, 3], [3, 5]));
    expect(fit.parameters[0]).toBeCloseTo(0.8, 12);
    expect(fit.parameters[1]).toBeCloseTo(1.4, 12);
    expect(fit.residualVariance).toBeNaN();
  });
});

describe("a curved problem", () => {
  it("finds the same minimum whatever the units of its parameters", () => {
    const unit = fc.integer({ min: -8, max: 8 }).map((power) => 10 ** power);
    const reference = solvedFit(decay(2, 0.3, [1, 0.1]));
    fc.assert(
      fc.property(unit, unit, (u, v) => {
        const problem = decay(2, 0.3, []);
        const fit = solvedFit({
          ...problem,
          start: [1 / u, 0.1 / v],
          residuals: (p, out) => problem.residuals(Float64Array.of(p[0]! * u, p[1]! * v), out),
        });
        expect((fit.parameters[0]! * u) / reference.parameters[0]!).toBeCloseTo(1, 7);
        expect((fit.parameters[1]! * v) / reference.parameters[1]!).toBeCloseTo(1, 7);
        expect(fit.condition / reference.condition).toBeCloseTo(1, 5);
        expect((fit.covariance[1]! * u * v) / reference.covariance[1]!).toBeCloseTo(1, 5);
      }),
    );
  });

  it("has the same minimum with an analytic Jacobian and with differences of either order", () => {
    const problem = decay(2, 0.3, [1, 0.1]);
    const analytic = solvedFit({
      ...problem,
      jacobian([p = Number.NaN, q = Number.NaN], out) {
        for (let x = 0; x < 20; x++) {
          out[2 * x] = Math.exp(-q * x);
          out[2 * x + 1] = -x * p * Math.exp(-q * x);
        }
      },
    });
    // Errors of differences next to the analytic covariance: ε^(2/3) ≈ 4·10⁻¹¹ and ε^(4/5) ≈ 3·10⁻¹³, some tens of times.
    for (const [differenceOrder, digits] of [
      [2, 8],
      [4, 10],
    ] as const) {
      const fit = solvedFit(problem, { differenceOrder });
      expect(fit.parameters[1]).toBeCloseTo(analytic.parameters[1]!, 8);
      analytic.covariance.forEach((value, at) => {
        expect(fit.covariance[at]! / value).toBeCloseTo(1, digits);
      });
    }
  });

  it("is left as it was: start and repeated fits", () => {
    const start = Float64Array.of(1, 0.1);
    const first = leastSquares(decay(2, 0.3, [...start]));
    const second = leastSquares({ ...decay(2, 0.3, []), start });
    expect(start).toEqual(Float64Array.of(1, 0.1));
    expect(second).toEqual(first);
  });

  it("steps back from where its residuals are not finite", () => {
    // √p from 0.01 on: a whole Newton step would lead to negative p.
    const fit = solvedFit({
      start: [9],
      count: 2,
      residuals([p = Number.NaN], out) {
        out[0] = 10 * (Math.sqrt(p) - 0.1);
        out[1] = 0.001 * p;
      },
    });
    expect(fit.parameters[0]).toBeCloseTo(0.01, 6);
  });

  // What the package reaches by itself from the nearer start (docs/accuracy.md), one of each class of model.
  it.each(["Misra1a", "Chwirut2", "DanWood", "Gauss1", "Kirby2", "ENSO", "Rat43", "Thurber"])(
    "ml-levenberg-marquardt finds the same minimum: %s",
    (name) => {
      const problem = nistProblem(name);
      const start = problem.starts[1];
      const other = levenbergMarquardt(
        { x: problem.y.map((_, row) => row), y: problem.y },
        (parameters) => {
          const b = Float64Array.from(parameters);
          return (row) => NIST_MODELS[name]!(b, problem.x[row]!);
        },
        {
          initialValues: start,
          gradientDifference: start.map((value) => 6e-6 * Math.abs(value)),
          centralDifference: true,
          damping: 1,
          maxIterations: 1000,
          errorTolerance: 0,
        },
      );
      const fit = solvedFit(nistResiduals(problem, start));
      // The package has no test of convergence of its own: six digits are what 1000 iterations bring.
      other.parameterValues.forEach((value, at) => {
        expect(fit.parameters[at]! / value).toBeCloseTo(1, 6);
      });
    },
  );
});

describe("what cannot be solved", () => {
  it("names the parameters that only occur together, and no other", () => {
    const fit = leastSquares({
      start: [1, 2, 3],
      count: 8,
      residuals([a = 0, b = 0, c = 0], out) {
        for (let row = 0; row < 8; row++) out[row] = (a + c) * row + b * row ** 2 - Math.cos(row);
      },
    });
    if (fit.status !== "unsolved") return expect.fail("solved");
    expect(fit.reason).toBe("rank deficient");
    expect(fit.unseen).toEqual([0, 2]);
    const [direction] = fit.unseenDirections;
    expect(direction![0]! * direction![2]!).toBeCloseTo(-0.5, 6);
    expect(direction![1]).toBeCloseTo(0, 6);
    expect(fit).not.toHaveProperty("covariance");
  });

  it("names a parameter that changes nothing, and those beyond the number of residuals", () => {
    const idle = leastSquares({
      start: [1, 2],
      count: 3,
      residuals([a = 0], out) {
        for (let row = 0; row < 3; row++) out[row] = a - row;
      },
    });
    expect(idle).toMatchObject({ status: "unsolved", reason: "rank deficient", unseen: [1] });
    const few = leastSquares(linear([1, 2, 3], [1]));
    expect(few).toMatchObject({ status: "unsolved", reason: "rank deficient", unseen: [0, 1, 2] });
    if (few.status === "unsolved") expect(few.unseenDirections).toHaveLength(2);
  });

  it("is solved as soon as a prior tells them apart", () => {
    const fit = solvedFit({
      start: [1, 2],
      count: 5,
      residuals([a = 0, b = 0], out) {
        for (let row = 0; row < 4; row++) out[row] = a + b - row;
        out[4] = (a - 7) / 0.5;
      },
    });
    expect(fit.parameters[0]).toBeCloseTo(7, 8);
    expect(fit.parameters[1]).toBeCloseTo(1.5 - 7, 8);
  });

  it("says that residuals are not finite, or were not all written", () => {
    const nan = {
      start: [1],
      count: 2,
      residuals: (_: Float64Array, out: Float64Array) => out.fill(Number.NaN),
    };
    expect(leastSquares(nan)).toMatchObject({ status: "unsolved", reason: "not finite" });
    const half = {
      start: [1],
      count: 2,
      residuals([a = 0]: Float64Array, out: Float64Array) {
        out[0] = a;
      },
    };
    expect(leastSquares(half)).toMatchObject({ status: "unsolved", reason: "not finite" });
    const jacobian = {
      ...decay(2, 0.3, [1, 0.1]),
      jacobian: (_: Float64Array, out: Float64Array) => out.fill(Infinity),
    };
    expect(leastSquares(jacobian)).toMatchObject({ status: "unsolved", reason: "not finite" });
  });

  it("says that steps were used up, and where it stood", () => {
    const fit = leastSquares(decay(2, 0.3, [50, 3]), { maximumSteps: 2 });
    expect(fit).toMatchObject({ status: "unsolved", reason: "no convergence", steps: 2 });
    expect(fit.parameters.every(Number.isFinite)).toBe(true);
  });

  it("says so where nothing leads down though the slope does", () => {
    // The Jacobian given has the wrong sign.
    const fit = leastSquares({
      start: [1],
      count: 2,
      residuals([a = 0], out) {
        out[0] = a - 3;
        out[1] = 1;
      },
      jacobian: (_, out) => out.set([-1, 0]),
    });
    expect(fit).toMatchObject({ status: "unsolved", reason: "no convergence" });
  });
});

describe("a caller's mistake throws", () => {
  const good = decay(2, 0.3, [1, 0.1]);

  it.each([
    ["start[1]", { ...good, start: [1, Number.NaN] }],
    ["start[0]", { ...good, start: [Number.POSITIVE_INFINITY, 1] }],
    ["at least one parameter", { ...good, start: [] }],
    ["count", { ...good, count: 0 }],
    ["count", { ...good, count: 2.5 }],
    ["scale must be as long", { ...good, scale: [1] }],
    ["scale[1]", { ...good, scale: [1, 0] }],
    ["scale[0]", { ...good, scale: [Number.NaN, 1] }],
  ])("%s", (words, problem) => {
    expect(() => leastSquares(problem)).toThrow(RangeError);
    expect(() => leastSquares(problem)).toThrow(words);
  });

  it.each([
    { maximumSteps: 0 },
    { tolerance: -1 },
    { rankTolerance: Number.NaN },
    { firstStep: Number.POSITIVE_INFINITY },
  ])("option %o", (options) => {
    expect(() => leastSquares(good, options)).toThrow(Object.keys(options)[0]);
  });
});
