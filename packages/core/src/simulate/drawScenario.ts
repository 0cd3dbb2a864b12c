import { noCorrections } from "../sensors/noCorrections.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { metresPerSecond, type Radians, radians, type Seconds } from "../units.ts";
import { drawFaults, faultlessBoat } from "./drawFaults.ts";
import { drawPlan } from "./drawPlan.ts";
import { drawTrainingPlan, drawTuningPlan } from "./drawTuning.ts";
import type { BoatFaults } from "./faults.ts";
import { type RandomNumbers, randomNumbers } from "./random.ts";
import type { Helm, LogForm, PlanStep, Scenario, SensorForm, WindOfDay } from "./scenario.ts";

/** Stream of random numbers of the drawing; those of the sail itself are others. */
const DRAWING = 0;
const ANOTHER_DAY = 7;

/** What may be asked of a scenario; what is left out is drawn, or usual. */
export const OUTINGS = ["racing", "tuning", "training"] as const;
export type Outing = (typeof OUTINGS)[number];

/** What may be asked of a drawn scenario; what is left out is drawn, or usual. */
export interface ScenarioOptions {
  /** "none": faultless sensors, no shear and an even-handed helm. */
  readonly faults?: "drawn" | "none" | BoatFaults;
  /** How long she sails: 9000 s, a day's training 18000 s. */
  readonly seconds?: Seconds;
  /**
   * What the day is for: "racing" (as on a course, the usual), "tuning" the instruments, which begins under power, or "training", a
   * day of the same.
   */
  readonly outing?: Outing;
  /** Whether she leaves harbour under power; else drawn, one in two. */
  readonly motoring?: boolean;
  /** Sensors that are missing. */
  readonly without?: readonly ("heel" | "gps" | "paddle" | "compass")[];
  /** Corrections that the instruments apply: none. */
  readonly active?: SensorSettings;
  /** Readings a second of wind, heel and pitch: 1. */
  readonly rate?: 1 | 2 | 4;
  /** By what she is steered to windward: the sails. */
  readonly steersBy?: Helm["steersBy"];
}

/** A summer's day at noon; drawn sails lie within a season from it. */
const NOON: Seconds = Date.UTC(2026, 4, 2, 12) / 1000;
const DAY: Seconds = 86_400;

function drawnLog(random: RandomNumbers, options: ScenarioOptions): LogForm {
  const { between, chance } = random;
  const { without = [], active = noCorrections, rate = 1 } = options;
  const form = (lag: number, damping: number, noise: number, present = true): SensorForm => ({
    present,
    lag: between(0, lag),
    damping: between(damping / 4, damping),
    noise,
  });
  return {
    wind: { ...form(1, 2.5, radians(between(1.5, 3))), speedNoise: between(0.1, 0.3) },
    paddle: form(1, 4, 0.08, !without.includes("paddle")),
    compass: form(0.5, 1, radians(0.6), !without.includes("compass")),
    heel: form(0.5, 1.5, radians(0.5), !without.includes("heel")),
    gps: form(1, 1, 0.04, !without.includes("gps")),
    windRate: rate,
    heelRate: rate,
    angleDecimals: 1,
    speedDecimals: chance(0.5) ? 1 : 2,
    headings: "magnetic",
    active,
    spikesPerHour: 2,
    silencesPerHour: 1,
    brokenLinesPerHour: 4,
    onboardTrueWind: false,
  };
}

function planOf(
  outing: Outing,
  direction: Radians,
  seconds: Seconds,
  motoring: boolean,
  random: RandomNumbers,
): readonly PlanStep[] {
  if (outing === "tuning") return drawTuningPlan(direction, seconds, random);
  if (outing === "training") return drawTrainingPlan(direction, seconds, random);
  return drawPlan(direction, seconds, motoring, random);
}

