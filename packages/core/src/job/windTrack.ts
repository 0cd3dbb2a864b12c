import { wrapAngle } from "../angles.ts";
import type { BoatFit } from "../fit/boatFit.ts";
import type { ImpliedStates } from "../fit/impliedState.ts";
import { windSpeedOf } from "../fit/sailingSeries.ts";
import { wanderOf, whitened, windSeries } from "../judge/agreements.ts";
import type { WindTrack } from "../report/answer.ts";
import type { LegRow } from "../sailing/legRow.ts";

const unknown = (rows: readonly LegRow[]): Float64Array => new Float64Array(rows.length).fill(Number.NaN);

/** Standardised innovations of a series after the fit (M44); NaN in rows that have none. */
function residuals(
  name: "direction" | "logSpeed",
  rows: readonly LegRow[],
  states: ImpliedStates,
  fit: BoatFit,
): Float64Array {
  if (fit.status !== "solved") return unknown(rows);
  const wander = wanderOf(name, fit.wander);
  const { innovations, used } = whitened(name, rows, states, [windSeries(name, states)], wander);
  return innovations.map((innovation, row) => (used[row] ? innovation : Number.NaN));
}

const speeds = (rows: readonly LegRow[], states: ImpliedStates): Float64Array =>
  Float64Array.from(rows, (_, row) => windSpeedOf(states, row));

/**
 * The true wind row by row before and after, for the picture.
 *
 * @param rows in time order
 * @param before what the computer on board makes of the rows
 * @param after what the fitted settings make of them; undefined where the fit is unsolved
 * @param overGround whether the wind is that over the ground, else over the water
 * @returns directions unwrapped; all that comes after NaN where there is none. Never throws.
 */
export function windTrack(
  rows: readonly LegRow[],
  fit: BoatFit,
  before: ImpliedStates,
  after: ImpliedStates | undefined,
  overGround: boolean,
): WindTrack {
  return {
    time: Float64Array.from(rows, ({ start, duration }) => start + duration / 2),
    tack: rows.map(({ tack }) => tack),
    kind: rows.map(({ kind }) => kind),
    directionBefore: windSeries("direction", before),
    directionAfter: after ? windSeries("direction", after) : unknown(rows),
    speedBefore: speeds(rows, before),
    speedAfter: after ? speeds(rows, after) : unknown(rows),
    angleAfter: after ? after.trueAngle.map(wrapAngle) : unknown(rows),
    directionResidual: after ? residuals("direction", rows, after, fit) : unknown(rows),
    speedResidual: after ? residuals("logSpeed", rows, after, fit) : unknown(rows),
    overGround,
  };
}
