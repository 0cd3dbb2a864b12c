import { wrapAngle } from "../angles.ts";
import type { OnboardComputer } from "../calibration/boat.ts";
import type { Tack } from "../sailing/legRow.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { radians } from "../units.ts";
import { keyedReading } from "./bestWind.ts";
import { computerTrueWind, type WindReading } from "./computer.ts";
import type { TableCell } from "./entries.ts";
import type { Estimate } from "./estimate.ts";
import { LEARNT } from "./format.ts";

/** One reading followed through the settings and the table to the true wind that the computer then shows. */
export interface WorkedReading {
  readonly tack: Tack;
  /** The cell whose entries are used. */
  readonly cell: TableCell;
  /** Apparent wind as the sensor reads. */
  readonly reading: WindReading;
  /** The same after the single settings. */
  readonly afterSettings: WindReading;
  /** What the entries are added to, and what comes of it: apparent or true wind, as the table sits. */
  readonly beforeTable: WindReading;
  readonly afterTable: WindReading;
  /** The true wind that the computer shows in the end. */
  readonly trueWind: WindReading;
}

function worked(
  cell: TableCell,
  keyed: SensorSettings,
  computer: OnboardComputer,
  withTable: boolean,
): WorkedReading {
  const { apparent, state } = keyedReading(cell.typical, keyed);
  const entered = ({ value, informed }: Estimate): number => (withTable && informed >= LEARNT ? value : 0);
  const added = { angle: entered(cell.angle), speed: entered(cell.speed) };
  const afterTable = {
    angle: wrapAngle(cell.reading.angle + added.angle),
    speed: cell.reading.speed + added.speed,
  };
  return {
    tack: cell.tack,
    cell,
    reading: { angle: cell.typical.mean.awa, speed: cell.typical.mean.aws },
    afterSettings: apparent,
    beforeTable: cell.reading,
    afterTable,
    trueWind: computer.table === "true" ? afterTable : computerTrueWind(afterTable, state, computer),
  };
}

/** Ahead of the beam by the apparent wind: where the corrections are largest and the signs matter most. */
const isUpwind = ({ typical }: TableCell): boolean => Math.abs(typical.mean.awa) < radians(70);

/**
 * The best supported reading of each tack that was sailed, upwind if it can be, worked through what the advice keys in.
 *
 * @param withTable whether the table is keyed in
 * Never throws.
 */
export const workedReadings = (
  cells: readonly TableCell[],
  keyed: SensorSettings,
  computer: OnboardComputer,
  withTable: boolean,
): readonly WorkedReading[] =>
  (["starboard", "port"] as const).flatMap((tack) => {
    const [best] = cells
      .filter((cell) => cell.tack === tack && (cell.angle.informed >= LEARNT || computer.table === "none"))
      .sort((a, b) => Number(isUpwind(b)) - Number(isUpwind(a)) || b.rows - a.rows);
    return best ? [worked(best, keyed, computer, withTable)] : [];
  });
