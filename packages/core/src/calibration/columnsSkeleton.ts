import { unitInCell } from "../recording/columnNames.ts";
import { type ColumnFindings, findColumns } from "../recording/csvColumns.ts";
import { csvHead, textOf } from "../recording/csvHead.ts";
import { COLUMNS_FILE } from "./columnsFile.ts";

/** What is to be filled in. */
const OPEN = "?";

type Fields = Readonly<Record<string, unknown>>;

function timeOf({ time, questions }: ColumnFindings, names: readonly string[]): Fields {
  const asked = questions.find((question) => question.asks === "time" || question.asks === "zone");
  const columns = time?.indices.map((index) => names[index]!) ?? (asked ? asked.columns : [OPEN]);
  const column = columns.length === 2 ? columns : columns[0];
  if (time?.as.format === "epoch") return { column, as: time.as };
  if (time !== undefined && time.as.format === "iso")
    return { column, as: { format: "iso", ...(time.as.zone === 0 ? { utc_offset: "Z" } : {}) } };
  if (asked?.asks === "zone") return { column, as: { format: "iso", utc_offset: OPEN } };
  return { column, as: { format: OPEN } };
}

function columnsOf({ columns, time, questions }: ColumnFindings, names: readonly string[]): Fields {
  const isTime = (name: string): boolean =>
    (time?.indices ?? []).some((index) => names[index] === name) ||
    questions.some((question) => "columns" in question && question.columns.includes(name));
  const entries = names.flatMap((name): readonly (readonly [string, Fields])[] => {
    const read = columns.find((column) => column.name === name);
    if (read) return [[name, { quantity: read.quantity, unit: read.unit }]];
    const asked = questions.find((question) => "column" in question && question.column === name);
    if (asked?.asks === "unit") return [[name, { quantity: asked.quantity, unit: OPEN }]];
    if (asked?.asks === "north") return [[name, { quantity: OPEN, unit: asked.unit ?? OPEN }]];
    return isTime(name) ? [] : [[name, { quantity: "none" }]];
  });
  return Object.fromEntries(entries);
}

/**
 * A mapping file for a log in columns, as far as its headers and first rows tell it; "?" stands where something must be filled in.
 *
 * @param head the log's first bytes, not compressed; 64 kB are enough
 * @returns JSON; undefined where the log is no table. Never throws.
 * @example
 * const head = new TextEncoder().encode("time,stw\n2031-05-14T12:00:00Z,6.5\n");
 * JSON.parse(columnsSkeleton(head)).columns.stw // { quantity: "speedThroughWater", unit: "?" }
 */
export function columnsSkeleton(head: Uint8Array): string | undefined {
  const table = csvHead(textOf(head), (cell) => unitInCell(cell) !== undefined);
  if (table === undefined) return undefined;
  const findings = findColumns(table, undefined);
  const { names } = table;
  const file = { ...COLUMNS_FILE, time: timeOf(findings, names), columns: columnsOf(findings, names) };
  return `${JSON.stringify(file, null, 2)}\n`;
}
