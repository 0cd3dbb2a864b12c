import { changesNothing, readingsWithoutActive } from "../calibration/activeReadings.ts";
import { unknownBoatReadings } from "../sensors/boatReadings.ts";
import type { SensorSettings } from "../sensors/parameters.ts";

/** Undoes what was active in the instruments (M28) on a second's [awa, aws, stw, heading, heel], in place. */
export function undoing(active: SensorSettings): ((values: Float64Array) => void) | undefined {
  if (changesNothing(active)) return undefined;
  const readings = unknownBoatReadings();
  return (values) => {
    [readings.awa, readings.aws, readings.stw, readings.heading, readings.heel] = [
      values[0]!,
      values[1]!,
      values[2]!,
      values[3]!,
      values[4]!,
    ];
    readingsWithoutActive(readings, active, readings);
    const { awa, aws, stw, heading, heel } = readings;
    values.set([awa, aws, stw, heading, heel]);
  };
}
