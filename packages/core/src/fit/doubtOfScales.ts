import { inverse, Matrix } from "ml-matrix";
import type { FitSetting } from "./fitSetting.ts";
import { RoundProblem } from "./roundProblem.ts";
import { Said } from "./said.ts";
import type { Settled } from "./settle.ts";
import type { WhitenedRows } from "./wanderingSeries.ts";

/** A season of more rows is many days, and the doubt of each of their scales nothing among them; the table of its slopes would be large. */
const MOST_ROWS = 20_000;

/** What a day's rows say, whitened. */
function saidBy({ slopes, values }: WhitenedRows, scales: readonly number[]): Said {
  const said = new Said(scales);
  values.forEach((value, row) => {
    said.add(slopes, row, value);
  });
  return said;
}

/**
 * M192. Posterior covariance with the doubt that the series leave of their scales of wander: the mean of the covariances under scales that are as likely, and the
 * scatter of what would be found under them, by one step from where the fit came to rest.
 *
 * @returns row-major, as the posterior's; that itself for more than 20,000 rows. Never throws.
 */
export function withDoubtOfScales(settled: Settled, setting: FitSetting): Float64Array {
  const { vector, states, series, scalars, covariance } = settled;
  if (setting.evidence.length > MOST_ROWS) return covariance;
  const problem = new RoundProblem(setting, vector, states, series, scalars);
  const scales = problem.scale;
  const free = scales.length;
  const products = (at: number): number => scales[Math.floor(at / free)]! * scales[at % free]!;
  const posterior = Matrix.from1DArray(
    free,
    free,
    covariance.map((value, at) => value / products(at)),
  );
  const precision = inverse(posterior);
  const doubted = posterior.clone();
  const slopes = problem.plainSlopes(Float64Array.from(setting.free, (index) => vector[index]!));
  series.forEach((one, place) => {
    for (const { found, others } of one.underOtherScales(slopes[place]!, free)) {
      const base = saidBy(found, scales);
      for (const other of others) {
        const { information, score } = saidBy(other, scales);
        const then = inverse(Matrix.add(precision, Matrix.sub(information, base.information)));
        const shift = then.mmul(Matrix.sub(score, base.score));
        // both ways along a direction are one half each
        doubted.add(Matrix.sub(then, posterior).add(shift.mmul(shift.transpose())).mul(0.5));
      }
    }
  });
  return Float64Array.from(doubted.to1DArray(), (value, at) => value * products(at));
}
