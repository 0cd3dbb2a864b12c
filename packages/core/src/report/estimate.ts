import type { SolvedBoatFit } from "../fit/boatFit.ts";
import { errorCovariance } from "../fit/doubtOfPriors.ts";
import { priorCovarianceOf } from "../fit/priorCovariance.ts";
import { settingsOf, vectorOf } from "../fit/settingsVector.ts";
import type { SensorSettings } from "../sensors/parameters.ts";

/** A number that follows from the fit, with its certainty; SI and radians. */
export interface Estimate {
  readonly value: number;
  readonly sd: number;
  /** Share of the knowledge of this number that came from the data; NaN where nothing fitted bears on it. */
  readonly informed: number;
}

/** Steps of the derivatives, as shares of the prior sd: small against any curvature, large against rounding. */
const STEP = 1e-3;

/** Central differences of a quantity of the settings in each parameter, at the fitted values. */
function gradient(quantity: (settings: SensorSettings) => number, fit: SolvedBoatFit): Float64Array {
  const at = vectorOf(fit.settings);
  const stepped = (index: number, step: number): number => {
    const vector = Float64Array.from(at);
    vector[index] = (vector[index] ?? Number.NaN) + step;
    return quantity(settingsOf(vector, fit.settings.heel.sign));
  };
  return Float64Array.from(fit.parameters, ({ priorSd }, index) => {
    const step = STEP * priorSd;
    return (stepped(index, step) - stepped(index, -step)) / (2 * step);
  });
}

/** gᵀ C g. */
function quadraticForm(covariance: Float64Array, g: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < g.length; i++)
    for (let j = 0; j < g.length; j++) sum += g[i]! * covariance[i * g.length + j]! * g[j]!;
  return sum;
}

/**
 * M65. What the fit knows of a quantity q of its parameters p: the value at the fitted settings, sd = √(gᵀ E g) with
 * g = ∂q/∂p and E the covariance of the error (M184), and, C the posterior covariance, the informed share 1 − gᵀ C g / Σ (gᵢ · prior sdᵢ)², within [0, 1].
 *
 * @param quantity any smooth function of the settings
 * @returns NaN for the share where no parameter bears on the quantity. Never throws of itself.
 */
export function estimateOf(quantity: (settings: SensorSettings) => number, fit: SolvedBoatFit): Estimate {
  const g = gradient(quantity, fit);
  const variance = quadraticForm(fit.covariance, g);
  const error = quadraticForm(errorCovariance(fit), g);
  const prior = quadraticForm(priorCovarianceOf(fit), g);
  return {
    value: quantity(fit.settings),
    sd: Math.sqrt(error),
    informed: Math.min(1, Math.max(0, 1 - variance / prior)),
  };
}
