import { inverse, Matrix } from "ml-matrix";
import {
  PARAMETER_NAMES,
  type ParameterName,
  type SolvedBoatFit,
} from "../../packages/core/src/fit/boatFit.ts";
import { priorCovariance } from "../../packages/core/src/fit/priorCovariance.ts";
import { BOAT_PRIORS } from "../../packages/core/src/fit/priors.ts";
import { settingsOf } from "../../packages/core/src/fit/settingsVector.ts";

/** A sum of parameters that data know, with its standard deviation: all in SI and radians. */
export interface Known {
  readonly weights: Partial<Readonly<Record<ParameterName, number>>>;
  readonly sd: number;
}

/** The fit of such data with the priors. */
export function fitKnowing(known: readonly Known[]): SolvedBoatFit {
  const size = PARAMETER_NAMES.length;
  const priors = PARAMETER_NAMES.map((name) => BOAT_PRIORS[name]);
  let precision = inverse(priorCovariance([...PARAMETER_NAMES.keys()]));
  for (const { weights, sd } of known) {
    const row = Matrix.rowVector(PARAMETER_NAMES.map((name) => (weights[name] ?? 0) / sd));
    precision = Matrix.add(precision, row.transpose().mmul(row));
  }
  const covariance = inverse(precision);
  const parameters = PARAMETER_NAMES.map((name, index) => {
    const { mean, sd: priorSd } = priors[index]!;
    const sd = Math.sqrt(covariance.get(index, index));
    return { name, value: mean, sd, priorMean: mean, priorSd, informed: 1 - (sd / priorSd) ** 2 };
  });
  return {
    status: "solved",
    settings: settingsOf(
      priors.map(({ mean }) => mean),
      1,
    ),
    parameters,
    covariance: Float64Array.from({ length: size ** 2 }, (_, at) =>
      covariance.get(Math.floor(at / size), at % size),
    ),
    wander: {
      slowDirection: 0.0016,
      slowLogSpeed: 0.002,
      fastDirection: 0.07,
      fastLogSpeed: 0.08,
      fastSeconds: 25,
    },
    rows: 100,
    outliers: [],
    notes: [],
  };
}
