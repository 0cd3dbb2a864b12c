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

/**
 * What mapping files begin with.
 *
 * @example
 * COLUMNS_FILE.schema // "bothtacks-columns"
 */
export const COLUMNS_FILE = { schema: "bothtacks-columns", version: 1 } as const;

const ZONE = /^(?:Z|([+-])(\d\d):(\d\d))$/;
const DAY = /^(\d{4})-(\d\d)-(\d\d)$/;

const zone = z
  .string()
  .regex(ZONE, 'an offset from UTC such as "+02:00", or "Z"')
  .describe('How far the clock that the log shows is ahead of UTC: such as "+02:00", or "Z" for UTC');

const timeSchema = z.discriminatedUnion(
  "format",
  [
    z
      .strictObject({ format: z.literal("iso"), utc_offset: zone.optional() })
      .describe("ISO 8601, such as 2031-05-14T12:00:00Z; utc_offset is that of times without a zone"),
    z
      .strictObject({ format: z.literal("epoch"), unit: z.enum(["s", "ms", "us", "ns"]) })
      .describe("Time since 1970-01-01T00:00:00Z"),
    z
      .strictObject({ format: z.literal("day and time"), order: z.enum(DATE_ORDERS), utc_offset: zone })
      .describe(
        "A date with its parts in some order, then a time of day (AM and PM too); in one column or two",
      ),
    z
      .strictObject({
        format: z.literal("time of day"),
        date: z.string().regex(DAY, "a date such as 2031-05-14").describe("The day of the first row"),
        utc_offset: zone,
      })
      .describe("A time of day, which goes on past midnight"),
    z
      .strictObject({
        format: z.literal("spreadsheet"),
        date_system: z
          .literal([1900, 1904])
          .default(1900)
          .describe("From which year the spreadsheet counts: 1900 nearly always"),
        utc_offset: zone,
      })
      .describe("Days and their fraction, as spreadsheets count them"),
    z
      .strictObject({
        format: z.literal("seconds"),
        start: z.iso.datetime({ offset: true }).describe("ISO 8601 with a zone"),
      })
      .describe("Seconds since a start"),
  ],
  { error: 'one of "iso", "epoch", "day and time", "time of day", "spreadsheet", "seconds"' },
);

const columnName = z
  .union([z.string().min(1), z.int().min(1)])
  .describe("A column by its name in the header, or by its number from 1");

const mappedSchema = z.strictObject({
  quantity: z
    .enum([...QUANTITIES, "none"])
    .describe('What the column holds; "none": it is not read. A heading says its north by this name'),
  unit: z.enum(COLUMN_UNITS).optional().describe("The unit of its numbers; needed but for none"),
  turned: z.boolean().default(false).describe("The column counts the other way round: its sign is changed"),
});

/** The mapping file. Columns that it does not name are understood by their headers, where these are plain. */
export const columnsSchema = z.strictObject({
  schema: z.literal(COLUMNS_FILE.schema).default(COLUMNS_FILE.schema),
  version: z.literal(COLUMNS_FILE.version).default(COLUMNS_FILE.version),
  time: z
    .strictObject({
      column: z
        .union([columnName, z.tuple([columnName, columnName])])
        .describe("The column that tells the time, or two: that of the date and that of the time of day"),
      as: timeSchema,
    })
    .optional()
    .describe("How the time is told, where headers and values do not show it"),
  columns: z
    .record(z.string(), mappedSchema)
    .default({})
    .describe("What columns hold, each by its name in the header or its number from 1"),
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
 * @example
 * const file = '{ "columns": { "speed": { "quantity": "speedThroughWater", "unit": "kn" } } }';
 * columnsFromFile(file, "columns.json").columns.speed.unit // "kn"
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
