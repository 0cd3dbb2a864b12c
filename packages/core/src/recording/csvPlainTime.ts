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

/** Whether most values are of a kind; the others will be problems. */
const areMost = <Value>(values: readonly Value[], isOfKind: (value: Value) => boolean): boolean =>
  2 * values.filter(isOfKind).length > values.length;

/** The unit of an epoch by the digits that values have before the decimal mark; undefined where they are none. */
function epochUnit(values: readonly string[]): (typeof EPOCH_NAMES)[number] | undefined {
  const place = EPOCH_UNITS.findIndex(([fewest, most]) =>
    areMost(values, (value) => {
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
  const unit = epochUnit(values);
  if (unit) return { format: "epoch", unit };
  const told = values.map((value) => isoTime(textIn(value)));
  if (!areMost(told, (time) => time !== undefined)) return "time";
  if (isUtc) return { format: "iso", zone: 0 };
  const lacksZone = told.some((time) => time !== undefined && Number.isNaN(time.zone));
  return lacksZone ? "zone" : { format: "iso", zone: Number.NaN };
}

/** M112. As `plainTime`, for rows of a date and a time of day. Never throws. */
export function plainDateAndTime(
  values: readonly (readonly [date: string, time: string])[],
  isUtc: boolean,
): TimeFormat | TimeDoubt {
  const utc = { format: "iso", zone: 0 } as const;
  const reader = new RowTimes(utc);
  const isPlain = ([date, time]: readonly [string, string]): boolean =>
    /^\d{4}\D/.test(date) && !Number.isNaN(reader.ofTwo(textIn(date), textIn(time)));
  if (!areMost(values, isPlain)) return "time";
  return isUtc ? utc : "zone";
}
