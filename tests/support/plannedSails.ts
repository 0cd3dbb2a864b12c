import type { SolvedBoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import { channelsOf } from "../../packages/core/src/fit/recordingChannels.ts";
import { type Plan, planOf } from "../../packages/core/src/judge/plan.ts";
import { type Exercise, type PlannedLeg, SETTING_SAILS } from "../../packages/core/src/judge/plannedLeg.ts";
import type { LegRow, Tack } from "../../packages/core/src/sailing/legRow.ts";
import { anotherDay, drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import type { PlanStep, Scenario } from "../../packages/core/src/simulate/scenario.ts";
import type { Radians, Seconds } from "../../packages/core/src/units.ts";
import { requireSolved, seenSail } from "./scoredSails.ts";

const context = { heelSign: "auto", steeredBy: "sails", leewayLawHolds: true } as const;

function stepOf(leg: PlannedLeg, windDirection: Radians): PlanStep {
  if (leg.kind === "circle") return leg;
  if (leg.kind === "motor")
    return { kind: "motor", heading: windDirection + leg.off, speed: leg.speed, seconds: leg.seconds };
  const { tack, angle, seconds } = leg;
  if (angle === "upwind") return { kind: "beat", tack, seconds };
  return angle === "downwind" ? { kind: "run", tack, seconds } : { kind: "reach", tack, angle, seconds };
}

/** Exercises as steps of a simulated sail. */
export function stepsOf(exercises: readonly Exercise[], windDirection: Radians): readonly PlanStep[] {
  return exercises.flatMap(({ legs, underPower }, index) => {
    const steps = legs.map((leg) => stepOf(leg, windDirection));
    const setsSails = !underPower && exercises[index - 1]?.underPower === true;
    return setsSails ? [{ kind: "luff", tack: "starboard", seconds: SETTING_SAILS }, ...steps] : steps;
  });
}

/** Rounds to windward and back for so long: four legs up, three down, four minutes each. */
function roundsFor(seconds: Seconds): readonly PlanStep[] {
  const steps: PlanStep[] = [];
  let tack: Tack = "starboard";
  for (let left = seconds; left > 0; left -= 240) {
    const kind = steps.length % 7 < 4 ? "beat" : "run";
    steps.push({ kind, tack, seconds: Math.min(240, left) });
    tack = tack === "starboard" ? "port" : "starboard";
  }
  return steps;
}

const together = (one: readonly LegRow[], other: readonly LegRow[]): SolvedBoatFit => {
  const legs = Math.max(...one.map(({ leg }) => leg)) + 1;
  const rows = [...one, ...other.map((row) => ({ ...row, leg: row.leg + legs }))];
  return requireSolved(fitBoat(rows, context));
};

/** A boat fitted on one afternoon; then with an hour more, of the plan made from that, or of rounds to windward and back. */
export interface PlannedBoat {
  readonly seed: number;
  readonly before: SolvedBoatFit;
  readonly plan: Plan;
  readonly planned: SolvedBoatFit;
  readonly rounds: SolvedBoatFit;
}

/** The worst parameter of which there was something to learn: its place in the fit's order. */
export const worstParameter = ({ before, plan }: PlannedBoat): number =>
  before.parameters.findIndex(({ name }) => name === plan.worst);

export function plannedBoat(seed: number, minutes: number, seconds: Seconds = 9000): PlannedBoat {
  const first = drawScenario(seed, { seconds });
  const before = seenSail(first).sailing.rows;
  const fit = requireSolved(fitBoat(before, context));
  const day = anotherDay(first, seed + 4_000_000);
  const { direction, speed } = day.wind;
  const plan = planOf({
    fit,
    channels: channelsOf(before),
    context,
    seconds: 60 * minutes,
    windSpeed: speed,
    windDirection: direction,
  });
  const after = (steps: readonly PlanStep[]): SolvedBoatFit => {
    const scenario: Scenario = { ...day, plan: steps };
    return together(before, seenSail(scenario).sailing.rows);
  };
  return {
    seed,
    before: fit,
    plan,
    planned: after(stepsOf(plan.exercises, direction)),
    rounds: after(roundsFor(60 * minutes)),
  };
}
