import { Matrix } from "ml-matrix";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import type { FitContext, RecordingChannels } from "../fit/fitContext.ts";
import { circumstancesOf, IMPLIED_PLACES, type ImpliedStates, impliedStates } from "../fit/impliedState.ts";
import { measuredValues } from "../fit/nominalState.ts";
import { type RowEvidence, usualStates } from "../fit/rowEvidence.ts";
import {
  SERIES_NAMES,
  type SeriesName,
  seriesDifference,
  seriesValue,
  WANDER_PRIORS,
} from "../fit/sailingSeries.ts";
import { errorOfOneDay, meanOver, type ScalarEvidence, scalarEvidence } from "../fit/scalarEvidence.ts";
import { seriesNoise } from "../fit/seriesNoise.ts";
import { settingsOf, vectorOf } from "../fit/settingsVector.ts";
import { type WanderModel, whiten } from "../fit/stateSpace.ts";
import type { LegRow } from "../sailing/legRow.ts";
import type { Radians, Seconds } from "../units.ts";
import { wanderOf } from "./agreements.ts";

/** Steps of the derivatives, as shares of the prior standard deviation. */
const STEP = 0.01;

/** What rows tell of one wandering quantity: each row's own variance, and the derivatives by the parameters in prior scales. */
export interface SeriesSlopes {
  readonly variances: Float64Array;
  /** Row-major, rows × parameters; undefined where no row tells of the quantity. */
  readonly slopes: Float64Array | undefined;
}

/** A mean that ought to vanish (M53), of so many rows of a stretch, with its derivatives in prior scales. */
interface VanishingMean {
  readonly name: ScalarEvidence["name"];
  readonly sd: Radians;
  readonly rows: number;
  readonly slopes: readonly number[];
}

/** Rows of one stretch with what they imply, as each parameter is moved up and down. */
export interface MovedRows {
  readonly rows: readonly LegRow[];
  readonly at: ImpliedStates;
  /** A pair a parameter; undefined for leeway where its law does not hold, which a fit does not move. */
  readonly moved: readonly ({ readonly up: ImpliedStates; readonly down: ImpliedStates } | undefined)[];
  readonly series: Readonly<Record<SeriesName, SeriesSlopes>>;
  readonly means: readonly VanishingMean[];
}

/** M83. Rows free of noise are what is usual for them (M48). */
const evidenceOf = (rows: readonly LegRow[], channels: RecordingChannels): readonly RowEvidence[] =>
  rows.map((row) => ({
    row,
    time: row.start + row.duration / 2,
    circumstances: circumstancesOf(row, channels),
    points: [],
    nominal: measuredValues(row),
    ofLeg: measuredValues(row),
  }));

/** M83. The slope of one row's value of a series by a parameter, in prior scales. Never throws. */
export function slopeOf(name: SeriesName, pair: MovedRows["moved"][number], row: number): number {
  if (pair === undefined) return 0;
  const [up, down] = [seriesValue(name, pair.up, row), seriesValue(name, pair.down, row)];
  return seriesDifference(name, up, down) / (2 * STEP);
}

function seriesSlopes(
  name: SeriesName,
  rows: readonly LegRow[],
  at: ImpliedStates,
  moved: MovedRows["moved"],
): SeriesSlopes {
  const variances = Float64Array.from(rows, ({ kind }, index) => seriesNoise(name, kind, at, index));
  const tells = (row: number): boolean => variances[row]! < Number.POSITIVE_INFINITY;
  if (!rows.some((_, row) => tells(row))) return { variances, slopes: undefined };
  const slopes = Float64Array.from({ length: rows.length * moved.length }, (_, place) => {
    const row = Math.floor(place / moved.length);
    return tells(row) ? slopeOf(name, moved[place % moved.length], row) : 0;
  });
  return { variances, slopes };
}

/** The means of a stretch; it is asked as if it were sailed twice, lest it be too short by itself. */
function meansOf(
  evidence: readonly RowEvidence[],
  at: ImpliedStates,
  moved: MovedRows["moved"],
  context: FitContext,
  channels: RecordingChannels,
): readonly VanishingMean[] {
  const { scalars } = scalarEvidence([...evidence, ...evidence], twice(at), context, channels);
  return scalars.map(({ name, place, groups, error }) => {
    const own = groups.map((rows) => rows.filter((row) => row < evidence.length));
    const slopes = moved.map((pair) => {
      if (pair === undefined) return 0;
      const sum = own.reduce(
        (total, rows) => total + meanOver(rows, pair.up, place) - meanOver(rows, pair.down, place),
        0,
      );
      return sum / own.length / (2 * STEP);
    });
    return { name, sd: errorOfOneDay(error), rows: own.flat().length, slopes };
  });
}

function twice(states: ImpliedStates): ImpliedStates {
  const doubled = impliedStates(2 * states.heel.length);
  for (const place of IMPLIED_PLACES) {
    doubled[place].set(states[place]);
    doubled[place].set(states[place], states[place].length);
  }
  return doubled;
}

