import type { LegRow } from "../sailing/legRow.ts";

/** Rows that an answer rests on at most: some thirteen days of five hours. Work and memory of a fit grow with them. */
const MOST_ROWS = 8000;

/** So many of a leg's rows, from its first to its last, evenly spread. */
function spread(rows: readonly LegRow[], count: number): readonly LegRow[] {
  if (count >= rows.length) return rows;
  const step = (rows.length - 1) / Math.max(1, count - 1);
  return Array.from({ length: count }, (_, place) => rows[Math.round(place * step)]!);
}

/** Rows by their legs. */
function byLeg(rows: readonly LegRow[]): readonly (readonly LegRow[])[] {
  const legs: LegRow[][] = [];
  for (const row of rows) {
    if (legs.at(-1)?.[0]?.leg === row.leg) legs.at(-1)!.push(row);
    else legs.push([row]);
  }
  return legs;
}

/**
 * M164. The rows of a long season that an answer rests on: all of them up to some number, and beyond it all under power, and of each
 * leg under sail the same share, from its beginning to its end, so that every day and every turn still counts.
 *
 * @param rows in time order
 * @param most how many, but for a few more
 * @returns in time order; the very same rows where there are few enough. Never throws.
 */
export function rowsOfSeason(rows: readonly LegRow[], most = MOST_ROWS): readonly LegRow[] {
  if (rows.length <= most) return rows;
  const sailing = rows.filter(({ kind }) => kind === "sailing").length;
  const share = Math.max(0, most - (rows.length - sailing)) / sailing;
  let owed = 0;
  return byLeg(rows).flatMap((leg) => {
    if (leg[0]!.kind !== "sailing") return leg;
    owed += share * leg.length;
    const count = Math.floor(owed);
    owed -= count;
    return spread(leg, count);
  });
}
