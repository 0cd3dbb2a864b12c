import { Matrix } from "ml-matrix";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import type { FitContext, RecordingChannels } from "../fit/fitContext.ts";
import { circumstancesOf, IMPLIED_PLACES, type ImpliedStates, impliedStates } from "../fit/impliedState.ts";
import { measuredValues } from "../fit/nominalState.ts";
import { type RowEvidence, usualStates } from "../fit/rowEvidence.ts";
import { SERIES_NAMES, type SeriesName, seriesSlope, WANDER_PRIORS } from "../fit/sailingSeries.ts";
import { errorOfOneDay, type ScalarEvidence, scalarEvidence } from "../fit/scalarEvidence.ts";
import { seriesNoise } from "../fit/seriesNoise.ts";
import { vectorWithExactLaws } from "../fit/settingsVector.ts";
import { type WanderModel, whiten } from "../fit/stateSpace.ts";
import { UsualTangent } from "../fit/usualTangent.ts";
import type { LegRow } from "../sailing/legRow.ts";
import type { Radians, Seconds } from "../units.ts";
import { wanderOf } from "./agreements.ts";

/** What rows tell of one wandering quantity: each row's own variance, and the slopes by the parameters in prior scales. */
export interface SeriesSlopes {
  /** Whether any row tells of it. */
  readonly tells: boolean;
  readonly variances: Float64Array;
  /** Row-major, rows × parameters. */
  readonly slopes: Float64Array;
}

/** A mean that ought to vanish (M53), of so many rows of a stretch, with its slopes in prior scales. */
interface VanishingMean {
  readonly name: ScalarEvidence["name"];
  readonly sd: Radians;
  readonly rows: number;
  readonly slopes: readonly number[];
}

/** Rows of one stretch, and how what they imply changes with the parameters. */
export interface StretchSlopes {
  readonly rows: readonly LegRow[];
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

/** What slopes are taken of: the series, and what means that ought to vanish are means of. */
const OF_MEANS = ["apparentAngle", "heel"] as const satisfies readonly ScalarEvidence["place"][];
type Sloping = SeriesName | (typeof OF_MEANS)[number];

/** The slopes of all rows in prior scales, row-major, rows × parameters; 0 for leeway where its law does not hold, which a fit does not move. */
function slopesOfRows(
  { parameters, settings }: SolvedBoatFit,
  evidence: readonly RowEvidence[],
  channels: RecordingChannels,
  { leewayLawHolds }: FitContext,
): Readonly<Record<Sloping, Float64Array>> {
  const size = parameters.length;
  const table = (): Float64Array => new Float64Array(evidence.length * size);
  const tables = {
    direction: table(),
    logSpeed: table(),
    currentEast: table(),
    currentNorth: table(),
    calmEast: table(),
    calmNorth: table(),
    apparentAngle: table(),
    heel: table(),
  };
  const free = [...parameters.keys()].filter(
    (index) => leewayLawHolds || parameters[index]!.name !== "leeway.coefficient",
  );
  const setting = { evidence, channels, heelSign: settings.heel.sign, free };
  const tangent = new UsualTangent(setting, vectorWithExactLaws(settings));
  for (let row = 0; row < evidence.length; row++) {
    tangent.goTo(row);
    free.forEach((index, column) => {
      const slopes = tangent.slopes(column);
      const [at, scale] = [row * size + index, parameters[index]!.priorSd];
      for (const name of SERIES_NAMES) tables[name][at] = scale * seriesSlope(name, slopes);
      for (const place of OF_MEANS) tables[place][at] = scale * slopes[place];
    });
  }
  return tables;
}

/** The means of a stretch; it is asked as if it were sailed twice, lest it be too short by itself. */
function meansOf(
  evidence: readonly RowEvidence[],
  at: ImpliedStates,
  tables: Readonly<Record<Sloping, Float64Array>>,
  context: FitContext,
  channels: RecordingChannels,
): readonly VanishingMean[] {
  const size = tables.heel.length / evidence.length;
  const { scalars } = scalarEvidence([...evidence, ...evidence], twice(at), context, channels);
  return scalars.map(({ name, place, groups, error }) => {
    const own = groups.map((rows) => rows.filter((row) => row < evidence.length));
    const slopes = Array.from({ length: size }, (_, index) => {
      const means = own.map(
        (rows) => rows.reduce((sum, row) => sum + tables[place][row * size + index]!, 0) / rows.length,
      );
      return means.reduce((sum, mean) => sum + mean, 0) / own.length;
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

/** How what rows imply at a fit's settings changes with these (M193). Never throws. */
export function stretchSlopes(
  fit: SolvedBoatFit,
  rows: readonly LegRow[],
  channels: RecordingChannels,
  context: FitContext,
): StretchSlopes {
  const evidence = evidenceOf(rows, channels);
  const at = usualStates(evidence, fit.settings, channels);
  const tables = slopesOfRows(fit, evidence, channels, context);
  const of = (name: SeriesName): SeriesSlopes => {
    const variances = Float64Array.from(rows, ({ kind }, index) => seriesNoise(name, kind, at, index));
    const tells = variances.some((variance) => variance < Number.POSITIVE_INFINITY);
    return { tells, variances, slopes: tables[name] };
  };
  const series = {
    direction: of("direction"),
    logSpeed: of("logSpeed"),
    currentEast: of("currentEast"),
    currentNorth: of("currentNorth"),
    calmEast: of("calmEast"),
    calmNorth: of("calmNorth"),
  };
  return { rows, series, means: meansOf(evidence, at, tables, context, channels) };
}

const wanderExpected = (name: SeriesName, { wander }: SolvedBoatFit): WanderModel => {
  if (name === "direction" || name === "logSpeed") return wanderOf(name, wander);
  const { slow, fast, fastSeconds } = WANDER_PRIORS[name];
  return { slow: slow.median, fast: fast.median, fastSeconds: fastSeconds[0]! };
};

/** Stretches one after another, each from a moment on. */
export interface PlacedRows {
  readonly stretch: StretchSlopes;
  readonly start: Seconds;
}

/** UᵀU of the whitened slopes of one series, in prior scales; added to `information`. */
function addSeries(
  name: SeriesName,
  placed: readonly PlacedRows[],
  fit: SolvedBoatFit,
  information: Float64Array,
): void {
  const size = fit.parameters.length;
  const telling = placed.filter(({ stretch }) => stretch.series[name].tells);
  const count = telling.reduce((sum, { stretch }) => sum + stretch.rows.length, 0);
  const column = (): Float64Array => new Float64Array(count);
  const [times, durations, variances] = [column(), column(), column()];
  const table = new Float64Array(count * size);
  let at = 0;
  for (const { stretch, start } of telling) {
    const { variances: own, slopes } = stretch.series[name];
    variances.set(own, at);
    table.set(slopes, at * size);
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
 * M83. What hypothetic rows would add to a fit's information, in prior scales: their slopes whitened by the wander of the wind that the fit
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
