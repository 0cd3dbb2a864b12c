import type { SettingsBase } from "../../calibration/boat.ts";
import { CAUTIONS } from "../cautions.ts";
import { capital } from "../format.ts";
import { columns, heading, list, paragraph } from "../textLines.ts";

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
