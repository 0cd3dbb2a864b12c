import type { SolvedBoatFit } from "../fit/boatFit.ts";
import type { Plan } from "../judge/plan.ts";
import type { MEASURE_KINDS } from "../judge/planMeasures.ts";
import { SETTING_SAILS } from "../judge/plannedLeg.ts";
import { degrees, knots } from "../units.ts";
import { CAUTIONS } from "./cautions.ts";
import { capital, HALF_WIDTH_95, listed, plain, threeFigures } from "./format.ts";
import { parameterInterval, parameterRow } from "./parameterAmounts.ts";
import { PARAMETER_WORDS } from "./parameterWords.ts";
import { exerciseWords } from "./planWords.ts";

/** What the words are drawn from. */
export interface PlanText {
  readonly fit: SolvedBoatFit;
  readonly plan: Plan;
  /** m/s, as far as it was told. */
  readonly windSpeed?: number;
  /** rad, as far as it was told. */
  readonly windDirection?: number;
}

const MEASURE_WORDS: Readonly<Record<(typeof MEASURE_KINDS)[number], string>> = {
  "tack gap upwind": "direction between tacks, upwind",
  "tack gap off the wind": "direction between tacks, downwind",
  "direction upwind against downwind": "direction upwind against downwind",
  "wind direction": "direction itself, upwind",
  "wind speed between tacks": "wind speed between tacks, upwind",
};

function measureText(kind: (typeof MEASURE_KINDS)[number], sd: number): string {
  const half = HALF_WIDTH_95 * sd;
  return kind === "wind speed between tacks"
    ? `± ${plain(100 * half, 1)} %`
    : `± ${plain(degrees(half), 1)}°`;
}

/** A parameter counts here from this share of what matters on. */
const COUNTS = 0.3;
const MOST_PARAMETERS = 8;

/** The parameters whose doubt matters, the worst first: places in the fit's order. */
const worstParameters = ({ plan: { doubts } }: PlanText): readonly number[] =>
  [...doubts.keys()]
    .filter((index) => doubts[index]! > COUNTS)
    .sort((one, other) => doubts[other]! - doubts[one]!)
    .slice(0, MOST_PARAMETERS);

/** Rows of the tables, without their heads. */
const measureRows = ({ plan }: PlanText): readonly (readonly string[])[] =>
  plan.measures.map(({ kind, before, after }) => [
    MEASURE_WORDS[kind],
    measureText(kind, before),
    measureText(kind, after),
  ]);

const parameterRows = (text: PlanText): readonly (readonly string[])[] =>
  worstParameters(text).map((index) => {
    const { name } = text.fit.parameters[index]!;
    const { before, after } = text.plan.parameters[index]!;
    return parameterRow(name, parameterInterval(name, before), parameterInterval(name, after));
  });

/** What is left of a doubt of which a plan tells next to nothing. */
const HARDLY_LESS = 0.9;

function hardlyToldSentences(text: PlanText): readonly string[] {
  const { fit, plan } = text;
  const names = worstParameters(text).flatMap((index) => {
    const { before, after } = plan.parameters[index]!;
    return after > HARDLY_LESS * before ? [PARAMETER_WORDS[fit.parameters[index]!.name]] : [];
  });
  return names.length === 0
    ? []
    : [
        `The plan tells hardly more of ${listed(names)}: what is known of ${names.length === 1 ? "it" : "them"} grows with another day in another wind.`,
      ];
}

function windWords({ windSpeed, windDirection }: PlanText): string {
  const speed =
    windSpeed === undefined
      ? "12 kn of wind, since none was given"
      : `${plain(knots(windSpeed), 0)} kn of wind`;
  const direction =
    windDirection === undefined ? "wherever it comes from" : `from ${threeFigures(degrees(windDirection))}`;
  return `Reckoned for ${speed}, ${direction}.`;
}

/** What to sail next: sentences, and rows of tables. */
export interface PlanSections {
  readonly head: string;
  /** What to do, in order. */
  readonly steps: readonly string[];
  /** What is known now and would be after, the head first: of the true wind, of the settings. */
  readonly tables: readonly (readonly (readonly string[])[])[];
  readonly hardlyTold: readonly string[];
  readonly cautions: readonly string[];
}

/** What may be asked of a plan, the least and the most: minutes, kn, degrees. */
export const PLAN_RANGES = { minutes: [8, 600], windSpeed: [5, 35], windDirection: [0, 360] } as const;

/** Minutes where nobody says how many. */
export const USUAL_MINUTES = 60;

/** Where nothing is worth sailing; the end of a sentence. Never throws. */
export const nothingToPlan = (minutes: number): string =>
  `no exercise of ${minutes} minutes would tell more than is known already`;

/** The titles of its parts. */
export const PLAN_TITLES = {
  steps: "In this order",
  tables: "What is known now, and what would be known after, with 95 % intervals",
  hardlyTold: "What it will not tell",
  cautions: "Cautions",
} as const;

/** What the tables rest on. */
export const EXPECTATION_NOTE =
  "Of the true wind: the worst of winds of 8 and 16 kn from four quarters. Reckoned with the wander of the wind that the calibration found; a day on which it shifts more tells less.";

/** The words of a plan, for whatever they are shown on. Never throws. */
export function planSections(text: PlanText): PlanSections {
  const { plan } = text;
  const powers = new Set(plan.exercises.map(({ underPower }) => underPower)).size;
  const sails =
    powers === 2 ? `, ${Math.round(SETTING_SAILS / 60)} of them to set the sails after motoring` : "";
  return {
    head: `${capital(`what to sail next, in ${Math.round(plan.seconds / 60)} minutes${sails}`)}. ${windWords(text)}`,
    steps: exerciseWords(plan),
    tables: [
      [["of the true wind", "now", "after"], ...measureRows(text)],
      [["of the settings, the worst first", "now", "after"], ...parameterRows(text)],
    ],
    hardlyTold: hardlyToldSentences(text),
    cautions: CAUTIONS.slice(0, 2),
  };
}
