import type { LegRow } from "../sailing/legRow.ts";
import type { RecordingChannels } from "./fitContext.ts";

/** A channel counts as there when this share of the rows has it; a choice. */
const MOST = 0.7;

const share = (rows: readonly LegRow[], holds: (row: LegRow) => boolean): number =>
  rows.filter(holds).length / rows.length;

/**
 * What the rows offer (M50). GPS counts only where north is one and the same: velocity over ground is from true north, so a
 * magnetic compass needs the variation.
 *
 * @returns all false for no rows. Never throws.
 * @example
 * channelsOf(rows) // { compass: true, paddle: true, gps: true, heel: true }
 */
export function channelsOf(rows: readonly LegRow[]): RecordingChannels {
  const compass = share(rows, ({ mean }) => !Number.isNaN(mean.heading)) >= MOST;
  const north = (row: LegRow): boolean => !compass || row.headingIsTrue || !Number.isNaN(row.variation);
  return {
    compass,
    paddle: share(rows, ({ mean }) => mean.stw > 0) >= MOST,
    gps: share(rows, (row) => !Number.isNaN(row.mean.east) && north(row)) >= MOST,
    heel: share(rows, ({ mean }) => !Number.isNaN(mean.heel)) >= MOST,
  };
}

/**
 * Sign of the heel sensor's installation: a boat under sail heels away from the wind, so heel and apparent wind angle
 * have opposite signs (M22).
 *
 * @param given what the boat file says
 * @returns 1 also where there is no heel. Never throws.
 */
export function heelSignOf(rows: readonly LegRow[], given: "auto" | 1 | -1): 1 | -1 {
  if (given !== "auto") return given;
  let towardWind = 0;
  for (const { kind, mean } of rows) {
    if (kind === "sailing" && !Number.isNaN(mean.heel)) towardWind += mean.heel * Math.sin(mean.awa);
  }
  return towardWind > 0 ? -1 : 1;
}
