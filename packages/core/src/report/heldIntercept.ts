import type { Tack } from "../sailing/legRow.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { MetresPerSecond } from "../units.ts";
import type { TableRow } from "./cells.ts";

type Amount = (settings: SensorSettings) => number;

/** Mean of a speed as it reads, over the rows of one tack or of both, by their counts; NaN without any. Never throws. */
export function meanReading(rows: readonly TableRow[], channel: "stw" | "aws", tack?: Tack): MetresPerSecond {
  const known = rows.filter((row) => (!tack || row.tack === tack) && !Number.isNaN(row.mean[channel]));
  const seconds = known.reduce((sum, { count }) => sum + count, 0);
  return known.reduce((sum, { count, mean }) => sum + count * mean[channel], 0) / seconds;
}

/**
 * M68. The gain, less one, that reads right at the mean reading m while the intercept is held at k instead of the fitted i:
 * (i + g m − k) / m − 1, with g the fitted gain.
 *
 * @param amount fitted gain less one
 * @param intercept fitted intercept, m/s
 * @param held intercept that stays in the instrument, m/s
 * @param mean m, m/s
 * @returns a function of the settings; NaN where m is NaN. Never throws.
 */
export const withHeldIntercept =
  (amount: Amount, intercept: Amount, held: MetresPerSecond, mean: MetresPerSecond): Amount =>
  (settings) =>
    amount(settings) + (intercept(settings) - held) / mean;
