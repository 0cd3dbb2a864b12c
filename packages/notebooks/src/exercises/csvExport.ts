import { save } from "../boat/save.ts";
import type { View } from "../contract.ts";
import { element } from "../inputs/labelled.ts";

export interface CsvExportOptions {
  /** What the button says. */
  readonly label: string;
  /** The file's name. */
  readonly file: string;
  /** Columns of one length by name, with the unit in the name; NaN becomes an empty field. */
  readonly columns: Readonly<Record<string, readonly number[]>>;
}

/** A table to take along; its text is there for tests. */
export interface CsvExport extends View {
  readonly text: string;
}

/** Finer than any scatter of the exercises: a thousandth. */
const DECIMALS = 3;

const field = (value: number): string =>
  Number.isFinite(value) ? String(Number(value.toFixed(DECIMALS))) : "";

/**
 * A button that saves a table as CSV (RFC 4180).
 *
 * @throws RangeError where the columns are of different lengths
 */
export function csvExport({ label, file, columns }: CsvExportOptions): CsvExport {
  const all = Object.values(columns);
  const count = all[0]?.length ?? 0;
  if (all.some(({ length }) => length !== count))
    throw new RangeError(`csvExport: the columns of ${file} must be of one length`);
  const rows = Array.from({ length: count }, (_, row) => all.map((column) => field(column[row]!)));
  const text = [Object.keys(columns), ...rows].map((fields) => `${fields.join(",")}\r\n`).join("");
  return {
    text,
    draw: (place) => {
      const button = element("button", { type: "button" }, label);
      button.addEventListener("click", () => save(file, text));
      place.append(button);
      return undefined;
    },
  };
}
