import type { FitContext } from "../../packages/core/src/fit/fitContext.ts";
import { channelsOf } from "../../packages/core/src/fit/recordingChannels.ts";
import { lawErrorsOf, settingsOf } from "../../packages/core/src/fit/settingsVector.ts";
import { COURSES, type Course } from "../../packages/core/src/simulate/drawCourse.ts";
import {
  drawLegScenario,
  type LegScenarioOptions,
  WIND_STRENGTHS,
  type WindStrength,
} from "../../packages/core/src/simulate/drawLegScenario.ts";
import { legSail } from "../../packages/core/src/simulate/legSail.ts";
import type { MissingChannel } from "../../packages/core/src/simulate/legScenario.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { drawnTruth, type KnownSail } from "./legBound.ts";

/** M173. Faults are drawn so many times as wide as the fit's priors, so that coverage is no tautology. */
export const DRAWN_WIDTH = 1.25;

/** Sails that are pooled: all winds and courses in turn. */
export interface LegClass {
  readonly name: string;
  readonly tide: boolean;
  readonly without: readonly MissingChannel[];
  /** Seed of the first; the others follow. */
  readonly first: number;
}

export const LEG_CLASSES: readonly LegClass[] = [
  { name: "all sensors", tide: false, without: [], first: 6_100_000 },
  { name: "all sensors, tide", tide: true, without: [], first: 6_200_000 },
  { name: "no heel", tide: true, without: ["heel"], first: 6_300_000 },
  { name: "no GPS", tide: false, without: ["gps"], first: 6_400_000 },
  { name: "no paddle wheel", tide: true, without: ["paddle"], first: 6_500_000 },
];

/** How the fit is told that she was sailed. */
export const AS_SAILED: FitContext = { heelSign: 1, steeredBy: "sails", leewayLawHolds: true };
const STRENGTHS = Object.keys(WIND_STRENGTHS) as readonly WindStrength[];
export const FAULTS_STREAM = 25;
export const AN_AFTERNOON = 4800;

/** A known sail with what it was drawn for. */
export interface DrawnSail extends KnownSail {
  readonly strength: WindStrength;
  readonly course: Course;
}

type Drawing = Pick<LegScenarioOptions, "tide" | "without" | "seconds"> &
  Partial<Pick<LegScenarioOptions, "start" | "sign">>;

/** One sail in the wind and on the course of its number, which take turns. */
export function drawnSail(seed: number, number: number, truth: Float64Array, drawing: Drawing): DrawnSail {
  const strength = STRENGTHS[number % STRENGTHS.length]!;
  const course = COURSES[Math.floor(number / STRENGTHS.length) % COURSES.length]!;
  const [settings, laws] = [settingsOf(truth, 1), lawErrorsOf(truth)];
  const scenario = drawLegScenario(seed, { settings, laws, strength, course, ...drawing });
  const sail = legSail(scenario);
  return { scenario, sail, channels: channelsOf(sail.rows), truth, strength, course };
}

/** The sail of a class with a number. */
export function knownSail({ first, tide, without }: LegClass, number: number): DrawnSail {
  const seed = first + number;
  const truth = drawnTruth(DRAWN_WIDTH, randomNumbers(seed, FAULTS_STREAM).normal);
  return drawnSail(seed, number, truth, { tide, without, seconds: AN_AFTERNOON });
}
