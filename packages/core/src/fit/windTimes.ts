import type { LegRow } from "../sailing/legRow.ts";
import type { Column, Seconds } from "../units.ts";
import { FORGOTTEN } from "./wanderFilter.ts";

/**
 * Middle of each row, s, as the wander of the wind sees it: at every turn that is left out the wind before it is
 * forgotten (M44), so that what lies before and what comes after are not compared.
 *
 * @param rows in time order
 * @returns rising. Never throws.
 */
export const windTimes = (rows: readonly LegRow[]): Column<Seconds> =>
  Float64Array.from(
    rows,
    ({ start, duration, turnsLeftOut = 0 }) => start + duration / 2 + turnsLeftOut * 2 * FORGOTTEN,
  );
