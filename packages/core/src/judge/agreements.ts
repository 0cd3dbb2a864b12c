import { Matrix, SingularValueDecomposition } from "ml-matrix";
import type { Agreements } from "../calibration/calibration.ts";
import type { WanderScales } from "../fit/boatFit.ts";
import { IMPLIED_PLACES, type ImpliedStates, impliedStates } from "../fit/impliedState.ts";
import { type SeriesName, seriesValue, unwrapDirections, WANDER_PRIORS } from "../fit/sailingSeries.ts";
import { seriesNoise } from "../fit/seriesNoise.ts";
import { type WanderModel, whiten } from "../fit/stateSpace.ts";
import { windTimes } from "../fit/windTimes.ts";
import type { LegRow } from "../sailing/legRow.ts";
import { radians } from "../units.ts";

/** Level apparent wind angles below this are upwind. */
const UPWIND = radians(55);

/** Contrasts whose direction is seen less than this, against the largest, are not there. */
const LEAST_SEEN = 1e-6;

/** How the wind is expected to wander where no fit told. */
const EXPECTED_WANDER: WanderScales = {
  slowDirection: WANDER_PRIORS.direction.slow.median,
  fastDirection: WANDER_PRIORS.direction.fast.median,
  slowLogSpeed: WANDER_PRIORS.logSpeed.slow.median,
  fastLogSpeed: WANDER_PRIORS.logSpeed.fast.median,
  fastSeconds: WANDER_PRIORS.direction.fastSeconds[0]!,
};

/** The wander of one of the wind's two series. */
export function wanderOf(
  name: "direction" | "logSpeed",
  scales: WanderScales = EXPECTED_WANDER,
): WanderModel {
  const { fastSeconds } = scales;
  return name === "direction"
    ? { slow: scales.slowDirection, fast: scales.fastDirection, fastSeconds }
    : { slow: scales.slowLogSpeed, fast: scales.fastLogSpeed, fastSeconds };
}

/** Direction (unwrapped) or ln speed of the wind row by row. */
export function windSeries(name: SeriesName, states: ImpliedStates): Float64Array {
  const values = states.windEast.map((_, row) => seriesValue(name, states, row));
  if (name === "direction") unwrapDirections(values);
  return values;
}

/** Columns whitened together (M44); rows that say nothing of the wind have no innovation. */
export function whitened(
  name: "direction" | "logSpeed",
  rows: readonly LegRow[],
  states: ImpliedStates,
  columns: readonly Float64Array[],
  wander: WanderModel,
): { readonly innovations: Float64Array; readonly used: readonly boolean[] } {
  const variances = Float64Array.from(rows, (row, index) => seriesNoise(name, row.kind, states, index));
  const table = Float64Array.from({ length: rows.length * columns.length }, (_, place) => {
    const value = columns[place % columns.length]![Math.floor(place / columns.length)]!;
    return Number.isNaN(value) ? 0 : value;
  });
  const innovations = new Float64Array(table.length);
  const durations = Float64Array.from(rows, ({ duration }) => duration);
  whiten(wander, windTimes(rows), durations, variances, table, innovations);
  return { innovations, used: Array.from(variances, (variance) => variance < Number.POSITIVE_INFINITY) };
}

interface Contrast {
  readonly value: number;
  readonly sd: number;
}

const UNSEEN: Contrast = { value: Number.NaN, sd: Number.NaN };

