import type { LegRow } from "../sailing/legRow.ts";
import type { Column, Seconds } from "../units.ts";
import { daysOf } from "./days.ts";
import { FORGOTTEN } from "./wanderFilter.ts";

/**
 * Middle of each row, s, as the wander of the wind sees it: at every turn that is left out, and from one day to the next (M56),
 * the wind before it is forgotten (M44), so that what lies before and what comes after are not compared.
 *
 * @param rows in time order
 * @returns rising. Never throws.
 */
export function windTimes(rows: readonly LegRow[]): Column<Seconds> {
  const times = new Float64Array(rows.length);
  daysOf(rows).forEach(({ from, to }, day) => {
    for (let row = from; row < to; row++) {
      const { start, duration, turnsLeftOut = 0 } = rows[row]!;
      times[row] = start + duration / 2 + (turnsLeftOut + day) * 2 * FORGOTTEN;
    }
  });
  return times;
}
