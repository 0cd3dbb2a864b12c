import { degrees, knots } from "../units.ts";
import { type Band, bandsSpanned, cellAt } from "./cells.ts";
import { isTold } from "./deviationCard.ts";
import type { TableCell } from "./entries.ts";
import type { Estimate } from "./estimate.ts";
import { HALF_WIDTH_95, LEARNT } from "./format.ts";
import { inUnit, type SettingUnit, type SingleSetting } from "./settings.ts";
import { isWithinDoubt } from "./standsOut.ts";
import type { CorrectionTables, WholeAdvice } from "./tables.ts";

/** One number a record. `add_…` is added to the reading; intervals are half widths of 95 %. */
const COLUMNS = [
  "kind",
  "name",
  "tack",
  "wind",
  "wind_speed_from_kn",
  "wind_speed_below_kn",
  "wind_angle_from_deg",
  "wind_angle_below_deg",
  "compass_heading_deg",
  "add_deg",
  "add_deg_interval",
  "add_kn",
  "add_kn_interval",
  "add_percent",
  "add_percent_interval",
  "leeway_coefficient_deg_kn2_per_deg",
  "leeway_coefficient_interval",
  "informed_share",
  "legs",
  "samples",
  "advice",
] as const;

type ColumnName = (typeof COLUMNS)[number];
type CsvRecord = Partial<Readonly<Record<ColumnName, string | number>>>;

/** A field as RFC 4180 has it: quoted where it holds a comma, a quote or an end of line. */
const field = (value: string | number | undefined): string => {
  const text = value === undefined || Number.isNaN(value) ? "" : String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};

const line = (record: CsvRecord): string => COLUMNS.map((column) => field(record[column])).join(",");

/** A number as the file holds it: two decimals, and never "-0". */
const rounded = (value: number): number => Number(value.toFixed(2)) + 0;

const UNIT_COLUMNS: Readonly<Record<SettingUnit, readonly [ColumnName, ColumnName]>> = {
  degrees: ["add_deg", "add_deg_interval"],
  knots: ["add_kn", "add_kn_interval"],
  percent: ["add_percent", "add_percent_interval"],
  leeway: ["leeway_coefficient_deg_kn2_per_deg", "leeway_coefficient_interval"],
};

/** The amount, its interval and informed share; the amount is blank where it was not learnt. */
function amount({ value, sd, informed }: Estimate, unit: SettingUnit): CsvRecord {
  const share = { informed_share: rounded(informed) };
  if (!(informed >= LEARNT)) return share;
  const [value_column, interval_column] = UNIT_COLUMNS[unit];
  return {
    ...share,
    [value_column]: rounded(inUnit(value, unit)),
    [interval_column]: rounded(HALF_WIDTH_95 * inUnit(sd, unit)),
  };
}

/** What is keyed in although a doubt is said of it. */
const WITH_DOUBT = "key in with doubt";

function entryAdvice(estimate: Estimate, whole: WholeAdvice): string {
  if (!(estimate.informed >= LEARNT)) return "not learnt";
  return whole === "key in" && isWithinDoubt(estimate) ? WITH_DOUBT : whole;
}

function settingAdvice({ advice, doubts }: SingleSetting): string {
  if (advice === "no place") return "not for this computer";
  return doubts.length > 0 ? WITH_DOUBT : advice;
}

const settingRecord = (setting: SingleSetting): CsvRecord => ({
  kind: "setting",
  name: setting.name,
  ...(setting.advice === "no place" ? {} : amount(setting.estimate, setting.unit)),
  advice: settingAdvice(setting),
});

/** M189. The leeway coefficient of each tack, which no instrument holds. */
const leewayRecords = ({ leewayByTack }: CorrectionTables): readonly CsvRecord[] =>
  (["starboard", "port"] as const).flatMap((tack) =>
    leewayByTack === undefined
      ? []
      : [
          {
            kind: "by tack",
            name: "leeway coefficient",
            tack,
            ...amount(leewayByTack[tack], "leeway"),
            advice: "told only",
          },
        ],
  );

const place = (windBand: Band, angleBand: Band): CsvRecord => ({
  wind_speed_from_kn: rounded(knots(windBand.low)),
  wind_speed_below_kn: rounded(knots(windBand.high)),
  wind_angle_from_deg: rounded(degrees(angleBand.low)),
  wind_angle_below_deg: rounded(degrees(angleBand.high)),
});

function cellRecord(
  cell: TableCell | undefined,
  quantity: "wind angle" | "wind speed",
  whole: WholeAdvice,
): CsvRecord {
  if (!cell) return { legs: 0, samples: 0 };
  const estimate = quantity === "wind angle" ? cell.angle : cell.speed;
  return {
    ...amount(estimate, quantity === "wind angle" ? "degrees" : "knots"),
    legs: cell.legs,
    samples: cell.rows,
    advice: entryAdvice(estimate, whole),
  };
}

/** The whole span of the table, so that cells without evidence stand there blank. */
function cellRecords({ cells, computer, tableAdvice }: CorrectionTables): readonly CsvRecord[] {
  if (computer.table === "none") return [];
  const { winds, angles } = bandsSpanned(cells);
  return (["wind angle", "wind speed"] as const).flatMap((name) =>
    (["starboard", "port"] as const).flatMap((tack) =>
      winds.flatMap((windBand) =>
        angles.map((angleBand) => {
          const cell = cellAt(cells, tack, windBand, angleBand);
          const head = { kind: "table", name, tack, wind: computer.table };
          return { ...head, ...place(windBand, angleBand), ...cellRecord(cell, name, tableAdvice) };
        }),
      ),
    ),
  );
}

/**
 * The tables as a file of comma-separated values (RFC 4180): a header, then one number a record: the settings, the leeway of each tack, the
 * deviation card, the table over wind speed and angle. Amounts are added to the reading, angles positive to starboard;
 * the angle of a cell is its size, the tack tells the side. Empty fields are unknown.
 * Never throws.
 *
 * @example
 * tablesCsv(tables).includes(",") // true
 */
export function tablesCsv(tables: CorrectionTables): string {
  const deviation = tables.deviation.map(
    (entry): CsvRecord => ({
      kind: "deviation",
      name: "deviation",
      compass_heading_deg: rounded(degrees(entry.heading)),
      ...(entry.sailed ? amount(entry.estimate, "degrees") : {}),
      advice: isTold(entry) ? tables.deviationAdvice : entry.sailed ? "not learnt" : "not sailed",
    }),
  );
  const settings = [...tables.settings.map(settingRecord), ...leewayRecords(tables)];
  const records = [...settings, ...deviation, ...cellRecords(tables)];
  return [COLUMNS.join(","), ...records.map(line)].map((text) => `${text}\r\n`).join("");
}
