import { NIGHT } from "../recording/stretches.ts";
import type { LegRow } from "../sailing/legRow.ts";

/** Rows that belong to one day: from, and up to but without. */
export interface Day {
  readonly from: number;
  readonly to: number;
}

/**
 * M56. The days of rows: a new one begins where none was sailed for four hours.
 *
 * @param rows in time order
 * @returns contiguous, all rows in them. Never throws.
 */
export function daysOf(rows: readonly LegRow[]): readonly Day[] {
  const starts = rows.flatMap(({ start }, index) => {
    const last = rows[index - 1];
    return last === undefined || start - (last.start + last.duration) >= NIGHT ? [index] : [];
  });
  return starts.map((from, day) => ({ from, to: starts[day + 1] ?? rows.length }));
}
