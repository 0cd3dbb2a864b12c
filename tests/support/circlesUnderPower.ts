import type { SecondUnderPower } from "../../packages/core/src/fit/circleBlocks.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import type { PlanStep, Scenario } from "../../packages/core/src/simulate/scenario.ts";
import { simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { secondsOfSail } from "../../packages/core/src/simulate/simulatedSeconds.ts";
import { METRES_PER_SECOND_IN_A_KNOT as KNOT, radians } from "../../packages/core/src/units.ts";

/** Circles of four minutes at 5 kn, to starboard positive. */
export const circles = (...turns: readonly (1 | -1)[]): readonly PlanStep[] =>
  turns.map((one) => ({ kind: "circle", turns: one, rate: radians(1.5), speed: 5 * KNOT }));

/** Eight headings held for two minutes each. */
export const HEADINGS_HELD: readonly PlanStep[] = Array.from({ length: 8 }, (_, at) => ({
  kind: "motor",
  heading: (Math.PI / 4) * at,
  speed: 5 * KNOT,
  seconds: 120,
}));

/** The seconds of a scenario as the job has them. */
export const motoredIn = (scenario: Scenario): readonly SecondUnderPower[] =>
  secondsOfSail(simulatedSail(scenario)).flatMap(({ length, time, headingIsTrue, columns }) =>
    Array.from({ length }, (_, at) => ({
      time: time[at]!,
      heading: columns.heading[at]!,
      variation: headingIsTrue ? 0 : columns.variation[at]!,
      stw: columns.stw[at]!,
      east: columns.east[at]!,
      north: columns.north[at]!,
      awa: columns.awa[at]!,
      aws: columns.aws[at]!,
    })),
  );

/** A boat drawn from a seed, motored by a plan: her faults, and the seconds as the job has them. */
export function motored(
  seed: number,
  plan: readonly PlanStep[],
): { readonly faults: Scenario["faults"]; readonly seconds: readonly SecondUnderPower[] } {
  const scenario = drawScenario(seed);
  return { faults: scenario.faults, seconds: motoredIn({ ...scenario, plan }) };
}
