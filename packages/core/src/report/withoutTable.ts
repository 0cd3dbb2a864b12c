import { angleBetween } from "../angles.ts";
import type { Boat } from "../calibration/boat.ts";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import type { Tack } from "../sailing/legRow.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { bestTrueWind, keyedReading } from "./bestWind.ts";
import type { TableRow } from "./cells.ts";
import { apparentForComputer, type WindReading } from "./computer.ts";
import { estimateOf } from "./estimate.ts";
import { keyedSettings } from "./keyed.ts";
import { advised, type SingleSetting } from "./settings.ts";

const TACKS: readonly Tack[] = ["starboard", "port"];

const meanOver = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Mean over the rows of each tack, then over the tacks: so that what is opposite on the tacks cancels. */
const overTacks = (rows: readonly TableRow[], value: (row: TableRow) => number): number =>
  meanOver(TACKS.map((tack) => meanOver(rows.filter((row) => row.tack === tack).map(value))));

/**
 * M69. The masthead offset and the wind speed gain that serve best where the computer has no table: with m the mean over
 * the rows of each tack, and then over both tacks, offset = m(wanted angle − reading), gain = exp m(ln(wanted speed / reading)),
 * where the wanted wind is the one that the computer's triangle needs (M67). What is opposite on the tacks, as upwash, stays.
 *
 * @param settings as fitted for a computer with a table
 * @returns the same with these two replaced; NaN, not learnt, where only one tack was sailed. Never throws.
 */
export function withoutTable(
  settings: readonly SingleSetting[],
  fit: SolvedBoatFit,
  active: SensorSettings,
  boat: Boat,
  rows: readonly TableRow[],
): readonly SingleSetting[] {
  const keyed = keyedSettings(settings, active, fit.settings.heel.sign);
  const bare = {
    ...keyed,
    vane: { ...keyed.vane, mastheadOffset: 0 },
    anemometer: { ...keyed.anemometer, gain: 1 },
  };
  const sailing = rows.filter(({ kind }) => kind === "sailing");
  const compared = (row: TableRow, candidate: SensorSettings): readonly [WindReading, WindReading] => {
    const { apparent, state } = keyedReading(row, bare);
    return [apparentForComputer(bestTrueWind(row, candidate), state, boat.computer), apparent];
  };
  const offset = (candidate: SensorSettings): number =>
    overTacks(sailing, (row) => {
      const [wanted, reading] = compared(row, candidate);
      return angleBetween(wanted.angle, reading.angle);
    });
  const gain = (candidate: SensorSettings): number =>
    Math.exp(
      overTacks(sailing, (row) => {
        const [wanted, reading] = compared(row, candidate);
        return Math.log(wanted.speed / reading.speed);
      }),
    ) - 1;
  return settings.map((setting) => {
    const quantity =
      setting.name === "masthead offset" ? offset : setting.name === "wind speed gain" ? gain : undefined;
    if (!quantity) return setting;
    return advised({ ...setting, estimate: estimateOf(quantity, fit) }, boat, rows);
  });
}
