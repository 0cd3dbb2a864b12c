/**
 * SOURCE: robust regression of K. A. Brownlee's stack loss data (1965) and of P. J. Rousseeuw and A. M. Leroy's telephone
 *   data (1987): statsmodels' documentation, and results of R 4.2.2 with MASS 7.3-58.2; efficiencies of Menezes et al. 2021.
 * STATUS: statsmodels' documentation read; R run once, its results in datasets/published/robust.json; Menezes second-hand
 *   through the tests of statsmodels.
 * INPUTS: datasets/published/stackloss.csv and robust.json.
 * MARGIN: R's rlm stops at changes of 10⁻⁴ and takes 1/0.6745 for the factor 1.482602: up to 7·10⁻⁵ of a coefficient.
 */
import { readFileSync } from "node:fs";
import { medianAbsoluteDeviation } from "simple-statistics";
import { describe, expect } from "vitest";
import { leastSquares } from "../../packages/core/src/fit/leastSquares.ts";
import type { LeastSquaresProblem } from "../../packages/core/src/fit/leastSquaresProblem.ts";
import { robustLeastSquares } from "../../packages/core/src/fit/robustLeastSquares.ts";
import {
  BISQUARE_REACH,
  bisquareWeight,
  HUBER_BEND,
  huberWeight,
  MEDIAN_DEVIATION_FACTOR,
} from "../../packages/core/src/fit/robustWeights.ts";
import { agrees, published } from "../support/published.ts";

const folder = new URL("../../datasets/published/", import.meta.url);
const { stackloss, phones, efficiency } = JSON.parse(readFileSync(new URL("robust.json", folder), "utf8"));
const table = readFileSync(new URL("stackloss.csv", folder), "utf8").trim().split("\n").slice(1);
const stackLoss = table.map((line) => line.split(",").map(Number));

const STOPPING = "R's rlm stops early and rounds the scale's factor to 1/0.6745";

/** Observed less intercept and slopes. */
const linear = (y: readonly number[], x: readonly (readonly number[])[]): LeastSquaresProblem => ({
  start: [0, ...x[0]!.map(() => 0)],
  count: y.length,
  residuals(coefficients, out) {
    x.forEach((row, at) => {
      out[at] =
        y[at]! - row.reduce((sum, value, one) => sum + value * coefficients[one + 1]!, coefficients[0]!);
    });
  },
});

const stackLossProblem = linear(
  stackLoss.map((row) => row[0]!),
  stackLoss.map((row) => row.slice(1)),
);

const phonesProblem = linear(
  phones.calls,
  phones.year.map((year: number) => [year]),
);

function coefficientsAgree(
  actual: Float64Array,
  expected: readonly number[],
  share: number,
  because: string,
) {
  expect(actual).toHaveLength(expected.length);
  expected.forEach((value, at) => {
    agrees(actual[at]!, value, share * Math.abs(value), because);
  });
}

describe("stack loss", () => {
  published("plain least squares", stackloss.leastSquares.source, () => {
    const fit = leastSquares(stackLossProblem);
    expect(fit.status).toBe("solved");
    coefficientsAgree(fit.parameters, stackloss.leastSquares.coefficients, 1e-7, "printed to 8 decimals");
  });

  published("Huber's weights, run to convergence", stackloss.huberDocumented.source, () => {
    const { fit, atRest } = robustLeastSquares(stackLossProblem, huberWeight);
    expect(atRest).toBe(true);
    stackloss.huberDocumented.coefficients.forEach((value: number, at: number) => {
      agrees(fit.parameters[at]!, value, 1e-6, "printed to 6 decimals");
    });
  });

  for (const [name, weight] of [
    ["huber", huberWeight],
    ["bisquare", bisquareWeight],
  ] as const) {
    published(`${name}: coefficients, scale and weights`, stackloss[name].source, () => {
      const { fit, scale, weights, atRest } = robustLeastSquares(stackLossProblem, (one) => weight(one));
      expect(atRest).toBe(true);
      coefficientsAgree(fit.parameters, stackloss[name].coefficients, 1e-4, STOPPING);
      agrees(scale, stackloss[name].scale, 3e-4, STOPPING);
      for (const [row, expected] of Object.entries<number>(stackloss[name].weights))
        agrees(weights[Number(row) - 1]!, expected, 2e-4, STOPPING);
    });
  }
});

describe("telephone calls", () => {
  published("Huber's weights with a quarter of the rows wrong", phones.huber.source, () => {
    const { fit, scale } = robustLeastSquares(phonesProblem, huberWeight);
    coefficientsAgree(fit.parameters, phones.huber.coefficients, 1e-4, STOPPING);
    agrees(scale, phones.huber.scale, 1e-3, STOPPING);
  });
});

describe("constants", () => {
  published(
    "median absolute deviation of 1 2 3 4 100",
    "R, documentation of stats::mad, constant 1.4826",
    () => {
      const spread = MEDIAN_DEVIATION_FACTOR * medianAbsoluteDeviation([1, 2, 3, 4, 100]);
      agrees(spread, 1.4826, 5e-6, "R's constant has 4 decimals");
    },
  );

  for (const [name, weight, constant] of [
    ["huber", huberWeight, HUBER_BEND],
    ["bisquare", bisquareWeight, BISQUARE_REACH],
  ] as const) {
    published(`efficiency of ${name} with normal errors`, efficiency.source, () => {
      for (const [share, tuning] of Object.entries<number>(efficiency[name]))
        agrees(
          normalEfficiency((u) => weight(u, tuning)),
          Number(share),
          2e-5,
          "tuning constants have 4 decimals",
        );
      agrees(constant, efficiency[name]["0.95"], 5e-4, "customary constants have 3 decimals");
    });
  }
});

/** Asymptotic efficiency E[ψ′]² / E[ψ²] of ψ(u) = u · weight(u) with normal errors, E[ψ′] = E[u ψ]; by the midpoint rule. */
function normalEfficiency(weight: (standardised: number) => number): number {
  const step = 1e-3;
  let slope = 0;
  let variance = 0;
  for (let u = -10 + step / 2; u < 10; u += step) {
    const density = (Math.exp((-u * u) / 2) / Math.sqrt(2 * Math.PI)) * step;
    const score = u * weight(u);
    slope += u * score * density;
    variance += score ** 2 * density;
  }
  return slope ** 2 / variance;
}
