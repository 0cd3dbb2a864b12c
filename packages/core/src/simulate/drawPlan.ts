import type { Random } from "./random.ts";
import type { PlanStep } from "./scenario.ts";

type Tack = "starboard" | "port";
const otherTack = (tack: Tack): Tack => (tack === "starboard" ? "port" : "starboard");

/** Heading in [0, 360), degrees. */
const heading = (degrees: number): number => ((degrees % 360) + 360) % 360;

/** Motoring out of harbour: straight runs and a circle or two each way. */
function underPower(windDirection: number, random: Random): PlanStep[] {
  const speed_kn = random.between(5, 6.5);
  const first = windDirection + random.between(-40, 40);
  const straight = (turned: number): PlanStep => ({
    kind: "motor",
    heading_deg: heading(first + turned),
    speed_kn,
    seconds: random.between(100, 200),
  });
  const circle = (turns: number): PlanStep => ({
    kind: "circle",
    turns,
    speed_kn,
    seconds: Math.abs(turns) * random.between(90, 130),
  });
  const steps = [straight(0), straight(180), straight(95), circle(random.oneOf([1, 2]))];
  if (random.uniform() < 0.6) steps.push(circle(-1), straight(-80));
  return steps;
}

const legSeconds = (random: Random): number => random.between(180, 360);

function beats(count: number, first: Tack, random: Random): PlanStep[] {
  const steps: PlanStep[] = [];
  for (let leg = 0, tack = first; leg < count; leg++, tack = otherTack(tack))
    steps.push({ kind: "beat", tack, seconds: legSeconds(random) });
  return steps;
}

function course(tack: Tack, angle_deg: number, seconds: number, random: Random): PlanStep {
  const steered_by = random.uniform() < 0.5 ? "wind" : "compass";
  return { kind: "course", tack, angle_deg, steered_by, seconds };
}

function runs(count: number, first: Tack, random: Random): PlanStep[] {
  const steps: PlanStep[] = [];
  for (let leg = 0, tack = first; leg < count; leg++, tack = otherTack(tack))
    steps.push(course(tack, random.between(138, 162), legSeconds(random), random));
  return steps;
}

const some = (least: number, most: number, random: Random): number =>
  least + Math.floor((most - least + 1) * random.uniform());

/** Up, at times along, and down again. */
function lap(random: Random): PlanStep[] {
  const tack: Tack = random.oneOf(["starboard", "port"]);
  const steps = beats(some(4, 7, random), tack, random);
  if (random.uniform() < 0.4)
    steps.push(
      course(random.oneOf(["starboard", "port"]), random.between(65, 118), legSeconds(random), random),
    );
  steps.push(...runs(some(3, 6, random), random.oneOf(["starboard", "port"]), random));
  if (random.uniform() < 0.25) steps.push({ kind: "luff", seconds: random.between(60, 120) });
  return steps;
}

const secondsOf = (steps: readonly PlanStep[]): number =>
  steps.reduce((sum, { seconds }) => sum + seconds, 0);

/**
 * M73. A plan for an afternoon: now and then motoring out, laps up and down the wind, some reaching, a stop.
 *
 * @param hours about how long
 * @param motoring whether it begins under power; drawn where undefined
 */
export function drawPlan(
  windDirection: number,
  hours: number,
  motoring: boolean | undefined,
  random: Random,
): PlanStep[] {
  const begins = random.uniform() < 0.5;
  const engine = underPower(windDirection, random);
  const steps = (motoring ?? begins) ? [...engine, { kind: "luff", seconds: 60 } as const] : [];
  while (secondsOf(steps) < hours * 3600) steps.push(...lap(random));
  let excess = secondsOf(steps) - hours * 3600;
  while (excess > (steps.at(-1)?.seconds ?? excess)) excess -= steps.pop()?.seconds ?? 0;
  return steps;
}
