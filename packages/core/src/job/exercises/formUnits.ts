import { RefusedFile } from "../../calibration/refusedFile.ts";
import { METRES_PER_SECOND_IN_A_KNOT as KNOT } from "../../units.ts";

interface OtherUnit {
  /** The ending of the forms' own name. */
  readonly own: string;
  readonly inOwn: (value: number) => number;
}

const times = (factor: number) => (value: number) => value * factor;

/** Endings of names that stand for another unit than the forms have, which then is worked out. A foot is 0.3048 m, a mile 1609.344 m. */
const OTHER_UNITS: Readonly<Record<string, OtherUnit>> = {
  ms: { own: "kn", inOwn: times(1 / KNOT) },
  kmh: { own: "kn", inOwn: times(1 / 3.6 / KNOT) },
  mph: { own: "kn", inOwn: times(1609.344 / 3600 / KNOT) },
  ft: { own: "m", inOwn: times(0.3048) },
  fathoms: { own: "m", inOwn: times(1.8288) },
  km: { own: "m", inOwn: times(1000) },
  f: { own: "c", inOwn: (value) => (value - 32) / 1.8 },
};

/** Endings of differences of temperatures, whose zero is no matter. */
const isDifference = (name: string): boolean => name.startsWith("deviation");

function inOwnUnit(name: string, value: unknown): readonly [string, unknown] {
  const at = name.lastIndexOf("_");
  const ending = name.slice(at + 1);
  const other = at > 0 && Object.hasOwn(OTHER_UNITS, ending) ? OTHER_UNITS[ending] : undefined;
  if (!other || typeof value !== "number") return [name, value];
  const zero = isDifference(name) ? other.inOwn(0) : 0;
  return [`${name.slice(0, at)}_${other.own}`, other.inOwn(value) - zero];
}

function converted(given: Readonly<Record<string, unknown>>, file: string, where: string) {
  const fields: Record<string, unknown> = {};
  for (const [name, value] of Object.entries(given)) {
    const [own, inOwn] = inOwnUnit(name, value);
    if (Object.hasOwn(fields, own))
      throw new RefusedFile(file, `${where}${own}`, "one value in one unit", "another in another unit");
    fields[own] = inOwn;
  }
  return fields;
}

/**
 * A form's fields in the units that the forms have: `sounding_ft` as `sounding_m`, `log_ms` as `log_kn`.
 *
 * @throws RefusedFile where a field is given twice, in two units
 */
export function inFormUnits(
  fields: Readonly<Record<string, unknown>>,
  file: string,
): Readonly<Record<string, unknown>> {
  const { rows, ...above } = fields;
  const own = converted(above, file, "");
  if (!Array.isArray(rows)) return rows === undefined ? own : { ...own, rows };
  const isRow = (row: unknown): row is Readonly<Record<string, unknown>> =>
    typeof row === "object" && row !== null && !Array.isArray(row);
  return {
    ...own,
    rows: rows.map((row: unknown, index) => (isRow(row) ? converted(row, file, `rows[${index}].`) : row)),
  };
}
