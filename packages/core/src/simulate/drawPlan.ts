import type { Tack } from "../sailing/legRow.ts";
import { metresPerSecond, type Radians, radians, type Seconds } from "../units.ts";
import type { RandomNumbers } from "./random.ts";
import type { PlanStep } from "./scenario.ts";

export const otherTack = (tack: Tack): Tack => (tack === "starboard" ? "port" : "starboard");

/** Leaving harbour under power, sails down: straight to windward of the day's wind or across it, perhaps circles. */
function underPower(windDirection: Radians, { between, chance }: RandomNumbers): PlanStep[] {
  const speed = metresPerSecond(between(4.5, 6.5));
  const heading = windDirection + radians(between(-60, 60));
  const rate = radians(between(2.5, 4.5));
  const turns = chance(0.5) ? 1 : 2;
  const straight = (course: Radians, least: number, most: number): PlanStep => ({
    kind: "motor",
    heading: course,
    speed,
    seconds: Math.round(between(least, most)),
  });
  const circles: PlanStep[] = [
    { kind: "circle", turns, rate, speed },
    { kind: "circle", turns: -turns, rate, speed },
  ];
  return [
    straight(heading, 150, 300),
    straight(heading + radians(between(60, 120)), 90, 240),
    ...(chance(0.6) ? circles : []),
    straight(windDirection + radians(between(-20, 20)), 90, 180),
  ];
}

/** One round: to windward, perhaps a reach, and downwind; between tacks or gybes 3 to 8 minutes, now and then less. */
function lap(first: Tack, { between, chance }: RandomNumbers): PlanStep[] {
  const steps: PlanStep[] = [];
  let tack = first;
  const leg = (): Seconds => Math.round(chance(0.15) ? between(80, 180) : between(180, 480));
  const sail = (kind: "beat" | "run", legs: number): void => {
    for (let count = 0; count < legs; count++, tack = otherTack(tack))
      steps.push({ kind, tack, seconds: leg() });
    tack = otherTack(tack);
  };
  sail("beat", Math.floor(between(3, 6.99)));
  if (chance(0.5)) {
    steps.push({ kind: "reach", tack, angle: radians(between(70, 125)), seconds: leg() });
    if (chance(0.4)) {
      tack = otherTack(tack);
      steps.push({ kind: "reach", tack, angle: radians(between(100, 130)), seconds: leg() });
    }
  }
  sail("run", Math.floor(between(2, 5.99)));
  return steps;
}

/** How long a step takes. */
export const lasting = (step: PlanStep): Seconds =>
  step.kind === "circle" ? (2 * Math.PI * Math.abs(step.turns)) / step.rate : step.seconds;

/** As much of a plan as fits into a time. */
export function within(steps: readonly PlanStep[], seconds: Seconds): PlanStep[] {
  let left = seconds;
  const fitting: PlanStep[] = [];
  for (const step of steps) {
    if (left < 30) break;
    if (step.kind === "circle" || step.seconds <= left) fitting.push(step);
    else fitting.push({ ...step, seconds: Math.floor(left) });
    left -= lasting(step);
  }
  return fitting;
}

/**
 * What is sailed in a day's hours: perhaps out under power, a wait with luffing sails at the line, then rounds to windward
 * and back, with a rest between two of them.
 */
export function drawPlan(
  windDirection: Radians,
  seconds: Seconds,
  motoring: boolean,
  random: RandomNumbers,
): readonly PlanStep[] {
  const { between, chance } = random;
  const steps = motoring ? underPower(windDirection, random) : [];
  const luff = (least: number, most: number): PlanStep => ({
    kind: "luff",
    tack: chance(0.5) ? "starboard" : "port",
    seconds: Math.round(between(least, most)),
  });
  steps.push(luff(60, 200));
  while (steps.reduce((sum, step) => sum + lasting(step), 0) < seconds) {
    steps.push(...lap(chance(0.7) ? "starboard" : "port", random));
    if (chance(0.5)) steps.push(luff(45, 240));
  }
  return within(steps, seconds);
}
