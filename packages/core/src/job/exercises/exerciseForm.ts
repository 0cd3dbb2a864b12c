import type { ExerciseKind } from "../../calibration/boatRecord.ts";
import { versionedObject } from "../../calibration/checkedFile.ts";
import { RefusedFile, shown } from "../../calibration/refusedFile.ts";
import { tableFields } from "./formTable.ts";
import { inFormUnits } from "./formUnits.ts";

/** A form of an exercise, filled in: JSON, or a table of comma-separated values with lines `# name: value` above it. */
export const EXERCISE_FORM = { schema: "bothtacks-exercise", version: 1 } as const;

/** A form as it was read. */
export interface ExerciseForm {
  /** Without what says that it is a form, and of what; units are those that the forms name. */
  readonly fields: Readonly<Record<string, unknown>>;
  /** The line of each row, where the form is a table. */
  readonly lines?: readonly number[];
}

/** Whether a file's beginning is that of a form. Never throws. */
export const isForm = (beginning: string): boolean =>
  /^\uFEFF?\s*"?#\s*exercise\s*:/i.test(beginning) ||
  // deltas of Signal K begin with a brace, too
  (/^\uFEFF?\s*\{/.test(beginning) && !/"(?:updates|context|self)"\s*:/.test(beginning));

/** What stands in a form in either writing, with `exercise` checked against the kind that is asked for. @throws RefusedFile */
export function exerciseForm(text: string, file: string, kind: ExerciseKind): ExerciseForm {
  const isTable = !text
    .replace(/^\uFEFF/, "")
    .trimStart()
    .startsWith("{");
  const table = isTable ? tableFields(text, file) : undefined;
  const given = table?.fields ?? versionedObject(text, file, EXERCISE_FORM, "current");
  const { schema: _schema, version: _version, exercise, ...rest } = given;
  if (exercise !== undefined && exercise !== kind)
    throw new RefusedFile(file, "exercise", JSON.stringify(kind), shown(exercise));
  try {
    return { fields: inFormUnits(rest, file), ...(table ? { lines: table.lines } : {}) };
  } catch (error) {
    throw byLine(error, table?.lines);
  }
}

const ROW = /^rows\[(\d+)\]\.?(.*)$/;

/** What refuses a form, by the line of the file rather than by the row, where the form is a table. Never throws. */
export function byLine(error: unknown, lines: readonly number[] | undefined): unknown {
  if (!(error instanceof RefusedFile) || !lines) return error;
  if (error.field === "rows")
    return new RefusedFile(error.file, "", "a row of readings and more below the names", "none");
  const [, row, name] = ROW.exec(error.field) ?? [];
  const line = lines[Number(row)];
  if (line === undefined) return error;
  const field = name === "" ? `line ${line}` : `line ${line}: ${name}`;
  return new RefusedFile(error.file, field, error.expected, error.received);
}
