import { type Radians, radians, type Seconds } from "../units.ts";
import { lasting, otherTack, within } from "./drawPlan.ts";
import type { RandomNumbers } from "./random.ts";
import type { PlanStep } from "./scenario.ts";

/** Sails down under power: to windward and back along the wind, then a slow circle each way, the first by chance. */
function underPower(windDirection: Radians, { between, chance }: RandomNumbers): PlanStep[] {
  const speed = between(2.3, 3.2);
  const rate = radians(between(1.2, 2));
  const turns = chance(0.5) ? 1 : -1;
  const straight = (heading: Radians): PlanStep => ({
    kind: "motor",
    heading,
    speed,
    seconds: Math.round(between(120, 180)),
  });
  return [
    straight(windDirection),
    straight(windDirection + Math.PI),
    { kind: "circle", turns: 2 * turns, rate, speed },
    { kind: "circle", turns: -2 * turns, rate, speed },
  ];
}

/** Legs of one kind on alternating tacks, 2 to 4 minutes each. */
function alternating(kind: "beat" | "run" | "reach", legs: number, random: RandomNumbers): PlanStep[] {
  const { between, chance } = random;
  const angle = radians(between(60, 130));
  let tack = chance(0.5) ? ("starboard" as const) : ("port" as const);
  return Array.from({ length: legs }, (): PlanStep => {
    tack = otherTack(tack);
    const seconds = Math.round(between(120, 240));
    return kind === "reach" ? { kind, tack, angle, seconds } : { kind, tack, seconds };
  });
}

/** One round of sailing: to windward, reaching and downwind in turn, on both tacks. */
const round = (random: RandomNumbers): PlanStep[] => [
  ...alternating("beat", Math.floor(random.between(4, 6.99)), random),
  ...alternating("reach", 2, random),
  ...alternating("run", Math.floor(random.between(3, 4.99)), random),
  ...alternating("reach", 2, random),
];

const lastingTogether = (steps: readonly PlanStep[]): Seconds =>
  steps.reduce((sum, step) => sum + lasting(step), 0);

/**
 * An outing to tune the instruments: under power first, sails down; then to windward, reaching and downwind in turn, on both tacks,
 * with 2 to 4 minutes between the turns.
 */
export function drawTuningPlan(
  windDirection: Radians,
  seconds: Seconds,
  random: RandomNumbers,
): readonly PlanStep[] {
  const steps = underPower(windDirection, random);
  while (lastingTogether(steps) < seconds) steps.push(...round(random));
  return within(steps, seconds);
}

/** Spells of sailing in a day's training, with one under power before, between and after them. */
const SPELLS = 3;

/** A day's training: three spells as in an outing to tune the instruments, under power before, between and after them. */
export function drawTrainingPlan(
  windDirection: Radians,
  seconds: Seconds,
  random: RandomNumbers,
): readonly PlanStep[] {
  const powers = Array.from({ length: SPELLS + 1 }, () => underPower(windDirection, random));
  const [first = [], ...others] = powers;
  const sailing = (seconds - powers.reduce((sum, steps) => sum + lastingTogether(steps), 0)) / SPELLS;
  const spell = (): PlanStep[] => {
    const steps: PlanStep[] = [];
    while (lastingTogether(steps) < sailing) steps.push(...round(random));
    return within(steps, sailing);
  };
  return [...first, ...others.flatMap((power) => [...spell(), ...power])];
}
