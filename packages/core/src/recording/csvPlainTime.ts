import type { TimeFormat } from "./columnMapping.ts";
import { RowTimes } from "./csvTime.ts";
import { EPOCH_UNITS, isoTime, TimeText } from "./timeText.ts";

/** Why the way in which columns tell the time is not plain: their zone is not told, or nothing is. */
export type TimeDoubt = "zone" | "time";

const EPOCH_NAMES = ["s", "ms", "us", "ns"] as const;

const textIn = (value: string): TimeText => {
  const bytes = new TextEncoder().encode(value);
  return new TimeText(bytes, 0, bytes.length);
};

/** The unit of an epoch by the digits that all values have before the decimal mark; undefined where they are none. */
function epochUnit(values: readonly string[]): (typeof EPOCH_NAMES)[number] | undefined {
  const place = EPOCH_UNITS.findIndex(([fewest, most]) =>
    values.every((value) => {
      const digits = /^(\d+)(?:[.,]\d*)?$/.exec(value)?.[1]?.length ?? 0;
      return digits >= fewest && digits <= most;
    }),
  );
  return EPOCH_NAMES[place];
}

/**
 * M112. How a column tells the time, where its values say so by themselves: ISO 8601 with a zone, or an epoch by its count of digits.
 *
 * @param values of the column, not empty
 * @param isUtc whether the header says that times are UTC. Never throws.
 */
export function plainTime(values: readonly string[], isUtc: boolean): TimeFormat | TimeDoubt {
  if (values.length === 0) return "time";
  const unit = epochUnit(values);
  if (unit) return { format: "epoch", unit };
  const told = values.map((value) => isoTime(textIn(value)));
  if (told.some((time) => time === undefined)) return "time";
  if (isUtc) return { format: "iso", zone: 0 };
  const hasZones = told.every((time) => time !== undefined && !Number.isNaN(time.zone));
  return hasZones ? { format: "iso", zone: Number.NaN } : "zone";
}

/** M112. As `plainTime`, for a column of dates and one of times of day, by their values row by row. Never throws. */
export function plainDateAndTime(
  dates: readonly string[],
  times: readonly string[],
  isUtc: boolean,
): TimeFormat | TimeDoubt {
  const utc = { format: "iso", zone: 0 } as const;
  const reader = new RowTimes(utc);
  const isPlain = (date: string, index: number): boolean =>
    /^\d{4}\D/.test(date) && !Number.isNaN(reader.ofTwo(textIn(date), textIn(times[index] ?? "")));
  if (dates.length === 0 || !dates.every(isPlain)) return "time";
  return isUtc ? utc : "zone";
}
