/**
 * How often the intervals of boat speed hold the truth, over simulated boats of which half race and half tune their instruments, by how much of the wheel's deficit
 * falls with speed (M190):
 * node --conditions=bothtacks-source --import tsx scripts/speedCoverage.ts [SEED [BOATS]]
 */
import { INDEX_OF, vectorOf } from "../packages/core/src/fit/settingsVector.ts";
import { factorAt } from "../packages/core/src/judge/evidence.ts";
import { drawScenario, type Outing } from "../packages/core/src/simulate/drawScenario.ts";
import { paddleReading } from "../packages/core/src/simulate/faultShapes.ts";
import type { SpeedFault } from "../packages/core/src/simulate/faults.ts";
import { nearestSettings } from "../packages/core/src/simulate/nearestSettings.ts";
import { knots, radians } from "../packages/core/src/units.ts";
import { fitOf, meanOf, rootMeanSquare, seenSail } from "../tests/support/scoredSails.ts";
import { doTasks, inProcesses } from "./inProcesses.ts";

const NAMES = ["speed.intercept", "speed.gain", "speed.gainDifference"] as const;
const SHARES = [0.1, 0.5, 0.9];
const HALF_WIDTH = 1.96;
const HEELED = radians(20);

interface Task {
  readonly seed: number;
  readonly outing: Outing;
}

/** Errors over their standard deviations; null for a fit that was not solved. */
type Found = { readonly falling: number; readonly errors: readonly number[] } | null;

/** The speed at which the wheel shows a reading, upright in the mean of both tacks, by halving. */
function speedAt(reading: number, fault: SpeedFault): number {
  let [low, high] = [0, 20];
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    const shown = (paddleReading(middle, HEELED, fault) + paddleReading(middle, -HEELED, fault)) / 2;
    if (shown < reading) low = middle;
    else high = middle;
  }
  return low;
}

function work({ seed, outing }: Task): Found {
  const scenario = drawScenario(seed, { outing });
  const seen = seenSail(scenario);
  const fit = fitOf(seen);
  if (fit.status === "unsolved") return null;
  const { speed } = scenario.faults;
  const truth = vectorOf(nearestSettings(scenario.faults));
  const ofParameters = NAMES.map((name) => {
    const { value, sd } = fit.parameters[INDEX_OF[name]]!;
    return (value - truth[INDEX_OF[name]]!) / sd;
  });
  const readings = seen.sailing.rows.map(({ mean }) => mean.stw).sort((one, other) => one - other);
  const atReadings = SHARES.map((share) => {
    const reading = readings[Math.floor(share * readings.length)]!;
    const found = factorAt(fit, "speed", reading);
    return found
      ? (HALF_WIDTH * (found.value - Math.log(speedAt(reading, speed) / reading))) / found.half
      : Number.NaN;
  });
  return { falling: knots(speed.deficit * speed.deficitFalling), errors: [...ofParameters, ...atReadings] };
}

doTasks(import.meta.url, work);

function told(errors: readonly number[]): string {
  const known = errors.filter((error) => !Number.isNaN(error));
  const held = known.filter((error) => Math.abs(error) <= HALF_WIDTH).length;
  return `${((100 * held) / known.length).toFixed(1)} %, ${meanOf(known).toFixed(2)}, ${rootMeanSquare(known).toFixed(2)}`;
}

if (process.send === undefined) {
  const [seed = 92_001, boats = 100] = process.argv.slice(2).map(Number);
  const tasks = Array.from(
    { length: boats },
    (_, at): Task => ({ seed: seed + at, outing: at % 2 ? "tuning" : "racing" }),
  );
  const found = (await inProcesses<Task, Found>(import.meta.url, tasks)).filter((one) => one !== null);
  const byFalling = found.toSorted((one, other) => one.falling - other.falling);
  const third = Math.ceil(byFalling.length / 3);
  const groups = [found, ...[0, 1, 2].map((at) => byFalling.slice(at * third, (at + 1) * third))];
  const heads = ["all", "least falling", "middle", "most falling"];
  const rows = [...NAMES, ...SHARES.map((share) => `speed at the ${100 * share} % reading`)];
  process.stdout.write(
    `\n${found.length} of ${boats} boats solved; the 95 % interval holds, mean error and its rms over sd:\n\n| | ${heads.join(" | ")} |\n| --- |${" --- |".repeat(4)}\n${rows
      .map(
        (name, at) =>
          `| ${name} | ${groups.map((group) => told(group.map(({ errors }) => errors[at]!))).join(" | ")} |`,
      )
      .join("\n")}\n`,
  );
}
