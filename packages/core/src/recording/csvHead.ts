import { belowTitles, type CsvDialect, csvDialect, fieldsOf } from "./csvDialect.ts";

/** The head of a log in columns: what its columns are told by. */
export interface CsvHead {
  readonly dialect: CsvDialect;
  /** The columns' names; their numbers, from 1, where there is no header. */
  readonly names: readonly string[];
  /** The line with the header as it stands; "" for none. */
  readonly header: string;
  /** How many lines down to the header, and to that with the units below it, are no rows. */
  readonly linesBefore: number;
  /** The units row's cells, where there is one. */
  readonly units: readonly string[];
  /** The fields of the rows below that have as many as the header. */
  readonly rows: readonly (readonly string[])[];
}

const BYTE_ORDER_MARK = "\ufeff";
const LONGEST_NAME = 60;

/** A first line of some spreadsheets that only names the delimiter. */
const DELIMITER_LINE = /^sep=.$/i;

/** What numbers and times are made of; a header has something else in it. */
const DATA = /^(?:[-+\d.,:/ TZ]*|nan|null)$/i;

const isNoRow = (line: string): boolean =>
  line.trim() === "" || line.startsWith("#") || DELIMITER_LINE.test(line);

/** Bytes as text: UTF-8, or, where they are none, the usual eight-bit letters. Never throws. */
export function textOf(bytes: Uint8Array): string {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}

/** A header's cell as a name for people: no control or formatting characters, not too long, never empty. */
const nameOf = (cell: string, index: number): string =>
  cell
    .replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu, "?")
    .slice(0, LONGEST_NAME)
    .trim() || `column ${index + 1}`;

/** Names that occur again get their number. */
function namesOf(cells: readonly string[]): readonly string[] {
  const plain = cells.map(nameOf);
  return plain.map((name, index) => (plain.indexOf(name) === index ? name : `${name} (column ${index + 1})`));
}

/** Whether a line below the header tells units: words in it, and no numbers. */
const isUnitsRow = (cells: readonly string[], isUnit: (cell: string) => boolean): boolean =>
  cells.some(isUnit) && cells.every((cell) => cell === "" || !/\d/.test(cell));

/**
 * The head of a log in columns.
 *
 * @param text its first lines, whole ones
 * @param isUnit whether a cell names a unit
 * @returns undefined where it is no table. Never throws.
 */
export function csvHead(text: string, isUnit: (cell: string) => boolean): CsvHead | undefined {
  const lines = text.replace(BYTE_ORDER_MARK, "").split(/\r\n|\r|\n/);
  const rowLines = belowTitles(lines.filter((line) => !isNoRow(line)));
  const dialect = csvDialect(rowLines.slice(0, 200));
  const [first = "", ...others] = rowLines;
  if (dialect === undefined) return undefined;
  const cells = fieldsOf(first, dialect.delimiter);
  const rows = others
    .filter((line) => line !== first)
    .map((line) => fieldsOf(line, dialect.delimiter))
    .filter((fields) => fields.length === cells.length);
  if (cells.every((cell) => DATA.test(cell))) {
    const names = cells.map((_, index) => String(index + 1));
    return {
      dialect,
      names,
      header: "",
      linesBefore: lines.indexOf(first),
      units: [],
      rows: [cells, ...rows],
    };
  }
  const below = fieldsOf(others[0] ?? "", dialect.delimiter);
  const hasUnits = below.length === cells.length && isUnitsRow(below, isUnit);
  return {
    dialect,
    names: namesOf(cells),
    header: first,
    linesBefore: lines.indexOf(hasUnits ? others[0]! : first) + 1,
    units: hasUnits ? below : [],
    rows: rows.slice(hasUnits ? 1 : 0),
  };
}
