import { changesNothing, readingsWithoutActive } from "../calibration/activeReadings.ts";
import { mergedSailing, type SailingPart } from "../sailing/mergedSailing.ts";
import type { Sailing } from "../sailing/sailing.ts";
import { SailingSummary } from "../sailing/summary.ts";
import { unknownBoatReadings } from "../sensors/boatReadings.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { type SecondsPlan, secondsOfLog } from "./secondsOfLog.ts";

/** Undoes what was active in the instruments (M28) on a second's [awa, aws, stw, heading, heel], in place. */
function undoing(active: SensorSettings): ((values: Float64Array) => void) | undefined {
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

/**
 * The sailing in some logs, each summed up by itself and then taken together: legs, turns, rows; readings counted from the
 * base of the settings.
 *
 * @param active what was active in the instruments, counted from the base
 * @throws as `readingsOfLog`
 */
export async function sailingOfLogs(
  logs: readonly LogSource[],
  plan: SecondsPlan,
  active: SensorSettings,
  run?: JobRun,
): Promise<Sailing> {
  const transform = undoing(active);
  const parts: SailingPart[] = [];
  for (const log of logs) {
    const summary = new SailingSummary(transform ? { transform } : {});
    for await (const block of secondsOfLog(log, plan, run)) summary.push(block);
    parts.push(summary.finish());
  }
  return mergedSailing(parts);
}
