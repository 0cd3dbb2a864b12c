/**
 * SOURCE: National Institute of Standards and Technology, Statistical Reference Datasets, nonlinear regression (27
 *   problems, each from both published starts) and linear regression (Norris, Longley).
 * STATUS: the .dat files as NIST publishes them, read in the copies of lmfit/lmfit-py `NIST_STRD` at
 *   fe389bbbd1fe936cd73742bd81fc6fce7ac92858, scipy 1.17.1 (Norris) and statsmodels at
 *   82c59e378bdfb5ae324006c477954879ad3e24be (Longley).
 * INPUTS: the data in those files; models in tests/support/nistModels.ts, written from the formulas there.
 * MARGIN: default options, differences for Jacobians. Certified to 11 digits; 6 digits of parameters and 5 of standard
 *   deviations are asked, as what the data of Lanczos3, with a condition of 10⁴, leave of differences good to 10⁻¹⁰.
 *   Lanczos1 is exact but for the rounding of its data, so that its standard deviations (of 10⁻¹⁰) are those of rounding:
 *   parameters only. None of the 54 fails.
 */
import { describe, expect } from "vitest";
import { leastSquares, standardDeviations } from "../../packages/core/src/fit/leastSquares.ts";
import { NIST_MODELS } from "../support/nistModels.ts";
import { nistLinearProblem, nistProblem, nistResiduals } from "../support/nistStrd.ts";
import { agrees, published } from "../support/published.ts";

const SIX_DIGITS = "six digits of what is certified to eleven";
const FIVE_DIGITS = "five digits of a standard deviation, Jacobian by differences";

describe.each(Object.keys(NIST_MODELS))("%s", (name) => {
  const problem = nistProblem(name);
  problem.starts.forEach((start, at) => {
    published(`parameters and sds from start ${at + 1}`, `NIST StRD, ${name}.dat`, () => {
      const fit = leastSquares(nistResiduals(problem, start));
      if (fit.status !== "solved") return expect.fail(`unsolved: ${fit.reason} after ${fit.steps} steps`);
      problem.certified.forEach((value, parameter) => {
        agrees(fit.parameters[parameter]!, value, 1e-6 * Math.abs(value), SIX_DIGITS);
      });
      if (name === "Lanczos1") return;
      agrees(fit.sumOfSquares, problem.sumOfSquares, 1e-9 * problem.sumOfSquares, "nine digits of eleven");
      const sds = standardDeviations(fit, fit.residualVariance);
      problem.certifiedSd.forEach((sd, parameter) => {
        agrees(sds[parameter]!, sd, 1e-5 * sd, FIVE_DIGITS);
      });
    });
  });
});

describe.each(["Norris", "Longley"] as const)("%s", (name) => {
  published("coefficients and sds of a linear fit", `NIST StRD, ${name}.dat`, () => {
    const { y, x, certified, certifiedSd, residualSd } = nistLinearProblem(name);
    const rows = x.map((row) => [1, ...row]);
    const fit = leastSquares({
      start: certified.map(() => 0),
      count: y.length,
      residuals(coefficients, out) {
        rows.forEach((row, at) => {
          out[at] = y[at]! - row.reduce((sum, value, column) => sum + value * coefficients[column]!, 0);
        });
      },
      jacobian: (_, out) => out.set(rows.flat().map((value) => -value)),
    });
    if (fit.status !== "solved") return expect.fail(`unsolved: ${fit.reason} after ${fit.steps} steps`);
    const sds = standardDeviations(fit, fit.residualVariance);
    certified.forEach((value, column) => {
      agrees(fit.parameters[column]!, value, 1e-8 * Math.abs(value), "eight of fifteen digits");
      agrees(sds[column]!, certifiedSd[column]!, 1e-8 * certifiedSd[column]!, "eight of fifteen digits");
    });
    agrees(Math.sqrt(fit.residualVariance), residualSd, 1e-10 * residualSd, "ten of fifteen digits");
  });
});
