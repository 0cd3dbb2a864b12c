import type { Calibration } from "../calibration/calibration.ts";
import { type Comparison, FALSE_ALARM_LEVEL, POWER, type Untold } from "../judge/compare.ts";
import { type ComparedCalibrations, verdictOf } from "../judge/history.ts";
import { confoundedMovesSentence } from "./confoundedWords.ts";
import { capital, clock, counted, listed, plain } from "./format.ts";
import { moveWords } from "./moveWords.ts";
import { parameterAmount, parameterInterval, parameterRow, parameterSize } from "./parameterAmounts.ts";
import { PARAMETER_WORDS } from "./parameterWords.ts";

const sentence = (words: string): string => `${capital(words)}.`;

/** A move that is real, with what it could be instead. */
function movedSentence({ orElse, ...move }: Comparison["moved"][number]): string {
  const instead =
    orElse.length === 0
      ? ""
      : ` These recordings could hardly tell it from this: ${orElse.map(moveWords).join("; or: ")}.`;
  return `${sentence(moveWords(move))}${instead}`;
}

const HEEL_TURNED =
  "The heel sensor reads the other way round than then: it was turned, or its sign was changed on its way into the log. Its zero was not compared.";

function movedSentences({ comparison, heelTurned }: ComparedCalibrations): readonly string[] {
  const { moved, restIsReal } = comparison;
  const rest = restIsReal
    ? [
        moved.length > 0
          ? "More than this has moved, but these recordings cannot tell what."
          : "Something has moved: all differences together are more than chance, but these recordings cannot tell what.",
      ]
    : [];
  return [...(heelTurned ? [HEEL_TURNED] : []), ...moved.map(movedSentence), ...rest];
}

/** The head of the settings' columns. */
const COLUMNS = ["", "then", "now", "move, 95 %", "would show"];

/** What was and is, how much of a move there may have been, and what would have shown: a row for each setting told, the head first. */
function settingsRows({ then, now, comparison }: ComparedCalibrations): readonly (readonly string[])[] {
  const smallest = new Map(comparison.smallest.map(({ name, move }) => [name, move]));
  const rows = comparison.free
    .filter(({ name }) => smallest.has(name))
    .map(({ name, value, sd }) => {
      const valueIn = ({ fit }: Calibration): number =>
        fit.parameters.find((parameter) => parameter.name === name)?.value ?? Number.NaN;
      return parameterRow(
        name,
        parameterAmount(name, valueIn(then)),
        parameterAmount(name, valueIn(now)),
        `${parameterAmount(name, value)} ${parameterInterval(name, sd)}`,
        parameterSize(name, smallest.get(name)!),
      );
    });
  return rows.length === 0 ? [] : [COLUMNS, ...rows];
}

/** Why a move of some parameters is not told, in a sentence. */
const UNTOLD_BY: Readonly<Record<Untold["by"], (names: string) => string>> = {
  "the first": (names) => `The first recording does not tell ${names}, so that no change could show.`,
  "the second": (names) => `The second recording does not tell ${names}, so that no change could show.`,
  either: (names) => `Neither recording tells ${names}, so that no change could show.`,
  "both together": (names) => `Each recording tells too little of ${names} for a change to show.`,
};

const untoldSentences = ({ untold, confounded }: Comparison): readonly string[] => [
  ...(Object.keys(UNTOLD_BY) as readonly Untold["by"][]).flatMap((by) => {
    const names = untold.filter((one) => one.by === by).map(({ name }) => PARAMETER_WORDS[name]);
    return names.length === 0 ? [] : [UNTOLD_BY[by](listed(names))];
  }),
  ...confounded.map(confoundedMovesSentence),
];

const VERDICTS = {
  moved: "something has moved",
  "nothing moved": "nothing has moved, as far as these recordings tell",
  "not told": "these recordings do not tell whether anything has moved",
} as const;

/** What a calibration is called, such as its file. */
export type NameOf = (calibration: Calibration) => string;

/** How seldom something is said to have moved where nothing has: what the words of so many comparisons rest on. Never throws. */
export const levelSentence = (comparisons: number): string =>
  `Of 100 boats on which nothing had moved, at most ${plain(100 * FALSE_ALARM_LEVEL, 0)} would be told that something had${
    comparisons > 1 ? `, in all ${counted(comparisons, "comparison")} together` : ""
  }.`;

/** What two calibrations say of what has moved: sentences, and rows of a table. */
export interface ComparisonWords {
  readonly verdict: string;
  readonly moved: readonly string[];
  /** The head first; empty where no setting is told. */
  readonly settings: readonly (readonly string[])[];
  readonly untold: readonly string[];
  readonly notes: readonly string[];
}

/** The titles of its parts. */
export const COMPARISON_TITLES = {
  moved: "What has moved, with 95 % intervals",
  settings: "Settings in all, then and now",
  untold: "What these recordings could not tell",
  notes: "Notes",
} as const;

/** What the table of the settings shows. */
export const SETTINGS_NOTE = `Moves are what the data alone say, with all settings free to move at once; a move of one setting alone that is as large as in the last column would have shown in ${plain(100 * POWER, 0)} of 100 cases.`;

const day = ({ recording }: Calibration): string => clock(recording.start).slice(0, 10);

/** The words of a comparison, for whatever they are shown on. Never throws. */
export const comparisonWords = (pair: ComparedCalibrations, nameOf: NameOf): ComparisonWords => ({
  verdict: `From ${nameOf(pair.then)} (${day(pair.then)}) to ${nameOf(pair.now)} (${day(pair.now)}): ${VERDICTS[verdictOf([pair])]}.`,
  moved: movedSentences(pair),
  settings: settingsRows(pair),
  untold: untoldSentences(pair.comparison),
  notes: pair.notes,
});
