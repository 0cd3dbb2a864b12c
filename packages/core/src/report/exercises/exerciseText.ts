import type { SettingsBase } from "../../calibration/boat.ts";
import { CAUTIONS } from "../cautions.ts";
import { capital } from "../format.ts";
import { columns, heading, list, paragraph } from "../textLines.ts";

/** A field of a form. */
interface FormField {
  readonly name: string;
  readonly meaning: string;
  readonly isNeeded: boolean;
}

/** What a form may hold. */
export interface FormLegend {
  readonly above: readonly FormField[];
  readonly inTable: readonly FormField[];
}

/** What is printed of an exercise that was worked out. */
export interface ExerciseAnswer {
  readonly words: readonly string[];
  readonly table?: readonly (readonly string[])[];
  readonly sketch?: readonly string[];
  readonly notes: readonly string[];
  /** Present where what was found has a place among the settings. */
  readonly total?: unknown;
}

/** How an exercise is sailed. */
export interface ExerciseInstructions {
  readonly title: string;
  readonly minutes: string;
  readonly settles: string;
  readonly steps: readonly string[];
  readonly cautions: readonly string[];
}

const UNKNOWN_BASE =
  "What stood in the instruments is not known: amounts come on top of it, whatever it was.";

/** What an exercise came to, as plain text of at most 92 columns. Never throws. */
export function printedExercise(
  { title, cautions }: ExerciseInstructions,
  { words, table, sketch, notes, total }: ExerciseAnswer,
  base: SettingsBase,
): string {
  return [
    title,
    "-".repeat(title.length),
    ...words.flatMap((sentence) => paragraph(sentence, "  - ")),
    ...(table ? ["", ...columns(table)] : []),
    ...(sketch ? ["", ...sketch.map((line) => `  ${line}`.trimEnd())] : []),
    ...list("Notes", [...notes, ...(total && base === "unknown corrections" ? [UNKNOWN_BASE] : [])]),
    ...list("Cautions", [CAUTIONS.at(-1)!, ...cautions]),
    "",
  ].join("\n");
}

/** How an exercise is sailed, as plain text of at most 92 columns. Never throws. */
export function printedInstructions(
  kind: string,
  { title, minutes, settles, steps, cautions }: ExerciseInstructions,
): string {
  return [
    ...heading(`${kind}: ${title}`),
    ...paragraph(`${capital(minutes)}. Settles ${settles}.`, "  "),
    ...steps.flatMap((step, index) => paragraph(step, `  ${index + 1}. `)),
    ...cautions.flatMap((caution) => paragraph(caution, "  Caution: ")),
  ].join("\n");
}

/** Lines for the reader of a form, whose own lines begin otherwise. */
const remark = (line: string): string => `## ${line}`.trimEnd();

function fieldLines(title: string, fields: FormLegend["above"]): readonly string[] {
  if (fields.length === 0) return [];
  const width = Math.max(...fields.map(({ name }) => name.length));
  const told = fields.map(
    ({ name, meaning, isNeeded }) => `  ${name.padEnd(width)}  ${isNeeded ? "(needed) " : ""}${meaning}`,
  );
  return [title, ...told];
}

/**
 * A form to fill in: the lines above the table with an invented example, what each field holds, and the table. Never throws.
 *
 * @param form its own lines, those above the table with a # before
 */
export function printedForm(form: string, { above, inTable }: FormLegend): string {
  const lines = form.trimEnd().split("\n");
  const legend = [
    "An invented example: put your own values in the place of these. Lines with ## are for you.",
    ...fieldLines("Above the table, as # name: value", above),
    ...fieldLines("In the table, columns in any order; those not needed may be left out", inTable),
    "Names that end in another unit are taken too: _ft, _fathoms, _km, _ms (m/s), _kmh, _mph, _f (°F).",
    ...(inTable.length > 0
      ? ["With commas for decimals, part the cells by semicolons, as spreadsheets do."]
      : []),
  ];
  const isAbove = (line: string): boolean => line.startsWith("#");
  const all = [...lines.filter(isAbove), ...legend.map(remark), ...lines.filter((line) => !isAbove(line))];
  return `${all.join("\n")}\n`;
}
