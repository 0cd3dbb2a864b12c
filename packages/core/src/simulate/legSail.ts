import type { LegRow } from "../sailing/legRow.ts";
import { unknownBoatReadings } from "../sensors/boatReadings.ts";
import { type BoatReadings, type Circumstances, underSail } from "../sensors/boatState.ts";
import type { Seconds } from "../units.ts";
import { lasting } from "./drawPlan.ts";
import { lawfulReadings } from "./lawfulReadings.ts";
import { LegHelm } from "./legHelm.ts";
import { type Moment, meansOf, momentOf, rowOfMoments } from "./legRows.ts";
import type { LegScenario } from "./legScenario.ts";
import { legWeather } from "./legWeather.ts";
import { type RandomNumbers, randomNumbers } from "./random.ts";
import type { PlanStep } from "./scenario.ts";

/** A row is the mean of so many moments, so far apart: an eighth of what turbulence is held for. */
const MOMENTS = 10;
const STEP: Seconds = 3;
/** After a turn she gathers way before rows begin. */
const SETTLING: Seconds = 30;

/** Streams of random numbers, unlike those of a sail simulated second by second. */
const STREAMS = { weather: 21, boat: 22, sensors: 23 } as const;

/** Rows as a log would have given them, and what they would be without noise of the sensors. */
export interface LegSail {
  readonly rows: readonly LegRow[];
  /** Means of each row's readings free of noise, in the order of MOMENT_CHANNELS. */
  readonly quiet: readonly Float64Array[];
}

const circumstancesOf = (step: PlanStep, { without }: LegScenario, sinceMiddle: Seconds): Circumstances => ({
  ...underSail,
  sinceMiddle,
  sailsUp: step.kind !== "motor",
  heelIs: without.includes("heel") ? "modelled" : "reading",
});

/** What is not there is NaN. */
function withoutMissing(out: BoatReadings, { without }: LegScenario): BoatReadings {
  if (without.includes("gps")) out.east = out.north = Number.NaN;
  if (without.includes("paddle")) out.stw = Number.NaN;
  return out;
}

function noisy(quiet: BoatReadings, { noise }: LegScenario, { normal }: RandomNumbers): BoatReadings {
  return {
    awa: quiet.awa + noise.awa * normal(),
    aws: quiet.aws + noise.aws * normal(),
    stw: quiet.stw + noise.stw * normal(),
    heading: quiet.heading + noise.heading * normal(),
    heel: quiet.heel + noise.heel * normal(),
    east: quiet.east + noise.ground * normal(),
    north: quiet.north + noise.ground * normal(),
  };
}

/**
 * M172. The rows of a sail in which sensors, wind and current go by the fit's own laws, made directly: of each row ten moments, three
 * seconds apart.
 *
 * @throws RangeError where the plan holds a circle or the seed is no whole number
 */
export function legSail(scenario: LegScenario): LegSail {
  const { seed, sign = 1 } = scenario;
  const random = (stream: keyof typeof STREAMS): RandomNumbers => {
    const numbers = randomNumbers(seed, STREAMS[stream]);
    return { ...numbers, normal: () => sign * numbers.normal() };
  };
  const weather = legWeather(scenario, STEP, random("weather"));
  const helm = new LegHelm(scenario, STEP, random("boat"));
  const sensors = random("sensors");
  const rows: LegRow[] = [];
  const quiet: Float64Array[] = [];
  let at: Seconds = scenario.start;
  const sailed = scenario.plan.reduce((sum, step) => sum + lasting(step), SETTLING);
  const middle = scenario.start + sailed / 2;
  scenario.plan.forEach((step, leg) => {
    const moment = (): BoatReadings => {
      const way = helm.way(step, weather());
      const circumstances = circumstancesOf(step, scenario, at - middle);
      at += STEP;
      const { settings, laws } = scenario;
      const readings = lawfulReadings(way, circumstances, settings, laws, unknownBoatReadings());
      return withoutMissing(readings, scenario);
    };
    for (let waited = 0; waited < SETTLING; waited += STEP) moment();
    const whole = Math.floor((lasting(step) - SETTLING) / (MOMENTS * STEP));
    for (let row = 0; row < whole; row++) {
      const start = at;
      const exact = Array.from({ length: MOMENTS }, moment);
      const seen = exact.map((readings): Moment => momentOf(noisy(readings, scenario, sensors)));
      const kind = step.kind === "motor" ? "motoring" : "sailing";
      rows.push(rowOfMoments(seen, { leg, kind, start, duration: MOMENTS * STEP }));
      quiet.push(meansOf(exact.map(momentOf)));
    }
  });
  return { rows, quiet };
}
