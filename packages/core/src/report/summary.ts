import type { Agreement } from "../judge/agreement.ts";
import { agreementSense, agreementText } from "./agreementWords.ts";
import type { Answer } from "./answer.ts";
import { CAUTIONS } from "./cautions.ts";
import { counted, informedInWords, LEARNT, listed } from "./format.ts";
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
  const head = ["", "before", ...(after ? ["after"] : []), "contrasts"];
  return [
    ...heading("The three agreements of the true wind, with 95 % intervals"),
    ...columns([head, ...rows]),
    "",
    ...paragraph(`In this order: ${listed(before.map(agreementSense))}.`, "  "),
  ];
}

function settingRow({ name, unit, estimate, advice, present }: SingleSetting): readonly string[] {
  if (advice === "no place") return [name, "", "", "not for this computer", ""];
  if (!(estimate.informed >= LEARNT)) return [name, "", "", "not learnt", ""];
  const leave =
    present === 0 || Number.isNaN(present) ? "leave as it is" : `leave at ${amountText(present, unit)}`;
  return [
    name,
    amountText(estimate.value, unit),
    intervalText(estimate, unit),
    informedInWords(estimate.informed),
    advice === "key in" ? "key in" : leave,
  ];
}

function tableLine(tables: CorrectionTables): string {
  const { table, correctsHeel, correctsLeeway } = tables.computer;
  const does = (does: boolean, what: string): string => `${does ? "corrects" : "does not correct"} ${what}`;
  const computer = `For a computer that ${does(correctsHeel, "heel")} and ${does(correctsLeeway, "leeway")}`;
  if (table === "none")
    return `${computer} and has no table: the masthead offset and wind speed gain are the best compromise over both tacks.`;
  return `${computer}, with a table over ${table} wind: ${counted(learntCells(tables.cells).length, "cell")} of it learnt, of ${counted(tables.cells.length, "cell")} with evidence. The table and the deviation card are in the report and in tables.csv.`;
}

const settingsLines = (tables: CorrectionTables): readonly string[] => [
  ...heading("Corrections: amounts added to the reading, angles positive to starboard"),
  ...columns([["", "add", "95 %", "how it is known", "advice"], ...tables.settings.map(settingRow)]),
  "",
  ...paragraph(tableLine(tables), "  "),
];

/** The answer in a sentence, for the head of the summary and of the report. Never throws. */
export function conclusion(answer: Answer): string {
  if (answer.fit.status === "unsolved") return `No correction could be found. ${answer.fit.reason}`;
  const [before, after] = [answer.before[0], answer.after?.[0]];
  if (!after || Number.isNaN(after.value))
    return "Corrections were found, but this recording does not compare the tacks.";
  const size = (agreement: Agreement): string =>
    agreementText({ ...agreement, value: Math.abs(agreement.value) }).replace("+", "");
  const was = Number.isNaN(before.value) ? "" : `differed by ${size(before)}; corrected, it `;
  return `From one tack to the other the true wind direction ${was}differs by ${size(after)}.`;
}

/**
 * The printed summary: plain text of at most 92 columns.
 *
 * @param tables of `correctionTables`; undefined where the fit is unsolved
 * @returns text that ends in a line feed. Never throws.
 */
export function printedSummary(answer: Answer, tables: CorrectionTables | undefined): string {
  const { words } = answer;
  return [
    ...paragraph(conclusion(answer)),
    ...recordingLines(answer),
    ...agreementLines(answer),
    ...(tables ? settingsLines(tables) : []),
    ...list("Key in", words.keyIn),
    ...list("Leave alone", words.leaveAlone),
    ...list("What the data could not tell", words.couldNotTell),
    ...list("Sail next", words.sailNext),
    ...list("Notes", words.notes),
    ...list("Cautions", CAUTIONS),
    "",
  ].join("\n");
}
