import type { SolvedBoatFit } from "../calibration/calibration.ts";
import { type FindingName, TYPICAL_READINGS } from "../calibration/findings.ts";
import type { ParameterName } from "../sensors/parameterNames.ts";

/** ln(truth / reading) at a typical reading from an intercept and the logarithm of a gain, and its slopes by both. Never throws. */
export function typicalFactor(intercept: number, lnGain: number, reading: number) {
  const factor = Math.exp(lnGain) + intercept / reading;
  return { value: Math.log(factor), slopes: [1 / reading / factor, Math.exp(lnGain) / factor] as const };
}

/** The pairs that make up for each other. */
export const FACTOR_PAIRS = {
  speed: ["speed.intercept", "speed.gain"],
  anemometer: ["anemometer.threshold", "anemometer.gain"],
} as const satisfies Record<string, readonly ParameterName[]>;

type Weights = ReadonlyMap<number, number>;

/** A number as a sum of parameters, by their places; undefined for what is no part of the fit. */
function weightsOf({ parameters }: SolvedBoatFit, name: FindingName): Weights | undefined {
  const placeOf = (wanted: FindingName): number => parameters.findIndex((one) => one.name === wanted);
  const sensor = (["speed", "anemometer"] as const).find((one) => name === `${one}.atTypical`);
  if (sensor === undefined) return placeOf(name) < 0 ? undefined : new Map([[placeOf(name), 1]]);
  const [intercept, gain] = FACTOR_PAIRS[sensor].map(placeOf);
  const [one, other] = [parameters[intercept!], parameters[gain!]];
  if (!one || !other) return undefined;
  const { slopes } = typicalFactor(one.value, other.value, TYPICAL_READINGS[sensor]);
  return new Map([
    [intercept!, slopes[0]],
    [gain!, slopes[1]],
  ]);
}

/**
 * M136. By how much a number that a fit found moves for each unit by which another is found otherwise: the regression of the one on the other, Cov(x, y) / Var(y), by the
 * posterior covariance.
 *
 * @returns NaN for what is no part of the fit, and where the other was held. Never throws.
 */
export function findingMoves(fit: SolvedBoatFit): (name: FindingName, by: FindingName) => number {
  const { covariance, parameters } = fit;
  const sum = (one: Weights, other: Weights): number => {
    let total = 0;
    for (const [row, left] of one)
      for (const [column, right] of other)
        total += left * right * covariance[row * parameters.length + column]!;
    return total;
  };
  return (name, by) => {
    const [own, other] = [weightsOf(fit, name), weightsOf(fit, by)];
    return own && other ? sum(own, other) / sum(other, other) : Number.NaN;
  };
}
