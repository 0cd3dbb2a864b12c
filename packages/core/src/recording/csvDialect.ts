/** The marks that part the fields of a line; the first of those that do equally well. */
const DELIMITERS = [";", "\t", ","] as const;

export type Delimiter = (typeof DELIMITERS)[number];

/** How a file of comma-separated values writes fields and numbers. */
export interface CsvDialect {
  readonly delimiter: Delimiter;
  readonly decimal: "." | ",";
}

/** The fields of a line (RFC 4180), spaces around them and quotes taken off. Never throws. */
export function fieldsOf(line: string, delimiter: Delimiter): readonly string[] {
  const fields: string[] = [];
  let field = "";
  let isQuoted = false;
  for (let at = 0; at < line.length; at++) {
    const sign = line[at]!;
    if (isQuoted && sign === '"' && line[at + 1] === '"') field += line[at++];
    else if (sign === '"' && (isQuoted || field.trim() === "")) isQuoted = !isQuoted;
    else if (sign === delimiter && !isQuoted) {
      fields.push(field.trim());
      field = "";
    } else field += sign;
  }
  return [...fields, field.trim()];
}

/** Whether a line names no columns, however it is parted: at most one of its fields holds anything. */
const isTitle = (line: string): boolean =>
  DELIMITERS.every((delimiter) => fieldsOf(line, delimiter).filter((field) => field !== "").length < 2);

/** Lines without the titles, and lines of empty cells, that spreadsheets have above a table. Never throws. */
export function belowTitles(lines: readonly string[]): readonly string[] {
  const header = lines.findIndex((line) => !isTitle(line));
  return header < 0 ? [] : lines.slice(header);
}

/** How many of the lines have as many fields as the first, if it has two or more. */
function linesAlike(lines: readonly string[], delimiter: Delimiter): number {
  const [first = "", ...more] = lines;
  const count = fieldsOf(first, delimiter).length;
  return count < 2 ? 0 : 1 + more.filter((line) => fieldsOf(line, delimiter).length === count).length;
}

const WITH_POINT = /^[-+]?\d*\.\d+$/;
const WITH_COMMA = /^[-+]?\d*,\d+$/;

/**
 * How some lines write fields and numbers: the mark that parts most of them into as many fields as the first, and the decimal
 * comma where more numbers have one than have a point.
 *
 * @param lines a header and lines below it; a few hundred are enough
 * @returns undefined where no mark parts half of them like the first: they are no table. Never throws.
 */
export function csvDialect(lines: readonly string[]): CsvDialect | undefined {
  let delimiter: Delimiter | undefined;
  let most = 0;
  for (const candidate of DELIMITERS) {
    const alike = linesAlike(lines, candidate);
    if (alike <= most) continue;
    delimiter = candidate;
    most = alike;
  }
  if (delimiter === undefined || 2 * most < lines.length) return undefined;
  const fields = lines.slice(1).flatMap((line) => fieldsOf(line, delimiter));
  const count = (pattern: RegExp): number => fields.filter((field) => pattern.test(field)).length;
  return { delimiter, decimal: count(WITH_COMMA) > count(WITH_POINT) ? "," : "." };
}

/** Share of some lines that are of one table: as many fields as the first below titles, two or more; 0 where there is no table. Never throws. */
export function tableShare(all: readonly string[]): number {
  const lines = belowTitles(all);
  const dialect = csvDialect(lines);
  return dialect === undefined || lines.length < 2 ? 0 : linesAlike(lines, dialect.delimiter) / all.length;
}
