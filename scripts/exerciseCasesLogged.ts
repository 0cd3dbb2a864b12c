import { anemometerInCalm } from "../packages/core/src/fit/anemometerInCalm.ts";
import { circleInLog } from "../packages/core/src/fit/circleInLog.ts";
import { runsAmongPieces } from "../packages/core/src/fit/runsInLog.ts";
import { speedFromRuns } from "../packages/core/src/fit/speedFromRuns.ts";
import { straightPieces } from "../packages/core/src/fit/straightPieces.ts";
import { drawScenario } from "../packages/core/src/simulate/drawScenario.ts";
import { paddleReading } from "../packages/core/src/simulate/faultShapes.ts";
import type { SpeedFault } from "../packages/core/src/simulate/faults.ts";
import { nearestSettings } from "../packages/core/src/simulate/nearestSettings.ts";
import type { PlanStep, Scenario } from "../packages/core/src/simulate/scenario.ts";
import { METRES_PER_SECOND_IN_A_KNOT as KNOT, radians } from "../packages/core/src/units.ts";
import { circles, HEADINGS_HELD, motored, motoredIn } from "../tests/support/circlesUnderPower.ts";
import { type ExerciseCase, type Held, holds, normal } from "./exerciseDraws.ts";

/** The variation's own error (M17), which no simulated boat has by herself. */
const VARIATION = radians(0.5);

function circleHeld(seed: number, plan: readonly PlanStep[]): Held {
  const { faults, seconds } = motored(seed, plan);
  const error = VARIATION * normal();
  const found = circleInLog(seconds.map((second) => ({ ...second, variation: second.variation + error })));
  if (found.status === "unsolved") return undefined;
  const truth = nearestSettings(faults).compass;
  const term = (name: "a" | "b" | "c" | "d" | "e"): boolean =>
    holds(found.series[name], truth[name], found.halves[name]);
  return { A: term("a"), B: term("b"), C: term("c"), D: term("d"), E: term("e") };
}

const circleCase = (name: string, plan: readonly PlanStep[]): ExerciseCase => ({
  name: `circle from a log: ${name}`,
  isSimulated: true,
  draw: (trial) => circleHeld(720_000 + trial, plan),
});

/** Runs there and back at these speeds, so many seconds each. */
const thereAndBack = (heading: number, speeds: readonly number[], seconds: number): readonly PlanStep[] =>
  speeds.flatMap((speed) =>
    [heading, heading + Math.PI].map((to) => ({
      kind: "motor" as const,
      heading: to % (2 * Math.PI),
      speed: speed * KNOT,
      seconds,
    })),
  );

const runsOf = (scenario: Scenario) => runsAmongPieces(straightPieces(motoredIn(scenario)));

/** The speed at which an upright wheel shows a reading, by halving. */
function speedAt(reading: number, fault: SpeedFault): number {
  let [low, high] = [0, 20];
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (paddleReading(middle, 0, fault) < reading) low = middle;
    else high = middle;
  }
  return low;
}

function loggedRunsHeld(seed: number, speeds: readonly number[]): Held {
  const scenario = drawScenario(seed);
  const runs = runsOf({ ...scenario, plan: thereAndBack(radians(seed % 360), speeds, 240) });
  const found = speedFromRuns(runs, { deviation: 0.03 * KNOT, stream: 2 * KNOT });
  if (found.status === "unsolved") return undefined;
  const at = (share: number): boolean => {
    const { reading, gain, half } = found.gains[Math.floor(share * (found.gains.length - 1))]!;
    return holds(gain, speedAt(reading, scenario.faults.speed) / reading, half);
  };
  return { "gain at the slowest": at(0), "gain in the middle": at(0.5), "gain at the fastest": at(1) };
}

/** A boat speed that was calibrated, to 1 %. */
function calmScenario(seed: number): Scenario {
  const scenario = drawScenario(seed);
  const gain = 1 + 0.01 * normal();
  const speed = { deficit: 0, deficitFalling: 0, gainStarboard: gain, gainPort: gain };
  return {
    ...scenario,
    faults: { ...scenario.faults, speed },
    wind: { ...scenario.wind, speed: Math.abs(0.7 * KNOT * normal()) + 0.1 },
    // what swell is left of a breeze
    sea: { ...scenario.sea, roll: scenario.sea.roll / 4, pitch: scenario.sea.pitch / 4 },
    plan: thereAndBack(radians(seed % 360), [4, 5.5, 7], 150),
  };
}

function loggedCalmHeld(seed: number): Held {
  const scenario = calmScenario(seed);
  const { threshold, gain } = scenario.faults.anemometer;
  const runs = runsOf(scenario).map(({ reading, way, wind, ahead }) => ({
    speed: reading,
    way,
    reading: wind,
    ahead,
  }));
  const found = anemometerInCalm(
    runs.filter(({ reading }) => reading >= 0),
    { deviation: 0.1 * KNOT, speedGain: 0.01 },
  );
  if (found.status === "unsolved") return undefined;
  return {
    "ratio at the mean": holds(found.atMean.gain, gain + threshold / found.atMean.reading, found.atMean.half),
    gain: holds(found.gain, gain, found.gainHalf),
    threshold: holds(found.threshold, threshold, found.thresholdHalf),
  };
}

/** Boats of the simulator: a sea, a current that turns and wanders, and shapes of faults that no fit knows. */
export const LOGGED_CASES: readonly ExerciseCase[] = [
  circleCase("one to each side", circles(1, -1)),
  circleCase("two to each side", circles(1, -1, 1, -1)),
  circleCase("two to starboard", circles(1, 1)),
  circleCase("eight headings held", HEADINGS_HELD),
  {
    name: "runs from a log: two speeds twice there and back",
    isSimulated: true,
    draw: (trial) => loggedRunsHeld(730_000 + trial, [4.5, 4.5, 6.5, 6.5]),
  },
  {
    name: "runs from a log: one speed there and back",
    isSimulated: true,
    draw: (trial) => loggedRunsHeld(731_000 + trial, [5.5]),
  },
  {
    name: "anemometer in a calm, from a log",
    isSimulated: true,
    draw: (trial) => loggedCalmHeld(732_000 + trial),
  },
];
