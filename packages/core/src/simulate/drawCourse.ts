import type { Tack } from "../sailing/legRow.ts";
import { metresPerSecond, type Radians, radians, type Seconds } from "../units.ts";
import { lasting, otherTack, within } from "./drawPlan.ts";
import type { RandomNumbers } from "./random.ts";
import type { PlanStep } from "./scenario.ts";

/** Up and down the wind; with reaches between; along a coast on long legs at any angle. */
export const COURSES = ["windward-leeward", "triangle", "coastal"] as const;
export type Course = (typeof COURSES)[number];

/** Sails down: to windward, back and across, straight. */
function straightUnderPower(windDirection: Radians, { between }: RandomNumbers): readonly PlanStep[] {
  const speed = metresPerSecond(between(4.5, 6.5));
  const first = windDirection + radians(between(-30, 30));
  return [0, 180, 90, 270].map((turn) => ({
    kind: "motor",
    heading: first + radians(turn),
    speed,
    seconds: Math.round(between(120, 210)),
  }));
}

/** Legs on one tack and the other in turn. */
function alternating(
  kind: "beat" | "run",
  first: Tack,
  legs: number,
  seconds: () => Seconds,
): readonly PlanStep[] {
  return Array.from({ length: legs }, (_, leg) => ({
    kind,
    tack: leg % 2 === 0 ? first : otherTack(first),
    seconds: seconds(),
  }));
}

/** One round of a course; along a coast one stretch of it. */
function round(course: Course, { between, chance }: RandomNumbers): readonly PlanStep[] {
  const count = (least: number, most: number): number => Math.floor(between(least, most + 0.999));
  const lasts = (least: number, most: number) => (): Seconds => Math.round(between(least, most));
  const first: Tack = chance(0.5) ? "starboard" : "port";
  const reach = (tack: Tack, least: number, most: number, seconds: Seconds): PlanStep => ({
    kind: "reach",
    tack,
    angle: radians(between(least, most)),
    seconds,
  });
  switch (course) {
    case "windward-leeward":
      return [
        ...alternating("beat", first, count(3, 6), lasts(150, 420)),
        ...alternating("run", first, count(2, 5), lasts(150, 420)),
      ];
    case "triangle":
      return [
        ...alternating("beat", first, count(3, 6), lasts(150, 420)),
        reach(first, 95, 125, lasts(240, 420)()),
        reach(otherTack(first), 95, 125, lasts(240, 420)()),
        ...alternating("run", first, count(0, 3), lasts(150, 420)),
      ];
    case "coastal": {
      if (chance(0.4)) return alternating("beat", first, count(2, 4), lasts(400, 900));
      if (chance(0.3)) return alternating("run", first, count(1, 3), lasts(400, 900));
      return [reach(first, 60, 150, lasts(500, 1200)())];
    }
  }
}

/**
 * M173. What is sailed on a course in some hours, after a quarter of an hour under power if asked.
 *
 * @returns steps that last no longer than asked. Never throws.
 */
export function drawCourse(
  course: Course,
  windDirection: Radians,
  seconds: Seconds,
  motoring: boolean,
  random: RandomNumbers,
): readonly PlanStep[] {
  const steps: PlanStep[] = motoring ? [...straightUnderPower(windDirection, random)] : [];
  while (steps.reduce((sum, step) => sum + lasting(step), 0) < seconds) steps.push(...round(course, random));
  return within(steps, seconds);
}