/** What rows imply at a fit's settings and about them, each parameter moved by a hundredth of its prior's width. Never throws. */
export function movedRows(
  fit: SolvedBoatFit,
  rows: readonly LegRow[],
  channels: RecordingChannels,
  context: FitContext,
): MovedRows {
  const evidence = evidenceOf(rows, channels);
  const { parameters, settings } = fit;
  const vector = vectorOf(settings);
  const states = (index: number, step: number): ImpliedStates =>
    usualStates(
      evidence,
      settingsOf(vector.with(index, vector[index]! + step), settings.heel.sign),
      channels,
    );
  const at = usualStates(evidence, settings, channels);
  const moved = parameters.map(({ name, priorSd }, index) =>
    name === "leeway.coefficient" && !context.leewayLawHolds
      ? undefined
      : { up: states(index, STEP * priorSd), down: states(index, -STEP * priorSd) },
  );
  const of = (name: SeriesName): SeriesSlopes => seriesSlopes(name, rows, at, moved);
  const series = {
    direction: of("direction"),
    logSpeed: of("logSpeed"),
    currentEast: of("currentEast"),
    currentNorth: of("currentNorth"),
    calmEast: of("calmEast"),
    calmNorth: of("calmNorth"),
  };
  return { rows, at, moved, series, means: meansOf(evidence, at, moved, context, channels) };
}

const wanderExpected = (name: SeriesName, { wander }: SolvedBoatFit): WanderModel => {
  if (name === "direction" || name === "logSpeed") return wanderOf(name, wander);
  const { slow, fast, fastSeconds } = WANDER_PRIORS[name];
  return { slow: slow.median, fast: fast.median, fastSeconds: fastSeconds[0]! };
};

/** Stretches one after another, each from a moment on. */
export interface PlacedRows {
  readonly stretch: MovedRows;
  readonly start: Seconds;
}

/** UᵀU of the whitened derivatives of one series, in prior scales; added to `information`. */
function addSeries(
  name: SeriesName,
  placed: readonly PlacedRows[],
  fit: SolvedBoatFit,
  information: Float64Array,
): void {
  const size = fit.parameters.length;
  const telling = placed.filter(({ stretch }) => stretch.series[name].slopes !== undefined);
  const count = telling.reduce((sum, { stretch }) => sum + stretch.rows.length, 0);
  const column = (): Float64Array => new Float64Array(count);
  const [times, durations, variances] = [column(), column(), column()];
  const table = new Float64Array(count * size);
  let at = 0;
  for (const { stretch, start } of telling) {
    const { variances: own, slopes } = stretch.series[name];
    variances.set(own, at);
    table.set(slopes!, at * size);
    for (const row of stretch.rows) {
      times[at] = start + row.start + row.duration / 2;
      durations[at++] = row.duration;
    }
  }
  whiten(wanderExpected(name, fit), times, durations, variances, table, table);
  addProducts(table, size, information);
}

/** Adds UᵀU of a row-major table. */
function addProducts(table: Float64Array, size: number, sum: Float64Array): void {
  for (let row = 0; row < table.length; row += size)
    for (let i = 0; i < size; i++) {
      const one = table[row + i]!;
      if (one === 0) continue;
      for (let j = 0; j <= i; j++) sum[i * size + j] = sum[i * size + j]! + one * table[row + j]!;
    }
}

/**
 * What means that ought to vanish (M53) would add: one number for a whole recording, so that it is counted only where the fit had
 * none of its kind.
 */
function addMeans(placed: readonly PlacedRows[], fit: SolvedBoatFit, information: Float64Array): void {
  const size = fit.parameters.length;
  const all = placed.flatMap(({ stretch }) => stretch.means);
  for (const name of new Set(all.map((mean) => mean.name))) {
    const means = all.filter((mean) => mean.name === name);
    if (!isNewTo(fit, means[0]!)) continue;
    const rows = means.reduce((sum, mean) => sum + mean.rows, 0);
    const slopes = fit.parameters.map(
      (_, index) =>
        means.reduce((sum, mean) => sum + mean.rows * mean.slopes[index]!, 0) / rows / means[0]!.sd,
    );
    addProducts(Float64Array.from(slopes), size, information);
  }
}

/** Whether the fit had no mean of this kind, as far as it shows. */
function isNewTo({ notes, parameters }: SolvedBoatFit, { name, sd }: VanishingMean): boolean {
  if (name !== "upright under power")
    return notes.some((note) => note.startsWith("Symmetry of sailing was left out"));
  const heel = parameters.find((parameter) => parameter.name === "heel.zero");
  return heel !== undefined && heel.sd > sd;
}

/**
 * M83. What hypothetic rows would add to a fit's information, in prior scales: their derivatives whitened by the wander of the wind that the fit
 * found (M44, M52), that of the current as expected beforehand, with what symmetry would tell anew (M53).
 *
 * @param placed stretches in time order
 * Never throws.
 */
export function expectedInformation(placed: readonly PlacedRows[], fit: SolvedBoatFit): Matrix {
  const size = fit.parameters.length;
  const information = new Float64Array(size * size);
  if (placed.some(({ stretch }) => stretch.rows.length > 0)) {
    for (const name of SERIES_NAMES) addSeries(name, placed, fit, information);
    addMeans(placed, fit, information);
  }
  const lower = Matrix.from1DArray(size, size, information);
  return Matrix.sub(Matrix.add(lower, lower.transpose()), Matrix.diag(lower.diagonal()));
}
