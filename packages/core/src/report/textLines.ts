import { unbroken } from "./format.ts";

/** Columns of the printed summary. */
export const WIDTH = 92;

/** A paragraph broken into lines of at most WIDTH columns, with a mark before the first and an indent before the others. */
export function paragraph(text: string, mark = ""): readonly string[] {
  const indent = " ".repeat(mark.length);
  const lines: string[] = [];
  let line = mark;
  let empty = true;
  for (const word of unbroken(text)
    .split(/[ \n]+/)
    .filter((part) => part !== "")) {
    if (!empty && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = indent;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line].map((text) => text.replaceAll("\u00a0", " "));
}

/** A heading with a rule below it and a blank line before. */
export const heading = (text: string): readonly string[] => ["", text, "-".repeat(text.length)];

/** Sentences as a list; nothing at all, heading included, when there is none. */
export const list = (title: string, sentences: readonly string[]): readonly string[] =>
  sentences.length === 0
    ? []
    : [...heading(title), ...sentences.flatMap((sentence) => paragraph(sentence, "  - "))];

/** Rows of text in columns: the first flush left, the others flush right, two spaces between. */
export function columns(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = (rows[0] ?? []).map((_, index) => Math.max(...rows.map((row) => (row[index] ?? "").length)));
  return rows.map((row) =>
    `  ${row.map((text, index) => (index === 0 ? text.padEnd(widths[0]!) : text.padStart(widths[index]!))).join("  ")}`.trimEnd(),
  );
}