/** Least squares of the first whitened column on the others; NaN for all where one of them is not seen. */
function regression(innovations: Float64Array, columns: number): readonly Contrast[] {
  const rows = innovations.length / columns;
  const table = Matrix.from1DArray(rows, columns, innovations);
  const design = table.subMatrix(0, rows - 1, 1, columns - 1);
  const measured = table.subMatrix(0, rows - 1, 0, 0);
  const decomposition = new SingularValueDecomposition(design, { autoTranspose: true });
  const singular = decomposition.diagonal;
  if (!(Math.min(...singular) > LEAST_SEEN * Math.max(...singular)) || rows <= columns) {
    return Array.from({ length: columns - 1 }, () => UNSEEN);
  }
  const values = decomposition.solve(measured);
  const misfit = Matrix.sub(measured, design.mmul(values)).norm("frobenius") ** 2 / (rows - columns);
  const spread = Math.max(1, misfit);
  const inverse = decomposition.rightSingularVectors;
  return values.to1DArray().map((value, place) => {
    const variance = singular.reduce((sum, one, index) => sum + (inverse.get(place, index) / one) ** 2, 0);
    return { value, sd: Math.sqrt(variance * spread) };
  });
}

/** Changes of a flag from row to row, but for those at turns that are left out. */
const changes = (flags: ArrayLike<number>, rows: readonly LegRow[]): number =>
  rows.filter(({ turnsLeftOut }, index) => {
    const before = rows[index - 1];
    return before && before.turnsLeftOut === turnsLeftOut && flags[index] !== flags[index - 1];
  }).length;

/** The rows under sail with their states. */
function underSail(rows: readonly LegRow[], states: ImpliedStates) {
  const sailing = [...rows.keys()].filter((index) => rows[index]!.kind === "sailing");
  const picked = impliedStates(sailing.length);
  for (const place of IMPLIED_PLACES) {
    sailing.forEach((row, index) => {
      picked[place][index] = states[place][row]!;
    });
  }
  return { sailed: sailing.map((index) => rows[index]!), picked };
}

/** What one of the wind's series has in step with the tack, and with the point of sailing where both were sailed. */
function contrasts(
  name: "direction" | "logSpeed",
  sailed: readonly LegRow[],
  states: ImpliedStates,
  flags: readonly Float64Array[],
  scales: WanderScales | undefined,
): { readonly onTack: Contrast; readonly onPoint: Contrast } {
  if (sailed.length === 0) return { onTack: UNSEEN, onPoint: UNSEEN };
  const columns = [windSeries(name, states), ...flags];
  const { innovations } = whitened(name, sailed, states, columns, wanderOf(name, scales));
  const [onTack = UNSEEN, onPoint = UNSEEN] = regression(innovations, columns.length);
  return { onTack, onPoint };
}

/**
 * M61. The three agreements: direction and ln speed of the true wind regressed on the tack and on whether she sails upwind,
 * both whitened by the wander of the wind (M44), so that what is near in time weighs most and the standard errors hold the
 * wind's own shifts. Rows under power are left out.
 *
 * @param rows in time order
 * @param states what they imply, before or after
 * @param scales of wander from a fit; what is expected without
 * @returns values NaN where the rows hold no such contrast. Never throws.
 * @example
 * const [betweenTacks] = agreementsOf(rows, statesCorrected(rows, fit.settings));
 * betweenTacks.kind // "direction between tacks"
 */
export function agreementsOf(
  rows: readonly LegRow[],
  states: ImpliedStates,
  scales?: WanderScales,
): Agreements {
  const { sailed, picked } = underSail(rows, states);
  const tack = Float64Array.from(sailed, (row) => (row.tack === "starboard" ? 0.5 : -0.5));
  const upwind = picked.apparentAngle.map((angle) => (Math.abs(angle) < UPWIND ? 0.5 : -0.5));
  const flags = changes(upwind, sailed) > 0 ? [tack, upwind] : [tack];
  const direction = contrasts("direction", sailed, picked, flags, scales);
  const speed = contrasts("logSpeed", sailed, picked, flags, scales);
  return [
    { kind: "direction between tacks", ...direction.onTack, contrasts: changes(tack, sailed) },
    { kind: "direction upwind against downwind", ...direction.onPoint, contrasts: changes(upwind, sailed) },
    { kind: "speed between tacks", ...speed.onTack, contrasts: changes(tack, sailed) },
  ];
}
