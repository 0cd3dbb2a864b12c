import { type LegRow, MOMENT_CHANNELS } from "../sailing/legRow.ts";
import { measuredValues } from "./nominalState.ts";

const CHANNELS = MOMENT_CHANNELS.length;

/** A variance of which other channels explain all but this share is rounding: a factor of it would be noise. */
const LEAST_OWN_SHARE = 1e-12;

/** Lower Cholesky factor of a covariance that may be singular (a channel that stood still): such columns are zero. */
function choleskyFactor(covariance: Float64Array, size: number): Float64Array {
  const factor = new Float64Array(size * size);
  for (let column = 0; column < size; column++) {
    const variance = covariance[column * size + column]!;
    let diagonal = variance;
    for (let k = 0; k < column; k++) diagonal -= factor[column * size + k]! ** 2;
    if (!(diagonal > LEAST_OWN_SHARE * variance)) continue;
    const root = Math.sqrt(diagonal);
    factor[column * size + column] = root;
    for (let row = column + 1; row < size; row++) {
      let sum = covariance[row * size + column]!;
      for (let k = 0; k < column; k++) sum -= factor[row * size + k]! * factor[column * size + k]!;
      factor[row * size + column] = sum / root;
    }
  }
  return factor;
}

/**
 * M49. Points that share a row's mean and covariance: mean ± √n times each column of the covariance's Cholesky factor, n the
 * channels present. The average of a function over them is its mean over the row's seconds to second order, which the
 * function of the means is not.
 *
 * @param row a leg row
 * @returns 2 n points, each in the order of MOMENT_CHANNELS, missing channels NaN. Never throws.
 * @see S. Julier and J. Uhlmann, Unscented filtering and nonlinear estimation, Proc. IEEE 92(3), 2004, with κ = 0
 */
export function spreadPoints(row: LegRow): readonly Float64Array[] {
  const mean = measuredValues(row);
  const present = [...mean.keys()].filter((index) => !Number.isNaN(mean[index]!));
  const size = present.length;
  const covariance = Float64Array.from(
    { length: size * size },
    (_, index) => row.covariance[present[Math.floor(index / size)]! * CHANNELS + present[index % size]!] ?? 0,
  ).map((value) => (Number.isFinite(value) ? value : 0));
  const factor = choleskyFactor(covariance, size);
  const points: Float64Array[] = [];
  for (let column = 0; column < size; column++) {
    for (const side of [1, -1]) {
      const point = Float64Array.from(mean);
      present.forEach((channel, index) => {
        point[channel] = mean[channel]! + side * Math.sqrt(size) * factor[index * size + column]!;
      });
      points.push(point);
    }
  }
  return points;
}
