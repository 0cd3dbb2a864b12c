import { type LegRow, MOMENT_CHANNELS, type MomentChannel, type Tack } from "../sailing/legRow.ts";
import { metresPerSecond, type Radians, radians } from "../units.ts";
import type { WindReading } from "./computer.ts";

/** A row of summary as the tables take it: the rows that the fit was made from. */
export type TableRow = LegRow;

/** From (inclusive) to (exclusive), SI. */
export interface Band {
  readonly low: number;
  readonly high: number;
}

const bands = (edges: readonly number[]): readonly Band[] =>
  edges.slice(1).map((high, index) => ({ low: edges[index]!, high }));

/**
 * Bands of wind speed: narrow where boats race and the upwash changes. A layout that fits on a page, no law of nature.
 */
export const WIND_SPEED_BANDS: readonly Band[] = bands([0, 6, 10, 14, 18, 22, 28, 40].map(metresPerSecond));

/** Bands of the angle to the bow, narrow close-hauled, by the wind that the table is looked up by. */
export const ANGLE_BANDS: Readonly<Record<"apparent" | "true", readonly Band[]>> = {
  apparent: bands([0, 15, 25, 35, 50, 70, 90, 110, 130, 155, 180].map(radians)),
  true: bands([0, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180].map(radians)),
};

/** A lone row is half a minute: less than one turn of the wind. */
const FEWEST_ROWS = 2;

/** A cell of a table that rows fell into, with what was usual in it. */
export interface Cell {
  readonly tack: Tack;
  readonly windBand: Band;
  readonly angleBand: Band;
  readonly legs: number;
  readonly rows: number;
  /** A row that stands for the cell: its means are those of the rows. */
  readonly typical: TableRow;
}

/**
 * The cell of a tack and two bands. Bands are told by their edges, since cells that came out of a worker have bands of their own.
 *
 * @returns undefined where no rows fell into it. Never throws.
 */
export const cellAt = <Found extends Cell>(
  cells: readonly Found[],
  tack: Tack,
  windBand: Band,
  angleBand: Band,
): Found | undefined =>
  cells.find(
    (cell) => cell.tack === tack && isBand(cell.windBand, windBand) && isBand(cell.angleBand, angleBand),
  );

const isBand = (one: Band, other: Band): boolean => one.low === other.low && one.high === other.high;

const placeIn = (all: readonly Band[], band: Band): number => all.findIndex((one) => isBand(one, band));

const within = (value: number, { low, high }: Band): boolean => value >= low && value < high;

/** Means over rows by their counts, NaN left out; angles as the direction of the mean vector. */
function meanOf(rows: readonly TableRow[], channel: MomentChannel): number {
  const known = rows.filter(({ mean }) => !Number.isNaN(mean[channel]));
  const sum = (term: (value: number) => number): number =>
    known.reduce((total, { mean, count }) => total + count * term(mean[channel]), 0);
  if (known.length === 0) return Number.NaN;
  if (channel === "awa" || channel === "heading") return Math.atan2(sum(Math.sin), sum(Math.cos));
  return sum((value) => value) / known.reduce((total, { count }) => total + count, 0);
}

/** A row whose means are those of all the rows. */
function typicalRow(first: TableRow, rows: readonly TableRow[]): TableRow {
  const mean: Record<MomentChannel, number> = { ...first.mean };
  for (const channel of MOMENT_CHANNELS) mean[channel] = meanOf(rows, channel);
  return { ...first, count: rows.reduce((total, { count }) => total + count, 0), mean };
}

/**
 * Rows sorted into the cells of a table: by tack, wind speed and angle, each as the table's own look-up sees them.
 *
 * @param rows sailing rows are taken, motoring ones left out
 * @param lookedUp the wind by which the computer looks up a row: rad and m/s; rows without it are left out
 * @param angleBands bands of |angle|
 * @returns the cells that hold evidence, starboard first, by wind and angle. Never throws.
 */
export function tableCells(
  rows: readonly TableRow[],
  lookedUp: (row: TableRow) => WindReading,
  angleBands: readonly Band[],
): readonly Cell[] {
  const sailing = rows.filter(({ kind }) => kind === "sailing").map((row) => ({ row, wind: lookedUp(row) }));
  const inCell = (tack: Tack, windBand: Band, angleBand: Band): readonly TableRow[] =>
    sailing
      .filter(
        ({ row, wind }) =>
          row.tack === tack && within(wind.speed, windBand) && within(size(wind.angle), angleBand),
      )
      .map(({ row }) => row);
  return (["starboard", "port"] as const).flatMap((tack) =>
    WIND_SPEED_BANDS.flatMap((windBand) =>
      angleBands.flatMap((angleBand) => {
        const members = inCell(tack, windBand, angleBand);
        const [first] = members;
        if (!first || members.length < FEWEST_ROWS) return [];
        const legs = new Set(members.map(({ leg }) => leg)).size;
        return [
          { tack, windBand, angleBand, legs, rows: members.length, typical: typicalRow(first, members) },
        ];
      }),
    ),
  );
}

/** The size of an angle to the bow, kept below 180° so that dead astern falls into the last band. */
const size = (angle: Radians): Radians => Math.min(Math.abs(angle), LAST_ANGLE);

const LAST_ANGLE = Math.PI * (1 - Number.EPSILON);

/** The bands from the first to the last that hold evidence: the span of a table. Never throws. */
export function bandsSpanned(cells: readonly Cell[]): {
  readonly winds: readonly Band[];
  readonly angles: readonly Band[];
} {
  const span = (all: readonly Band[], used: readonly Band[]): readonly Band[] => {
    const places = used.map((band) => placeIn(all, band));
    return used.length === 0 ? [] : all.slice(Math.min(...places), Math.max(...places) + 1);
  };
  const angleBands =
    Object.values(ANGLE_BANDS).find((all) => cells.every(({ angleBand }) => placeIn(all, angleBand) >= 0)) ??
    [];
  return {
    winds: span(
      WIND_SPEED_BANDS,
      cells.map(({ windBand }) => windBand),
    ),
    angles: span(
      angleBands,
      cells.map(({ angleBand }) => angleBand),
    ),
  };
}
