import * as z from "zod";
import type { ExerciseKind } from "../../calibration/boatRecord.ts";
import { versionedObject } from "../../calibration/checkedFile.ts";
import { RefusedFile, shown } from "../../calibration/refusedFile.ts";
import { SECONDS_IN_A_DAY } from "../../recording/calendar.ts";

/** A form of an exercise, filled in: JSON, or a table of comma-separated values with lines `# name: value` above it. */
export const EXERCISE_FORM = { schema: "bothtacks-exercise", version: 1 } as const;

/** Whether a file's beginning is that of a form. Never throws. */
export const isForm = (beginning: string): boolean => /^\uFEFF?\s*(?:\{|#\s*exercise\s*:)/.test(beginning);

const NUMBER = /^[+\-−]?(?:\d+(?:\.\d*)?|\.\d+)$/;

/** A cell as a number where it is one; with a comma for the decimal point where commas do not part the cells. */
function cellValue(text: string, separator: string): string | number {
  const pointed = (separator === "," ? text : text.replace(",", ".")).replace("−", "-");
  return NUMBER.test(pointed) ? Number(pointed) : text;
}

const separatorOf = (line: string): string => [";", "\t"].find((sign) => line.includes(sign)) ?? ",";

/** The fields above a table: `# name: value`. */
const HEAD = /^#\s*([a-z_]+)\s*:\s*(.*?)\s*$/;

function tableRows(lines: readonly { readonly text: string; readonly line: number }[], file: string) {
  const [head, ...rest] = lines;
  if (!head) return [];
  const separator = separatorOf(head.text);
  const cut = (text: string): readonly string[] => text.split(separator).map((cell) => cell.trim());
  const names = cut(head.text);
  return rest.map(({ text, line }) => {
    const cells = cut(text);
    if (cells.length > names.length)
      throw new RefusedFile(
        file,
        `line ${line}`,
        `${names.length} cells, as many as names`,
        `${cells.length}`,
      );
    return Object.fromEntries(
      names.flatMap((name, at) =>
        cells[at] === undefined || cells[at] === "" ? [] : [[name, cellValue(cells[at], separator)]],
      ),
    );
  });
}

/** The fields of a form in either writing, with `exercise` checked against the kind that is asked for. @throws RefusedFile */
export function formFields(
  text: string,
  file: string,
  kind: ExerciseKind,
): Readonly<Record<string, unknown>> {
  const fields = text.trimStart().startsWith("{")
    ? versionedObject(text, file, EXERCISE_FORM, "current")
    : tableFields(text, file);
  const { schema: _schema, version: _version, exercise, ...rest } = fields;
  if (exercise !== undefined && exercise !== kind)
    throw new RefusedFile(file, "exercise", JSON.stringify(kind), shown(exercise));
  return rest;
}

function tableFields(text: string, file: string): Readonly<Record<string, unknown>> {
  const lines = text
    .replace(/^\uFEFF/, "")
    .split(/\r\n|\n|\r/)
    .map((line, index) => ({ text: line.trim(), line: index + 1 }))
    .filter((one) => one.text !== "");
  const fields: Record<string, unknown> = {};
  const table = lines.filter(({ text: line }) => {
    const [, name, value = ""] = HEAD.exec(line) ?? [];
    if (name !== undefined && value !== "") fields[name] = cellValue(value, ";");
    return !line.startsWith("#");
  });
  return table.length === 0 ? fields : { ...fields, rows: tableRows(table, file) };
}

/** "10:02:30" as seconds of the day. */
export const timeOfDay = z
  .string()
  .regex(/^\d{1,2}:[0-5]\d(?::[0-5]\d(?:\.\d+)?)?$/, "a time such as 10:02:30")
  .transform((text) => {
    const [hours = 0, minutes = 0, seconds = 0] = text.split(":").map(Number);
    return 3600 * hours + 60 * minutes + seconds;
  });

/** "2031-06-14" as the start of that day, s since 1970 UTC. */
export const day = z.iso.date().transform((text) => Date.parse(`${text}T00:00:00Z`) / 1000);

/** Times of day that follow each other, made to go on past midnight. Never throws. */
export function onward(times: readonly number[]): readonly number[] {
  let last = -Infinity;
  return times.map((time) => {
    let at = time;
    while (at < last) at += SECONDS_IN_A_DAY;
    last = at;
    return at;
  });
}