/** Wind, water, helm and plan of one day. */
function drawnDay(random: RandomNumbers, options: ScenarioOptions) {
  const { between, normal } = random;
  const isEven = options.faults === "none";
  const direction = radians(between(0, 360));
  const speed = metresPerSecond(between(7, 20));
  const directionSd = radians(between(5, 9));
  const logSpeedSd = between(0.08, 0.18);
  const sea = between(0.5, 1) * Math.min(1.3, speed / 7);
  const { outing = "racing", motoring = random.chance(0.5), steersBy = "sails" } = options;
  const { seconds = outing === "training" ? 18_000 : 9000 } = options;
  return {
    wind: {
      direction,
      speed,
      directionSd,
      turbulentDirectionSd: directionSd * between(0.4, 0.65),
      logSpeedSd,
      turbulentLogSpeedSd: logSpeedSd * between(0.4, 0.65),
      turbulenceSeconds: between(20, 30),
      veer: radians(between(-8, 8)),
      rise: between(-0.2, 0.2),
      bend: radians(normal()),
    },
    shear: {
      twist: isEven ? 0 : radians(normal()),
      twistWander: isEven ? 0 : radians(0.3),
      speedRatio: between(0.92, 0.99),
    },
    current: {
      strength: metresPerSecond(between(0, 1.5)),
      set: radians(between(0, 360)),
      phase: radians(between(0, 360)),
      wander: metresPerSecond(between(0.02, 0.12)),
    },
    sea: {
      roll: radians(1.7 * sea),
      pitch: radians(0.8 * sea),
      yaw: radians(1.4 * sea),
      rollFrequency: between(0.2, 0.35),
      pitchFrequency: between(0.3, 0.5),
    },
    helm: { steersBy, asymmetry: isEven ? 0 : radians(0.5 * normal()), noise: radians(1.5) },
    plan: planOf(outing, direction, seconds, motoring, random),
  };
}

/**
 * A scenario drawn at random: a boat with her faults on a day with its own wind.
 *
 * @param seed a whole number; the same gives the same scenario
 * @throws RangeError where it is none
 * @example
 * drawScenario(7, { faults: "none" }).seed // 7
 */
export function drawScenario(seed: number, options: ScenarioOptions = {}): Scenario {
  const random = randomNumbers(seed, DRAWING);
  const { faults = "drawn" } = options;
  return {
    seed,
    start: NOON + DAY * Math.floor(random.between(0, 120)),
    latitude: radians(random.between(48, 50)),
    longitude: radians(random.between(-12, -9)),
    mastHeight: random.between(14, 19),
    faults: faults === "drawn" ? drawFaults(random) : faults === "none" ? faultlessBoat : faults,
    ...drawnDay(random, options),
    log: drawnLog(random, options),
  };
}

/** The other day's wind differs by at least this in speed, and by that in direction. */
const OTHER_WIND = metresPerSecond(3);
const OTHER_DIRECTION = radians(40);

const differs = (one: WindOfDay, other: WindOfDay): boolean =>
  Math.abs(one.speed - other.speed) >= OTHER_WIND &&
  Math.cos(one.direction - other.direction) <= Math.cos(OTHER_DIRECTION);

/**
 * The same boat with the same faults and instruments on another day, in another wind (3 kn and 40° away at least), under
 * sail all the time unless told: what corrections are scored on that were found on the first.
 *
 * @param seed a whole number; another gives another day
 * @param options `faults`: "none" for an even day without shear; `seconds`, `outing`, `motoring`, `steersBy`; the rest stays
 * @throws RangeError where the seed is no whole number
 * @example
 * anotherDay(scenario, 8).mastHeight === scenario.mastHeight // true
 */
export function anotherDay(
  scenario: Scenario,
  seed: number,
  options: Pick<ScenarioOptions, "faults" | "seconds" | "outing" | "motoring" | "steersBy"> = {},
): Scenario {
  const random = randomNumbers(seed, ANOTHER_DAY);
  const start = scenario.start + DAY * Math.floor(random.between(2, 30));
  for (;;) {
    const day = drawnDay(random, { motoring: false, ...options });
    if (differs(scenario.wind, day.wind)) return { ...scenario, seed, start, ...day };
  }
}
