import * as z from "zod";
import { dayNumber } from "../recording/calendar.ts";
import {
  type ColumnMapping,
  DATE_ORDERS,
  type MappedColumn,
  type TimeFormat,
} from "../recording/columnMapping.ts";
import { COLUMN_UNITS, unitsOf } from "../recording/columnUnits.ts";
import { QUANTITIES } from "../recording/readings.ts";
import type { Seconds } from "../units.ts";
import { checked, versionedObject } from "./checkedFile.ts";
import { RefusedFile, shown } from "./refusedFile.ts";

export const COLUMNS_FILE = { schema: "bothtacks-columns", version: 1 } as const;

const ZONE = /^(?:Z|([+-])(\d\d):(\d\d))$/;
const DAY = /^(\d{4})-(\d\d)-(\d\d)$/;

/** What UTC lacks to the clock that the log shows: "Z", or such as "+02:00" for a clock two hours ahead of UTC. */
const zone = z.string().regex(ZONE, 'an offset from UTC such as "+02:00", or "Z"');

const timeSchema = z.discriminatedUnion("format", [
  /** ISO 8601, such as 2031-05-14T12:00:00Z; `utc_offset` is that of times without a zone. */
  z.strictObject({ format: z.literal("iso"), utc_offset: zone.optional() }),
  /** Time since 1970-01-01T00:00:00Z. */
  z.strictObject({ format: z.literal("epoch"), unit: z.enum(["s", "ms", "us", "ns"]) }),
  /** A date in some order, then a time of day (AM and PM too); in one column or in two. */
  z.strictObject({ format: z.literal("day and time"), order: z.enum(DATE_ORDERS), utc_offset: zone }),
  /** A time of day; `date` is that of the first row. Midnight is passed. */
  z.strictObject({
    format: z.literal("time of day"),
    date: z.string().regex(DAY, "a date such as 2031-05-14"),
    utc_offset: zone,
  }),
  /** Days and their fraction, as spreadsheets count them: from 1900 (nearly all) or from 1904. */
  z.strictObject({
    format: z.literal("spreadsheet"),
    date_system: z.literal([1900, 1904]).default(1900),
    utc_offset: zone,
  }),
  /** Seconds since `start`, which is ISO 8601 with a zone. */
  z.strictObject({ format: z.literal("seconds"), start: z.iso.datetime({ offset: true }) }),
]);

/** A column by its name in the header, or by its number from 1. */
const columnName = z.union([z.string().min(1), z.int().min(1)]);

const mappedSchema = z.strictObject({
  /** "none": the column is not read. */
  quantity: z.enum([...QUANTITIES, "none"]),
  unit: z.enum(COLUMN_UNITS).optional(),
  /** The column counts the other way round: its sign is changed. */
  turned: z.boolean().default(false),
});

/** The mapping file. Columns that it does not name are understood by their headers, where these are plain. */
const columnsSchema = z.strictObject({
  schema: z.literal(COLUMNS_FILE.schema).default(COLUMNS_FILE.schema),
  version: z.literal(COLUMNS_FILE.version).default(COLUMNS_FILE.version),
  /** How the time is told, where that is not plain. */
  time: z
    .strictObject({
      /** One column, or two: that of the date and that of the time. */
      column: z.union([columnName, z.tuple([columnName, columnName])]),
      as: timeSchema,
    })
    .optional(),
  columns: z.record(z.string(), mappedSchema).default({}),
});

type TimeInFile = z.output<typeof timeSchema>;

function zoneSeconds(text: string): Seconds {
  const [, sign, hours, minutes] = ZONE.exec(text) ?? [];
  return sign === undefined ? 0 : (sign === "-" ? -1 : 1) * (Number(hours) * 3600 + Number(minutes) * 60);
}

function timeFormat(as: TimeInFile, file: string): TimeFormat {
  switch (as.format) {
    case "iso":
      return { format: "iso", zone: as.utc_offset === undefined ? Number.NaN : zoneSeconds(as.utc_offset) };
    case "epoch":
      return as;
    case "day and time":
      return { format: as.format, order: as.order, zone: zoneSeconds(as.utc_offset) };
    case "time of day": {
      const [, year, month, dayOfMonth] = DAY.exec(as.date) ?? [];
      const day = dayNumber(Number(year), Number(month), Number(dayOfMonth));
      if (Number.isNaN(day))
        throw new RefusedFile(file, "time.as.date", "a date that there is", shown(as.date));
      return { format: as.format, day, zone: zoneSeconds(as.utc_offset) };
    }
    case "spreadsheet":
      return { format: as.format, dateSystem: as.date_system, zone: zoneSeconds(as.utc_offset) };
    case "seconds":
      return { format: as.format, start: Date.parse(as.start) / 1000 };
  }
}

function mappedColumn(
  column: string,
  { quantity, unit, turned }: z.output<typeof mappedSchema>,
  file: string,
): MappedColumn {
  if (quantity === "none") return { quantity };
  const units = unitsOf(quantity);
  if (unit === undefined || !units.includes(unit)) {
    const expected = `one of ${units.map((name) => JSON.stringify(name)).join(", ")} for ${quantity}`;
    throw new RefusedFile(file, `columns.${column}.unit`, expected, shown(unit));
  }
  return { quantity, unit, isTurned: turned };
}

/**
 * The mapping of columns that a mapping file describes.
 *
 * @param text JSON
 * @param file its name, for messages
 * @throws RefusedFile naming file, field, expected and received
 */
export function columnsFromFile(text: string, file: string): ColumnMapping {
  const fields = checked(columnsSchema, versionedObject(text, file, COLUMNS_FILE, "current"), file);
  const { time } = fields;
  const columns = Object.entries(fields.columns).map(
    ([column, as]) => [column, mappedColumn(column, as, file)] as const,
  );
  return {
    file,
    ...(time ? { time: { columns: [time.column].flat().map(String), as: timeFormat(time.as, file) } } : {}),
    columns: Object.fromEntries(columns),
  };
}
