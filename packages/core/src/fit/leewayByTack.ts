import type { LeewayByTack, ToldNumber } from "../calibration/calibration.ts";
import { errorsOfFree } from "./doubtOfPriors.ts";
import { BOAT_PRIORS, LAW_PRIORS } from "./priors.ts";
import { INDEX_OF, LAW_INDEX_OF } from "./settingsVector.ts";

/** What a fit came to rest at, as far as a pair of its numbers needs it. */
interface AtRest {
  readonly vector: Float64Array;
  /** Of the free parameters, row-major. */
  readonly covariance: Float64Array;
}

const COEFFICIENT = INDEX_OF["leeway.coefficient"];
const SKEW = LAW_INDEX_OF.leewaySkew;

/**
 * M189. The leeway coefficient of each tack, K (1 + q) on starboard and K (1 − q) on port, and by which share of K they differ, 2 q: as the fit leaves them, the
 * heel zero and all else that it found at the same time in their doubt.
 *
 * @param free indices of the parameters that the fit moved
 * @param factors by which their standard deviations were widened (M180)
 * @returns undefined where either was held. Never throws.
 */
export function leewayByTack(
  { vector, covariance }: AtRest,
  free: readonly number[],
  factors: Float64Array,
): LeewayByTack | undefined {
  const [i, j] = [free.indexOf(COEFFICIENT), free.indexOf(SKEW)];
  if (i < 0 || j < 0) return undefined;
  const [coefficient, skew] = [vector[COEFFICIENT]!, vector[SKEW]!];
  const size = free.length;
  const widened = covariance.map(
    (value, at) => factors[Math.floor(at / size)]! * factors[at % size]! * value,
  );
  const errors = errorsOfFree(widened, free);
  const told = (value: number, byCoefficient: number, bySkew: number): ToldNumber => {
    const varianceIn = (of: Float64Array): number =>
      byCoefficient ** 2 * of[i * size + i]! +
      2 * byCoefficient * bySkew * of[i * size + j]! +
      bySkew ** 2 * of[j * size + j]!;
    const prior =
      (byCoefficient * BOAT_PRIORS["leeway.coefficient"].sd) ** 2 + (bySkew * LAW_PRIORS.leewaySkew.sd) ** 2;
    const informed = Math.min(1, Math.max(0, 1 - varianceIn(widened) / prior));
    return { value, sd: Math.sqrt(varianceIn(errors)), informed };
  };
  return {
    starboard: told(coefficient * (1 + skew), 1 + skew, coefficient),
    port: told(coefficient * (1 - skew), 1 - skew, -coefficient),
    difference: told(2 * skew, 0, 2),
  };
}
