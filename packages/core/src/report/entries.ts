import { angleBetween } from "../angles.ts";
import type { OnboardComputer } from "../calibration/boat.ts";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { bestTrueWind, keyedReading } from "./bestWind.ts";
import type { Cell, TableRow } from "./cells.ts";
import { apparentForComputer, computerTrueWind, type WindReading } from "./computer.ts";
import { type Estimate, estimateOf } from "./estimate.ts";
import { withSettled } from "./keyed.ts";
import type { SingleSetting } from "./settings.ts";

/** A cell with the amounts to add to the readings there. */
export interface TableCell extends Cell {
  /** What the table is looked up by and added to: the reading after the single settings, rad and m/s. */
  readonly reading: WindReading;
  /** Added to the wind angle, rad, positive to starboard. */
  readonly angle: Estimate;
  /** Added to the wind speed, m/s. */
  readonly speed: Estimate;
}

/** The wind that a table of this kind is added to, of a row, with the single settings keyed in. Never throws. */
export function lookedUpWind(row: TableRow, keyed: SensorSettings, computer: OnboardComputer): WindReading {
  const { apparent, state } = keyedReading(row, keyed);
  return computer.table === "true" ? computerTrueWind(apparent, state, computer) : apparent;
}

/**
 * M67. The wind that the looked-up reading must become for the computer to show the best estimate T(p) of the true wind:
 * T(p) itself where the table sits on true wind; where it sits on apparent wind, the apparent wind of which the
 * computer's own triangle (M66) makes T(p). The entry is that less the reading.
 */
function wanted(
  row: TableRow,
  settings: SensorSettings,
  keyed: SensorSettings,
  computer: OnboardComputer,
): WindReading {
  const best = bestTrueWind(row, settings);
  return computer.table === "true"
    ? best
    : apparentForComputer(best, keyedReading(row, keyed).state, computer);
}

/**
 * The amounts to add in a cell (M67), with the interval that the fit's doubt about what the table is for leaves them (M65):
 * the reading and the single settings that were judged are held, the rest varies with the parameters.
 *
 * @param keyed what will stand in the instruments
 * @param singles the single settings as fitted and judged
 * Never throws.
 */
export function tableCell(
  cell: Cell,
  fit: SolvedBoatFit,
  keyed: SensorSettings,
  singles: readonly SingleSetting[],
  computer: OnboardComputer,
): TableCell {
  const reading = lookedUpWind(cell.typical, keyed, computer);
  const target = (settings: SensorSettings) =>
    wanted(cell.typical, withSettled(settings, singles), keyed, computer);
  return {
    ...cell,
    reading,
    angle: estimateOf((settings) => angleBetween(target(settings).angle, reading.angle), fit),
    speed: estimateOf((settings) => target(settings).speed - reading.speed, fit),
  };
}
