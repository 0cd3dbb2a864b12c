import type { Boat } from "../calibration/boat.ts";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import { confoundedGroups } from "../judge/confounded.ts";
import type { WordlessAnswer } from "./answer.ts";
import { confoundedSentence } from "./confoundedWords.ts";
import { LEARNT, listed } from "./format.ts";
import { PARAMETER_WORDS } from "./parameterWords.ts";
import { ONE_DAY } from "./settings.ts";
import type { CorrectionTables } from "./tables.ts";

/** More groups than this nobody reads. */
const MOST_GROUPS = 4;

function notLearntSentence(fit: SolvedBoatFit, tables: CorrectionTables): readonly string[] {
  const names = tables.settings
    .filter(({ advice }) => advice === "not learnt")
    .map(({ name }) => `the ${name}`);
  const shape = fit.parameters
    .filter(({ name, informed }) => informed < LEARNT && !SINGLE.has(name))
    .map(({ name }) => PARAMETER_WORDS[name]);
  const all = [...names, ...shape];
  return all.length === 0
    ? []
    : [
        `This recording did not tell ${listed(all)}: what is known of ${all.length === 1 ? "it" : "them"} is mostly what is usual for any boat, so no such number is printed.`,
      ];
}

/** Parameters that are told of as settings already. */
const SINGLE: ReadonlySet<string> = new Set([
  "speed.intercept",
  "speed.gain",
  "speed.gainDifference",
  "compass.a",
  "heel.zero",
  "leeway.coefficient",
  "vane.mastheadOffset",
  "anemometer.gain",
  "anemometer.threshold",
  "heelModel.fullHeel",
]);

function agreementSentences(answer: WordlessAnswer): readonly string[] {
  const unknown = (answer.after ?? answer.before)
    .filter(({ value }) => Number.isNaN(value))
    .map(({ kind }) => kind);
  const agreements = unknown.length === 1 ? "agreement" : "agreements";
  return unknown.length === 0
    ? []
    : [`Nothing in this recording allows to judge the ${agreements} of ${listed(unknown)}.`];
}

const UNKNOWN_HELM =
  ", nor from a helm that favours one tack, since the boat file does not say whether the boat was steered by the sails";

/** A masthead offset from one day under sail, whether or not it is keyed in. */
function shearSentence(boat: Boat, tables: CorrectionTables, answer: WordlessAnswer): readonly string[] {
  const offset = tables.settings.find(({ name }) => name === "masthead offset");
  const oneDay =
    answer.recording.seconds.motoring === 0 && !(answer.recording.end - answer.recording.start >= ONE_DAY);
  const learnt = offset?.advice === "key in" || offset?.advice === "leave alone";
  return learnt && oneDay
    ? [
        `With one day of sailing alone a masthead offset cannot be told from that day's wind shear, which also makes the angles of the tacks differ${boat.steeredBy === "unknown" ? UNKNOWN_HELM : ""}; several days together, or a run under power with the sails down, would tell.`,
      ]
    : [];
}

const baseSentences = ({ base }: WordlessAnswer): readonly string[] =>
  base === "unknown corrections"
    ? [
        "What the instruments had already corrected is not known, so the corrections here count from an unknown start; say in a boat file what is keyed in.",
      ]
    : [];

/** What the data could not tell, in sentences. Never throws. */
export function couldNotTellWords(
  answer: WordlessAnswer,
  boat: Boat,
  tables: CorrectionTables | undefined,
): readonly string[] {
  const { fit } = answer;
  if (fit.status === "unsolved") {
    const names = fit.confounded.map((name) => PARAMETER_WORDS[name]);
    const together = names.length > 1 ? [`These could not be told apart: ${listed(names)}.`] : [];
    return [fit.reason, ...together, ...agreementSentences(answer)];
  }
  return [
    ...(tables ? notLearntSentence(fit, tables) : []),
    ...confoundedGroups(fit).slice(0, MOST_GROUPS).map(confoundedSentence),
    ...(tables ? shearSentence(boat, tables, answer) : []),
    ...agreementSentences(answer),
    ...baseSentences(answer),
  ];
}
