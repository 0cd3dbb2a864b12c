import { wrapAngle } from "../angles.ts";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import { errorCovariance } from "../fit/doubtOfPriors.ts";
import { INDEX_OF, settingsOf } from "../fit/settingsVector.ts";
import type { LegRow } from "../sailing/legRow.ts";
import { type Radians, radians } from "../units.ts";
import { statesCorrected } from "./rowWind.ts";

/** Level apparent wind angles below this are upwind. */
const UPWIND: Radians = radians(55);

/** Share of a standard deviation by which each parameter is moved for a slope. */
const STEP = 0.3;

/**
 * What the best settings leave of faults whose shapes are not the library's own, with the noise of a day: on thirty simulated
 * boats the best settings left 0.44° upwind and 0.37° off the wind in mean absolute value, which of a normal error is 0.8 sd.
 */
const OTHER_FORMS: Radians = radians(0.5);

/** Rows of one point of sailing, by tack. */
interface Sides {
  readonly starboard: readonly number[];
  readonly port: readonly number[];
}

function sidesOf(fit: SolvedBoatFit, rows: readonly LegRow[], point: "upwind" | "off the wind"): Sides {
  const { apparentAngle, windEast } = statesCorrected(rows, fit.settings);
  const on = (tack: LegRow["tack"]): readonly number[] =>
    [...rows.keys()].filter((index) => {
      const upwind = Math.abs(apparentAngle[index]!) < UPWIND;
      const { kind, tack: sailed } = rows[index]!;
      const known = kind === "sailing" && !Number.isNaN(windEast[index]!);
      return known && sailed === tack && upwind === (point === "upwind");
    });
  return { starboard: on("starboard"), port: on("port") };
}

/**
 * M62. Standard deviation of the tack gap that is left once a fit's settings are applied to rows: the gap's slopes by the
 * parameters, through their covariance, and what faults of other forms than the library's leave in any case.
 *
 * @param fit a solved fit
 * @param rows of any day, on the base of the fit's settings
 * @param point upwind (level apparent wind angle below 55°) or off the wind
 * @returns rad; NaN where one of the tacks was not sailed there. Never throws.
 * @example
 * tackGapDeviation(fit, rows, "upwind") < radians(10) // true
 */
export function tackGapDeviation(
  fit: SolvedBoatFit,
  rows: readonly LegRow[],
  point: "upwind" | "off the wind",
): Radians {
  const { starboard, port } = sidesOf(fit, rows, point);
  if (starboard.length === 0 || port.length === 0) return Number.NaN;
  const size = fit.parameters.length;
  const values = Float64Array.from(fit.parameters, ({ value }) => value);
  const directions = (index: number, move: number) => {
    const moved = values.with(index, values[index]! + move);
    const { windEast, windNorth } = statesCorrected(rows, settingsOf(moved, fit.settings.heel.sign));
    return windEast.map((east, row) => Math.atan2(east, windNorth[row]!));
  };
  const slopes = fit.parameters.map(({ name, sd }) => {
    const step = STEP * sd;
    const [up, down] = [directions(INDEX_OF[name], step), directions(INDEX_OF[name], -step)];
    const mean = (side: readonly number[]): number =>
      side.reduce((sum, row) => sum + wrapAngle(up[row]! - down[row]!), 0) / side.length / (2 * step);
    return mean(starboard) - mean(port);
  });
  const covariance = errorCovariance(fit);
  let variance = OTHER_FORMS ** 2;
  for (let row = 0; row < size; row++)
    for (let column = 0; column < size; column++)
      variance += slopes[row]! * slopes[column]! * covariance[row * size + column]!;
  return Math.sqrt(variance);
}
