import { type ColumnUnit, unitsOf } from "./columnUnits.ts";
import type { QuantityName } from "./readings.ts";

/** Something that must be told of a log's columns before they can be read. */
export type ColumnQuestion =
  | { readonly asks: "unit"; readonly column: string; readonly quantity: QuantityName }
  | { readonly asks: "north"; readonly column: string; readonly unit: ColumnUnit | undefined }
  | { readonly asks: "time"; readonly columns: readonly string[]; readonly received: string }
  | { readonly asks: "zone"; readonly columns: readonly string[]; readonly received: string }
  | { readonly asks: "time column" }
  | { readonly asks: "quantities" }
  | { readonly asks: "column"; readonly column: string; readonly known: readonly string[] };

const listed = (words: readonly string[], last: string): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1)}`;

const quoted = (words: readonly string[]): readonly string[] => words.map((word) => JSON.stringify(word));

const anyOf = (words: readonly string[]): string => listed(quoted(words), "or");

const forColumn = (column: string, quantity: QuantityName, unit: string): string =>
  `${JSON.stringify(column)}: ${JSON.stringify({ quantity, unit })}`;

const timeAs = (columns: readonly string[], as: Readonly<Record<string, string>>): string =>
  `"time": ${JSON.stringify({ column: columns.length === 1 ? columns[0] : columns, as })}`;

/** What is not known, and what to write in the mapping file, in one sentence. */
function sentence(question: ColumnQuestion): string {
  switch (question.asks) {
    case "unit": {
      const { column, quantity } = question;
      const [usual = "", ...others] = unitsOf(quantity);
      return `the unit of column "${column}" is not told; write ${forColumn(column, quantity, usual)} under "columns" of a mapping file, or ${anyOf(others)} for its unit`;
    }
    case "north": {
      const { column, unit = "deg" } = question;
      return `column "${column}" does not tell its north; write ${forColumn(column, "headingMagnetic", unit)} or ${forColumn(column, "headingTrue", unit)} under "columns" of a mapping file`;
    }
    case "time":
      return `how ${listed(quoted(question.columns), "and")} tell${question.columns.length > 1 ? "" : "s"} the time (${question.received}) is not plain; write "time" into a mapping file, such as ${timeAs(question.columns, { format: "seconds", start: "2031-05-14T00:00:00Z" })}, or with the format "iso", "epoch", "day and time", "time of day" or "spreadsheet"`;
    case "zone":
      return `the times in ${listed(quoted(question.columns), "and")} (${question.received}) tell no zone; write ${timeAs(question.columns, { format: "iso", utc_offset: "+02:00" })} into a mapping file, with "Z" for UTC`;
    case "time column":
      return 'no column is known to tell the time; name it under "time" in a mapping file';
    case "quantities":
      return 'no column is known to hold wind, speed, heading or position; say under "columns" of a mapping file what they hold';
    case "column":
      return `there is no column "${question.column}", which the mapping file names; there is ${listed(quoted(question.known), "and")}`;
  }
}

/** Why a log's columns cannot be read as long as some questions are open: the first in words, the others counted. Never throws. */
export function refusalOf(questions: readonly ColumnQuestion[]): string {
  const [first, ...more] = questions;
  if (first === undefined) return "";
  const others =
    more.length === 0 ? "" : `; ${more.length} more question${more.length > 1 ? "s are" : " is"} open`;
  return `${sentence(first)}${others}; "bothtacks columns" writes a mapping file to fill in`;
}
