import { RefusedFile } from "../../calibration/refusedFile.ts";

const NUMBER = /^[+\-−]?(?:\d+(?:\.\d*)?|\.\d+)$/;

/** A cell as a number where it is one; with a comma for the decimal point where commas do not part the cells. */
function cellValue(text: string, separator: string): string | number {
  const pointed = (separator === "," ? text : text.replace(",", ".")).replace("−", "-");
  return NUMBER.test(pointed) ? Number(pointed) : text;
}

const separatorOf = (line: string): string => [";", "\t"].find((sign) => line.includes(sign)) ?? ",";

/** A cell's text without the quotation marks that spreadsheets put round it. */
const unquoted = (cell: string): string =>
  cell.length > 1 && cell.startsWith('"') && cell.endsWith('"')
    ? cell.slice(1, -1).replaceAll('""', '"').trim()
    : cell;

/** The cells of a line; a separator within quotation marks parts none. */
function cellsOf(line: string, separator: string): readonly string[] {
  const cells = [""];
  let isQuoted = false;
  for (const sign of line) {
    if (sign === '"') isQuoted = !isQuoted;
    if (sign === separator && !isQuoted) cells.push("");
    else cells[cells.length - 1] += sign;
  }
  return cells.map((cell) => unquoted(cell.trim()));
}

/** The fields above a table: `# name: value`; lines that begin otherwise with # are for the reader. */
const HEAD = /^#\s*([a-z_]+)\s*:\s*(.*?)\s*$/i;

/** A line above the table as it was before a spreadsheet gave it as many cells as the table has. */
const alone = (line: string): string => unquoted(line.replace(/[\s;,\t]+$/, ""));

interface Line {
  readonly text: string;
  readonly line: number;
}

/** What a form of lines and a table holds, and the line of each of its rows. */
export interface FormTable {
  readonly fields: Readonly<Record<string, unknown>>;
  readonly lines: readonly number[];
}

function rowOf({ text, line }: Line, names: readonly string[], separator: string, file: string) {
  const cells = cellsOf(text, separator);
  const filled = cells.findLastIndex((cell) => cell !== "") + 1;
  if (filled > names.length) {
    const comma = separator === "," ? ", or semicolons between cells where numbers have decimal commas" : "";
    throw new RefusedFile(
      file,
      `line ${line}`,
      `${names.length} cells, as many as names${comma}`,
      `${cells.length}`,
    );
  }
  return Object.fromEntries(
    names.flatMap((name, at) => {
      const cell = cells[at] ?? "";
      return cell === "" ? [] : [[name, cellValue(cell, separator)]];
    }),
  );
}

/** A form written as lines `# name: value` and a table below them. @throws RefusedFile where a row has more cells than names */
export function tableFields(text: string, file: string): FormTable {
  const lines = text
    .replace(/^\uFEFF/, "")
    .split(/\r\n|\n|\r/)
    .map((line, index): Line => ({ text: line.trim(), line: index + 1 }))
    .filter((one) => alone(one.text) !== "");
  const fields: Record<string, unknown> = {};
  const table = lines.filter(({ text: line }) => {
    const head = alone(line);
    const [, name, value = ""] = HEAD.exec(head) ?? [];
    if (name !== undefined && value !== "") fields[name.toLowerCase()] = cellValue(value, ";");
    return !head.startsWith("#");
  });
  const [head, ...rest] = table;
  if (!head) return { fields, lines: [] };
  const separator = separatorOf(head.text);
  const all = cellsOf(head.text, separator).map((name) => name.toLowerCase());
  const names = all.slice(0, all.findLastIndex((name) => name !== "") + 1);
  return {
    fields: { ...fields, rows: rest.map((line) => rowOf(line, names, separator, file)) },
    lines: rest.map(({ line }) => line),
  };
}
