import type { MetresPerSecond } from "../units.ts";
import type { CandidateLeg } from "./candidates.ts";
import { type RowOfSeconds, speedOfRow } from "./rows.ts";

/** Plain vector sum of a row's means: true wind angle, its speed, and the ratio of boat speed to it. Never throws. */
export function plainWind(row: RowOfSeconds) {
  const [speed, { awa, aws }] = [speedOfRow(row), row.mean];
  const [ahead, abeam] = [aws * Math.cos(awa) - speed, aws * Math.sin(awa)];
  const wind = Math.hypot(ahead, abeam);
  return { speed, angle: Math.abs(Math.atan2(abeam, ahead)), wind, ratio: speed / wind };
}

/** Mean of the rows' speeds. Never throws. */
export const meanSpeed = ({ rows }: CandidateLeg): MetresPerSecond =>
  rows.reduce((sum, row) => sum + speedOfRow(row), 0) / rows.length;
