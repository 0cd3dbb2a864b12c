/** Properties of robust weights and fits (M43). Expected values follow from the definitions; no published source. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { robustLeastSquares } from "../../packages/core/src/fit/robustLeastSquares.ts";
import { bisquareWeight, huberWeight, studentWeight } from "../../packages/core/src/fit/robustWeights.ts";

const WEIGHTS = {
  huber: (u: number) => huberWeight(u),
  bisquare: (u: number) => bisquareWeight(u),
  student: (u: number) => studentWeight(u, 4),
};

describe.each(Object.entries(WEIGHTS))("the weight of %s", (_, weight) => {
  const residuals = fc.double({ min: 0, max: 1e6, noNaN: true });

  it("is even and never rises away from 0", () => {
    fc.assert(
      fc.property(residuals, residuals, (a, b) => {
        expect(weight(-a)).toBe(weight(a));
        expect(weight(Math.max(a, b))).toBeLessThanOrEqual(weight(Math.min(a, b)));
        expect(weight(a)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it("is missing where the residual is, and the same for both zeros", () => {
    expect(weight(Number.NaN)).toBeNaN();
    expect(weight(-0)).toBe(weight(0));
  });
});

describe("Student's weight", () => {
  it("is −u⁻¹ d ln p / du of the t distribution", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 20, noNaN: true }),
        fc.double({ min: 1, max: 30, noNaN: true }),
        (u, nu) => {
          const logDensity = (at: number): number => -((nu + 1) / 2) * Math.log1p(at ** 2 / nu);
          const slope = (logDensity(u + 1e-5) - logDensity(u - 1e-5)) / 2e-5;
          // A difference of logarithms of some tens over 2·10⁻⁵: nine digits of it.
          expect(studentWeight(u, nu)).toBeCloseTo(-slope / u, 7);
        },
      ),
    );
  });

  it("is 1 when the law is normal", () => {
    expect(studentWeight(3, Number.POSITIVE_INFINITY)).toBe(1);
  });
});

describe("a robust fit", () => {
  /** A level, its values y. */
  const level = (y: readonly number[]) => ({
    start: [0],
    count: y.length,
    residuals([p = Number.NaN]: Float64Array, out: Float64Array) {
      y.forEach((value, row) => {
        out[row] = value - p;
      });
    },
  });

  it("of a bisquare forgets a wild value altogether", () => {
    const tame = [1, 2, 3, 4, 5, 2.5, 3.5];
    const fits = [1e3, 1e6].map((wild) => robustLeastSquares(level([...tame, wild]), bisquareWeight));
    expect(fits[0]!.weights.at(-1)).toBe(0);
    expect(fits[0]!.fit.parameters[0]).toBeCloseTo(fits[1]!.fit.parameters[0]!, 6);
    expect(fits[0]!.fit.parameters[0]).toBeCloseTo(3, 0);
  });

  it("moves and stretches with its values", () => {
    const y = [1, 2, 3, 4, 5, 40];
    const reference = robustLeastSquares(level(y), huberWeight);
    const moved = robustLeastSquares(level(y.map((value) => 100 - 7 * value)), huberWeight);
    expect(moved.fit.parameters[0]).toBeCloseTo(100 - 7 * reference.fit.parameters[0]!, 6);
    expect(moved.scale).toBeCloseTo(7 * reference.scale, 6);
  });

  it("with an analytic Jacobian is that with differences", () => {
    const problem = level([1, 2, 3, 4, 5, 40]);
    const analytic = { ...problem, jacobian: (_: Float64Array, out: Float64Array) => out.fill(-1) };
    const fit = robustLeastSquares(analytic, huberWeight);
    expect(fit.fit.parameters[0]).toBeCloseTo(robustLeastSquares(problem, huberWeight).fit.parameters[0]!, 7);
  });

  it("of values most of which agree exactly has no scale and is not at rest", () => {
    const { scale, atRest } = robustLeastSquares(level([0, 0, 0, 0, 0]), huberWeight);
    expect(scale).toBe(0);
    expect(atRest).toBe(false);
  });

  it("is unsolved where the plain fit is", () => {
    const { fit, atRest } = robustLeastSquares({ ...level([1, 2]), start: [0, 0] }, huberWeight);
    expect(fit).toMatchObject({ status: "unsolved", reason: "rank deficient", unseen: [1] });
    expect(atRest).toBe(false);
  });
});
