import type { Trouble } from "../../packages/core/src/sailing/trouble.ts";
import { drawScenario, type ScenarioOptions } from "../../packages/core/src/simulate/drawScenario.ts";
import type { SensorTrouble } from "../../packages/core/src/simulate/sensorTroubles.ts";
import { type SeenSail, seenSail } from "./scoredSails.ts";

/** A simulated sail on which something happens to a sensor; the times of what was found count from its start. */
export function troubledSail(
  seed: number,
  troubles: readonly SensorTrouble[],
  options: ScenarioOptions = {},
): SeenSail & { readonly found: readonly Trouble[] } {
  const seen = seenSail({ ...drawScenario(seed, options), troubles });
  return { ...seen, found: sinceStart(seen, seen.sailing.troubles) };
}

/** Troubles with times counted from the start of the sail. */
export const sinceStart = ({ sail }: SeenSail, troubles: readonly Trouble[]): readonly Trouble[] =>
  troubles.map((trouble) => ({
    ...trouble,
    start: trouble.start - sail.scenario.start,
    end: trouble.end - sail.scenario.start,
  }));
