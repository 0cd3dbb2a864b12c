import type { Boat } from "../calibration/boat.ts";
import type { Plan } from "../judge/plan.ts";
import { keyInWords, leaveAloneWords } from "./adviceWords.ts";
import type { PlainWords, WordlessAnswer } from "./answer.ts";
import { couldNotTellWords } from "./doubtWords.ts";
import { leewayWords } from "./leewayWords.ts";
import { leftOutWords } from "./leftOutWords.ts";
import { sailNextWords } from "./nextWords.ts";
import type { CorrectionTables } from "./tables.ts";
import { thinnedWords } from "./thinnedWords.ts";
import { sensorTroubleWords } from "./troubleWords.ts";

/**
 * The plain words for the navigator: what to key in, what to leave alone, what the data could not tell, what to sail
 * next. Each entry is a full sentence.
 *
 * @param tables of `correctionTables`; undefined where the fit is unsolved
 * @param plan what to sail next, where it was reckoned
 * @returns never empty in `sailNext`. Never throws.
 * @example
 * Object.keys(plainWords(answer, boat, tables)).length > 0 // true
 */
export const plainWords = (
  answer: WordlessAnswer,
  boat: Boat,
  tables: CorrectionTables | undefined,
  plan?: Plan,
): PlainWords => ({
  keyIn: tables ? keyInWords(answer, tables) : [],
  leaveAlone: tables ? leaveAloneWords(boat, tables) : ["Leave all settings as they are."],
  couldNotTell: couldNotTellWords(answer, boat, tables),
  sailNext: sailNextWords(answer, tables, plan),
  notes: [
    ...answer.fit.notes,
    ...(answer.fit.status === "solved" ? leewayWords(answer.fit) : []),
    ...sensorTroubleWords(answer),
    ...leftOutWords(answer),
    ...thinnedWords(answer),
  ],
});
