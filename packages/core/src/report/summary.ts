import type { Agreement } from "../calibration/calibration.ts";
import { agreementSense, agreementText, stands } from "./agreementWords.ts";
import type { Answer } from "./answer.ts";
import { CAUTIONS } from "./cautions.ts";
import { computerWords } from "./computerWords.ts";
import { counted, grouped, informedInWords, LEARNT, listed } from "./format.ts";
import { recordingLines } from "./recordingText.ts";
import { amountText, intervalText, type SingleSetting } from "./settings.ts";
import { type CorrectionTables, learntCells } from "./tables.ts";
import { columns, heading, list, paragraph } from "./textLines.ts";

function agreementLines({ before, after }: Answer): readonly string[] {
  const rows = before.map((agreement, index) => [
    agreement.kind,
    agreementText(agreement),
    ...(after ? [agreementText(after[index]!)] : []),
    String((after?.[index] ?? agreement).contrasts),
  ]);
  const head = ["", "before", ...(after ? ["after"] : []), "comparisons"];
  return [
    ...heading("The three agreements of the true wind, with 95 % intervals"),
    ...columns([head, ...rows]),
    "",
    ...paragraph(`In this order: ${listed(before.map(agreementSense))}.`, "  "),
  ];
}

/** "key in", or what else to do with a setting that was learnt. Never throws. */
export function adviceText({ advice, doubts, present, unit }: SingleSetting): string {
  if (advice === "key in") return doubts.length > 0 ? "key in, with doubt" : "key in";
  return present === 0 || Number.isNaN(present) ? "leave as it is" : `leave at ${amountText(present, unit)}`;
}

function settingRow(setting: SingleSetting): readonly string[] {
  const { unit, estimate, advice } = setting;
  const name = setting.name === "leeway coefficient" ? `${setting.name} (set to)` : setting.name;
  if (advice === "no place") return [name, "", "", "not for this computer", ""];
  if (!(estimate.informed >= LEARNT)) return [name, "", "", "not learnt", ""];
  return [
    name,
    amountText(estimate.value, unit),
    intervalText(estimate, unit),
    informedInWords(estimate.informed),
    adviceText(setting),
  ];
}

function tableLine({ computer, cells, tableAdvice }: CorrectionTables): string {
  if (computer.table === "none")
    return "Without a table, the masthead offset and the wind speed gain are the best compromise over both tacks. The deviation card is in the report and in tables.csv.";
  const advice = tableAdvice === "key in" ? "" : ", but none of them stands out of its doubt";
  return `The table over ${computer.table} wind was learnt in ${counted(learntCells(cells).length, "cell")} of the ${grouped(cells.length)} that were sailed${advice}. Table and deviation card are in the report and in tables.csv.`;
}

const settingsLines = (tables: CorrectionTables): readonly string[] => [
  ...heading("Corrections: amounts added to the reading, angles positive to starboard"),
  ...columns([["", "add", "95 %", "how it is known", "advice"], ...tables.settings.map(settingRow)]),
  "",
  ...paragraph(`${computerWords(tables)} ${tableLine(tables)}`, "  "),
];

/** The answer in a sentence, for the head of the summary and of the report. Never throws. */
export function conclusion(answer: Answer): string {
  if (answer.fit.status === "unsolved") return `No correction could be found. ${answer.fit.reason}`;
  const [before, after] = [answer.before[0], answer.after?.[0]];
  if (!after || Number.isNaN(after.value))
    return "Corrections were found, but this recording does not compare the tacks.";
  const size = (agreement: Agreement): string =>
    agreementText({ ...agreement, value: Math.abs(agreement.value) }).replace("+", "");
  const subject = "From one tack to the other the true wind direction";
  if (Number.isNaN(before.value)) return `${subject} differs by ${size(after)} after correction.`;
  const was = `differed by ${size(before)}${stands(before) ? "" : ", no more than the doubt"}`;
  return `${subject} ${was}; corrected, it ${stands(after) ? "still differs" : "differs"} by ${size(after)}.`;
}

/**
 * The printed summary: plain text of at most 92 columns.
 *
 * @param tables of `correctionTables`; undefined where the fit is unsolved
 * @returns text that ends in a line feed. Never throws.
 * @example
 * printedSummary(answer, tables).length > 0 // true
 */
export function printedSummary(answer: Answer, tables: CorrectionTables | undefined): string {
  const { words } = answer;
  return [
    ...paragraph(conclusion(answer)),
    ...recordingLines(answer),
    ...agreementLines(answer),
    ...(tables ? settingsLines(tables) : []),
    ...list("Key in", words.keyIn),
    ...list("Rounded, and checked afterwards", tables?.checks ?? []),
    ...list("Leave alone", words.leaveAlone),
    ...list("What the data could not tell", words.couldNotTell),
    ...list("Sail next", words.sailNext),
    ...list("Notes", words.notes),
    ...list("Cautions", CAUTIONS),
    "",
  ].join("\n");
}
