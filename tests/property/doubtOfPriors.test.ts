import { inverse, Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import {
  errorCovariance,
  withDoubtOfLaws,
  withDoubtOfPriors,
} from "../../packages/core/src/fit/doubtOfPriors.ts";
import { LAW_PRIORS } from "../../packages/core/src/fit/priors.ts";
import { INDEX_OF, LAW_INDEX_OF } from "../../packages/core/src/fit/settingsVector.ts";
import { radians } from "../../packages/core/src/units.ts";
import { fitFixture } from "../support/answerFixture.ts";
import { agrees } from "../support/published.ts";

const ROUNDING = "rounding of a few products and a matrix inversion";

describe("intervals where the priors are in doubt (M184)", () => {
  it("have the spread of a linear estimate whose unknowns are drawn 1.25 times as wide as it takes them for", () => {
    // y = A θ + e, e of unit variance, θ believed to have the variances of P⁻¹: K = (AᵀA + P)⁻¹ Aᵀ, and the error K (A θ + e) − θ has
    // the covariance (K A − 1) W (K A − 1)ᵀ + K Kᵀ where θ is drawn with W = 1.25² P⁻¹
    const A = new Matrix([
      [1, 0.4, 0],
      [0.3, 2, 0],
      [1, -1, 0.1],
      [0.2, 0.2, 0],
    ]);
    const sds = [0.5, 2, 3];
    const tied = Matrix.diag(sds.map((sd) => sd ** 2));
    tied.set(0, 1, -0.4);
    tied.set(1, 0, -0.4);
    const believed = inverse(tied);
    const covariance = inverse(Matrix.add(A.transpose().mmul(A), believed));
    const K = covariance.mmul(A.transpose());
    const left = Matrix.sub(K.mmul(A), Matrix.eye(3));
    const drawn = Matrix.mul(tied, 1.25 ** 2);
    const spread = Matrix.add(left.mmul(drawn).mmul(left.transpose()), K.mmul(K.transpose())).to1DArray();
    withDoubtOfPriors(covariance, believed)
      .to1DArray()
      .forEach((value, at) => {
        agrees(value, spread[at]!, 1e-12, ROUNDING);
      });
  });

  it("are as wide as the priors made wider where the data say nothing, and no wider where they say all", () => {
    const alone = (variance: number, precision: number): number =>
      withDoubtOfPriors(new Matrix([[variance]]), new Matrix([[precision]])).get(0, 0);
    agrees(Math.sqrt(alone(4, 1 / 4)), 2.5, 1e-15, ROUNDING);
    agrees(alone(1e-6, 1), 1e-6, 1e-12, "the square of what is left");
    expect(alone(4, 0)).toBe(4);
  });

  it("know what the laws leave out no better, and what hangs together with it", () => {
    const law = LAW_INDEX_OF.windage;
    const { sd } = LAW_PRIORS.windage;
    const free = [INDEX_OF["compass.a"], law];
    const [own, both, said] = [radians(1) ** 2, 0.4 * radians(1) * sd, 0.8 * sd ** 2];
    const doubted = withDoubtOfLaws(Float64Array.of(own, both, both, said), free);
    const grows = (one: number, other: number): number => ((1.25 ** 2 - 1) * one * other) / sd ** 2;
    agrees(doubted[0]!, own + grows(both, both), 1e-12, ROUNDING);
    agrees(doubted[1]!, both + grows(both, said), 1e-12, ROUNDING);
    agrees(doubted[3]!, said + grows(said, said), 1e-12, ROUNDING);
    const alone = Float64Array.of(own);
    expect(withDoubtOfLaws(alone, free.slice(0, 1))).toEqual(alone);
  });

  it("are those that a fit gives its parameters", () => {
    const fit = fitFixture();
    const errors = errorCovariance(fit);
    fit.parameters.forEach(({ sd }, index) => {
      agrees(Math.sqrt(errors[index * (fit.parameters.length + 1)]!), sd, 1e-12, ROUNDING);
    });
  });
});
