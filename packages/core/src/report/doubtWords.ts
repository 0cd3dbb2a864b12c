import type { Boat } from "../calibration/boat.ts";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import { confoundedIn } from "../judge/confounded.ts";
import { degrees } from "../units.ts";
import type { WordlessAnswer } from "./answer.ts";
import { confoundedSentence } from "./confoundedWords.ts";
import { HALF_WIDTH_95, LEARNT, listed, plain, withInterval } from "./format.ts";
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

/** Symmetry is said to carry the offset where its doubt would be so many times as large without. */
const CARRIES = 1.2;

/** What the masthead offset would be without symmetry, where that carries it. */
function withoutSymmetry({ symmetry, parameters }: SolvedBoatFit): string | undefined {
  const sd = parameters.find(({ name }) => name === "vane.mastheadOffset")!.sd;
  if (symmetry === undefined || !(symmetry.without.sd > CARRIES * sd)) return undefined;
  const { value, sd: doubt } = symmetry.without;
  return `without the assumption that both tacks were sailed alike it would be ${withInterval(degrees(-value), degrees(doubt), 1, "°")}`;
}

function moreDays({ symmetry }: SolvedBoatFit): string {
  if (symmetry === undefined || symmetry.withDays.days <= symmetry.days)
    return "Several days together, or a run under power with the sails down, would tell.";
  const { days, sd } = symmetry.withDays;
  return `${days} such days together would bring it to about ± ${plain(degrees(HALF_WIDTH_95 * sd), 1)}°; a run under power with the sails down tells by itself.`;
}

/** A masthead offset that one day under sail, or symmetry of sailing, must carry, whether or not it is keyed in. */
function offsetSentences(
  boat: Boat,
  tables: CorrectionTables,
  answer: WordlessAnswer,
  fit: SolvedBoatFit,
): readonly string[] {
  const offset = tables.settings.find(({ name }) => name === "masthead offset");
  if (offset?.advice !== "key in" && offset?.advice !== "leave alone") return [];
  const { seconds, end, start } = answer.recording;
  const oneDay = seconds.motoring === 0 && !(end - start >= ONE_DAY);
  const without = withoutSymmetry(fit);
  if (oneDay) {
    const helm = boat.steeredBy === "unknown" ? UNKNOWN_HELM : "";
    const told = without === undefined ? "." : `: ${without}.`;
    return [
      `With one day of sailing alone a masthead offset cannot be told from that day's wind shear, which also makes the angles of the tacks differ${helm}${told} ${moreDays(fit)}`,
    ];
  }
  return without === undefined
    ? []
    : [
        `The masthead offset rests in part on the tacks having been sailed alike, ${fit.symmetry!.days === 1 ? "on one day" : `on ${fit.symmetry!.days} days`}: ${without}.`,
      ];
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
    ...confoundedIn(fit).slice(0, MOST_GROUPS).map(confoundedSentence),
    ...(tables ? offsetSentences(boat, tables, answer, fit) : []),
    ...agreementSentences(answer),
    ...baseSentences(answer),
  ];
}
