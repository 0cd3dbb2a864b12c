import type { Plan } from "../judge/plan.ts";
import type { ParameterName } from "../sensors/parameterNames.ts";
import { radians } from "../units.ts";
import type { WordlessAnswer } from "./answer.ts";
import { LEARNT } from "./format.ts";
import { briefExerciseWords, expectationSentence } from "./planWords.ts";
import { ONE_DAY } from "./settings.ts";
import type { CorrectionTables } from "./tables.ts";

/** Enough tacks that their mean stands out from a wind that wanders some 5° from tack to tack: 5° / √10 is 1.6°. */
const ENOUGH_TACKS = 10;

/** An offset known worse than this deserves an exercise of its own: a tenth of a close-hauled angle's half. */
const OFFSET_SD = radians(0.6);

interface Exercise {
  readonly when: (facts: Facts) => boolean;
  readonly sentence: string;
  /** Not told where a plan says what to sail: it reckons with all that is known. */
  readonly unlessPlanned?: true;
}

const ANOTHER_DAY =
  "Record another day in another wind and calibrate both together: corrections are only known in the wind in which they were sailed.";

interface Facts {
  readonly answer: WordlessAnswer;
  readonly solved: boolean;
  readonly tables: CorrectionTables | undefined;
  readonly unlearnt: (...names: readonly ParameterName[]) => boolean;
  readonly sdOf: (name: ParameterName) => number;
  readonly tacks: number;
  readonly has: (quantity: string) => boolean;
}

/** What can be sailed, the most telling first, each with what calls for it. */
const EXERCISES: readonly Exercise[] = [
  {
    when: ({ answer, solved, sdOf }) =>
      answer.recording.seconds.motoring === 0 && (!solved || sdOf("vane.mastheadOffset") > OFFSET_SD),
    sentence:
      "First motor with the sails down for ten minutes, in little wind and flat water: straight into the wind, straight away from it, and one slow circle each way; it gives the masthead offset, the wind speed gain and the heel zero with no sail to bend the wind.",
    unlessPlanned: true,
  },
  {
    when: ({ solved, tacks }) => !solved || tacks < ENOUGH_TACKS,
    sentence:
      "Sail close-hauled with a tack every three to five minutes, ten tacks or more, steering by the sails and not by the display; two sides of one tack see the same wind, so each tack tells.",
    unlessPlanned: true,
  },
  {
    when: ({ has }) => !has("speedOverGround"),
    sentence:
      "Record the position, course and speed over ground too: without them neither the boat speed nor the compass alignment can be told.",
  },
  {
    when: ({ has }) => !has("heel"),
    sentence:
      "Record the heel angle if the boat has a sensor for it: without one, heel is only guessed from the wind.",
  },
  {
    when: ({ has, unlearnt }) =>
      has("speedOverGround") && unlearnt("speed.gain", "speed.gainDifference", "speed.intercept"),
    sentence:
      "Sail or motor two pairs of reciprocal headings, four minutes each way, at two different speeds: that separates the boat speed from the current.",
    unlessPlanned: true,
  },
  {
    when: ({ solved, has, unlearnt, tables }) =>
      solved &&
      has("headingMagnetic") &&
      (unlearnt("compass.a", "compass.b", "compass.c") ||
        tables?.deviation.some(({ sailed }) => !sailed) === true),
    sentence:
      "Motor one slow circle to each side in flat water, about four minutes a circle, clear of steel and of other boats: that gives the deviation on every heading.",
    unlessPlanned: true,
  },
  {
    when: ({ solved, unlearnt }) => solved && unlearnt("compass.heelingError"),
    sentence:
      "Sail close-hauled and well heeled on northerly and on southerly headings: the heeling error of the compass is largest there and changes sign between them.",
    unlessPlanned: true,
  },
  {
    when: ({ solved, unlearnt }) =>
      solved && unlearnt("leeway.coefficient", "vane.upwash", "vane.upwashSlope"),
    sentence:
      "Sail a few minutes on each tack at other angles than close-hauled, at 60° and at 90° of apparent wind, and close-hauled in another wind speed: that tells leeway from upwash.",
    unlessPlanned: true,
  },
  {
    when: ({ solved, answer }) => solved && Number.isNaN((answer.after ?? answer.before)[1].value),
    sentence:
      "Sail a leg downwind right after a leg upwind, with a gybe or two on the way: only then can the directions upwind and downwind be compared.",
    unlessPlanned: true,
  },
  {
    when: ({ solved, answer }) => solved && answer.recording.end - answer.recording.start < ONE_DAY,
    sentence: ANOTHER_DAY,
  },
];

function factsOf(answer: WordlessAnswer, tables: CorrectionTables | undefined): Facts {
  const parameters = answer.fit.status === "solved" ? answer.fit.parameters : [];
  const quantities = new Set<string>(answer.recording.chosen.map(({ source }) => source.quantity));
  return {
    answer,
    tables,
    solved: answer.fit.status === "solved",
    unlearnt: (...names) =>
      parameters.some(({ name, informed }) => names.includes(name) && informed < LEARNT),
    sdOf: (name) => parameters.find((parameter) => parameter.name === name)?.sd ?? Number.POSITIVE_INFINITY,
    tacks: answer.turns.filter(({ kind }) => kind === "tack").length,
    has: (quantity) => quantities.has(quantity),
  };
}

/** No more exercises than fit a day on the water. */
const MOST_EXERCISES = 5;

/**
 * What to sail next, the most telling first, each a sentence with how long it takes. Never empty, never throws.
 *
 * @param plan what to sail, where it was reckoned; rules of thumb stand in for it
 */
export function sailNextWords(
  answer: WordlessAnswer,
  tables: CorrectionTables | undefined,
  plan?: Plan,
): readonly string[] {
  const facts = factsOf(answer, tables);
  const isPlanned = plan !== undefined && plan.exercises.length > 0;
  const chosen = EXERCISES.filter(
    ({ when, unlessPlanned }) => !(isPlanned && unlessPlanned) && when(facts),
  ).map(({ sentence }) => sentence);
  const planned = isPlanned ? [...briefExerciseWords(plan), expectationSentence(plan)] : [];
  const told = [...chosen.filter((sentence) => sentence !== ANOTHER_DAY), ...planned];
  const last = chosen.filter((sentence) => sentence === ANOTHER_DAY);
  const all = [...told, ...last].slice(0, isPlanned ? undefined : MOST_EXERCISES);
  return all.length > 0
    ? all
    : ["Record the next race as it comes and check it against these corrections before the next regatta."];
}
