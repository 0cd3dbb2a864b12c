import type { RowKind } from "../sailing/legRow.ts";
import { type MetresPerSecond, radians } from "../units.ts";
import type { ImpliedStates } from "./impliedState.ts";
import { type SeriesName, seriesValue, windSpeedOf } from "./sailingSeries.ts";

/** In less wind than this a direction means little; such rows say nothing of the wind while sailing. */
const LEAST_WIND: MetresPerSecond = 2.5;

/** Error of a row's mean wind vector from noise, rounding and uneven boat speed; common practice, no source. */
const VECTOR_ERROR: MetresPerSecond = 0.12;

/** What is left of heading and angle errors in a row's mean, likewise. */
const ANGLE_ERROR = radians(0.4);

/** Half a degree of heading or leeway at 6 kn, which the compass series and the leeway law cannot express. */
const CURRENT_ERROR: MetresPerSecond = 0.03;

/**
 * M52. Variance of a row's own error about the wandering quantity; Infinity where the row says nothing of it. The error of a
 * wind vector weighs on direction and log speed in inverse proportion to the wind.
 */
export function seriesNoise(name: SeriesName, kind: RowKind, states: ImpliedStates, row: number): number {
  if (Number.isNaN(seriesValue(name, states, row))) return Number.POSITIVE_INFINITY;
  const wind = windSpeedOf(states, row);
  const calm = wind < LEAST_WIND;
  switch (name) {
    case "direction":
      return calm ? Number.POSITIVE_INFINITY : ANGLE_ERROR ** 2 + (VECTOR_ERROR / wind) ** 2;
    case "logSpeed":
      return calm ? Number.POSITIVE_INFINITY : 0.01 ** 2 + (VECTOR_ERROR / wind) ** 2;
    case "currentEast":
    case "currentNorth":
      return CURRENT_ERROR ** 2;
    case "calmEast":
    case "calmNorth":
      return calm && kind === "motoring" ? VECTOR_ERROR ** 2 : Number.POSITIVE_INFINITY;
  }
}
