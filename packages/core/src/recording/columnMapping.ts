import type { Seconds } from "../units.ts";
import type { ColumnUnit } from "./columnUnits.ts";
import type { QuantityName } from "./readings.ts";

/** What is told of a column whose header does not tell it. */
export type MappedColumn =
  | { readonly quantity: "none" }
  | {
      readonly quantity: QuantityName;
      readonly unit: ColumnUnit;
      /** Whether the column counts the other way round: its sign is changed. */
      readonly isTurned: boolean;
    };

export const DATE_ORDERS = ["year-month-day", "day-month-year", "month-day-year"] as const;
/** In which order a date has its parts. */
export type DateOrder = (typeof DATE_ORDERS)[number];

/** How a column, or a date column and a time column, tell the time; `zone` is seconds east of UTC. */
export type TimeFormat =
  | { readonly format: "iso" /** Of times without one; NaN: there are none. */; readonly zone: Seconds }
  | { readonly format: "epoch"; readonly unit: "s" | "ms" | "us" | "ns" }
  | { readonly format: "day and time"; readonly order: DateOrder; readonly zone: Seconds }
  | {
      readonly format: "time of day";
      /** The first row's day, days since 1970-01-01. */
      readonly day: number;
      readonly zone: Seconds;
    }
  | { readonly format: "spreadsheet"; readonly dateSystem: 1900 | 1904; readonly zone: Seconds }
  | { readonly format: "seconds" /** s since 1970 UTC. */; readonly start: Seconds };

/** How the columns of a log are to be understood where their headers do not tell it. */
export interface ColumnMapping {
  /** The file that says so, for messages. */
  readonly file: string;
  /** Names (or numbers from 1) of the columns that tell the time: one, or one for the date and one for the time. */
  readonly time?: { readonly columns: readonly string[]; readonly as: TimeFormat };
  /** By the column's name, or its number from 1. */
  readonly columns: Readonly<Record<string, MappedColumn>>;
}
