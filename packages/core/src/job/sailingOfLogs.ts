import { mergedSailing } from "../sailing/mergedSailing.ts";
import type { Sailing } from "../sailing/sailing.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import type { JobRun, LogSource } from "./logSource.ts";
import { stepsHere } from "./logSteps.ts";
import { overLogs, PHASES } from "./overLogs.ts";
import type { SecondsPlan } from "./secondsOfLog.ts";

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
  run: JobRun = {},
): Promise<Sailing> {
  const { steps = stepsHere() } = run;
  return mergedSailing(
    await overLogs(logs, steps.atOnce, run, PHASES.sail, (log, own) => steps.sail(log, plan, active, own)),
  );
}
