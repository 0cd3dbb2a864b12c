import { inverse, Matrix } from "ml-matrix";
import type { FitContext, RecordingChannels } from "../../packages/core/src/fit/fitContext.ts";
import { type ImpliedStates, impliedStates } from "../../packages/core/src/fit/impliedState.ts";
import { priorCovariance, priorSpread } from "../../packages/core/src/fit/priorCovariance.ts";
import { priorMeans, priorSds } from "../../packages/core/src/fit/priors.ts";
import {
  circumstancesOfRows,
  type RowEvidence,
  rowEvidence,
  statesOfLegs,
  usualStates,
} from "../../packages/core/src/fit/rowEvidence.ts";
import {
  isOfMotion,
  SERIES_NAMES,
  type SeriesName,
  seriesDifference,
  seriesValue,
} from "../../packages/core/src/fit/sailingSeries.ts";
import { errorOfOneDay, meanOver, scalarEvidence } from "../../packages/core/src/fit/scalarEvidence.ts";
import { seriesNoise } from "../../packages/core/src/fit/seriesNoise.ts";
import { lawErrorsOf, settingsOf } from "../../packages/core/src/fit/settingsVector.ts";
import { type WanderModel, whiten } from "../../packages/core/src/fit/stateSpace.ts";
import { windTimes } from "../../packages/core/src/fit/windTimes.ts";
import { MOMENT_CHANNELS } from "../../packages/core/src/sailing/legRow.ts";
import type { LegSail } from "../../packages/core/src/simulate/legSail.ts";
import type { LegScenario, ReadingNoise } from "../../packages/core/src/simulate/legScenario.ts";

/** Steps of the derivatives, as shares of what a parameter or a reading varies by. */
const STEP = 1e-3;
/** A row holds so many moments with noise of their own. */
const MOMENTS = 10;

/** What a simulated sail was: its rows free of noise, and the vector (M47, with M29) that undoes its faults. */
export interface KnownSail {
  readonly scenario: LegScenario;
  readonly sail: LegSail;
  readonly channels: RecordingChannels;
  readonly truth: Float64Array;
}

/**
 * What the derivatives are taken at: `"row by row"` each row's own readings free of noise; `"usual"` what is usual for it, as the fit does (M48).
 */
export type TakenAt = "row by row" | "usual";

/** The rows as they would be without noise, ready for the fit's own laws. */
export function quietEvidence({ sail, channels }: KnownSail): readonly RowEvidence[] {
  const circumstances = circumstancesOfRows(sail.rows, channels);
  return sail.rows.map((row, index) => ({
    row,
    time: row.start + row.duration / 2,
    circumstances: circumstances[index]!,
    points: [],
    nominal: sail.quiet[index]!,
    ofLeg: sail.quiet[index]!,
  }));
}

type StatesOf = typeof statesOfLegs;

const statesAt = (
  evidence: readonly RowEvidence[],
  { channels }: KnownSail,
  vector: Float64Array,
  statesOf: StatesOf = usualStates,
): ImpliedStates =>
  statesOf(evidence, settingsOf(vector, 1), channels, lawErrorsOf(vector), impliedStates(evidence.length));

function noiseOf(channel: (typeof MOMENT_CHANNELS)[number], noise: ReadingNoise): number {
  return (channel === "east" || channel === "north" ? noise.ground : noise[channel]) / Math.sqrt(MOMENTS);
}

/** How the simulator's own quantity of a series wanders. */
function trueWander(name: SeriesName, { wind, current }: LegScenario): WanderModel | undefined {
  const fastSeconds = wind.turbulenceSeconds;
  if (name === "direction") return { ...wind.directionWander, fastSeconds };
  if (name === "logSpeed") return { ...wind.logSpeedWander, fastSeconds };
  return name === "currentEast" || name === "currentNorth" ? { ...current.wander, fastSeconds } : undefined;
}

/** The slope of each row's value of a series between two states. */
const slopes = (name: SeriesName, up: ImpliedStates, down: ImpliedStates, width: number): Float64Array =>
  up.heel.map(
    (_, row) => seriesDifference(name, seriesValue(name, up, row), seriesValue(name, down, row)) / width,
  );

/** Variance of each row's value that the noise of the readings makes, every reading by itself. */
function noiseVariances(known: KnownSail, evidence: readonly RowEvidence[], name: SeriesName): Float64Array {
  const variances = new Float64Array(evidence.length);
  MOMENT_CHANNELS.forEach((channel, place) => {
    const sd = noiseOf(channel, known.scenario.noise);
    const moved = (by: number): ImpliedStates =>
      statesAt(
        evidence.map((one) => ({ ...one, nominal: one.nominal.with(place, one.nominal[place]! + by) })),
        known,
        known.truth,
      );
    if (evidence.every(({ nominal }) => Number.isNaN(nominal[place]!))) return;
    slopes(name, moved(STEP * sd), moved(-STEP * sd), 2 * STEP).forEach((slope, row) => {
      variances[row]! += slope ** 2;
    });
  });
  return variances;
}

/** Adds UᵀU of a row-major table. */
function addProducts(table: Float64Array, size: number, sum: Float64Array): void {
  for (let row = 0; row < table.length; row += size)
    for (let i = 0; i < size; i++)
      for (let j = 0; j < size; j++) sum[i * size + j]! += table[row + i]! * table[row + j]!;
}

interface Moved {
  readonly up: ImpliedStates;
  readonly down: ImpliedStates;
  readonly width: number;
}

function addSeries(
  name: SeriesName,
  known: KnownSail,
  evidence: readonly RowEvidence[],
  at: ImpliedStates,
  moved: readonly Moved[],
  information: Float64Array,
): void {
  const wander = trueWander(name, known.scenario);
  const { paddle, gps } = known.channels;
  if (wander === undefined || (name.startsWith("current") && !(paddle && gps))) return;
  const rows = evidence.map(({ row }) => row);
  const size = moved.length;
  const table = new Float64Array(rows.length * size);
  moved.forEach(({ up, down, width }, column) => {
    slopes(name, up, down, width).forEach((slope, row) => {
      table[row * size + column] = slope;
    });
  });
  const noise = noiseVariances(known, evidence, name);
  const variances = noise.map((variance, row) =>
    Number.isFinite(seriesNoise(name, rows[row]!.kind, at, row)) ? variance : Number.POSITIVE_INFINITY,
  );
  const durations = Float64Array.from(rows, ({ duration }) => duration);
  whiten(wander, windTimes(rows), durations, variances, table, table);
  addProducts(table, size, information);
}

/** M53: of the means that ought to vanish the simulator knows how far they may be off; each is one number more. */
function addMeans(
  known: KnownSail,
  evidence: readonly RowEvidence[],
  at: ImpliedStates,
  moved: readonly Moved[],
  context: FitContext,
  information: Float64Array,
): void {
  for (const { place, groups, error } of scalarEvidence(evidence, at, context, known.channels).scalars) {
    const row = moved.map(
      ({ up, down, width }) =>
        groups.reduce((sum, rows) => sum + meanOver(rows, up, place) - meanOver(rows, down, place), 0) /
        groups.length /
        width /
        errorOfOneDay(error),
    );
    addProducts(Float64Array.from(row), moved.length, information);
  }
}

/**
 * M174. The Bayesian Cramér-Rao bound of one sail: inverse of the rows' information at what is true (settings, laws, scales of wander,
 * noise) plus the precision with which the faults were drawn.
 *
 * @param free places of the vector that the fit may move, laws included
 * @param width of the drawing, in standard deviations of the fit's priors
 * @param takenAt of the usual ones what follows the gusts within a leg tells nothing
 * @returns standard deviations in the order of `free`
 */
export function boundOf(
  known: KnownSail,
  free: readonly number[],
  width: number,
  context: FitContext,
  takenAt: TakenAt,
): Float64Array {
  const evidence = takenAt === "usual" ? rowEvidence(known.sail.rows, known.channels) : quietEvidence(known);
  const { truth } = known;
  const sds = priorSds();
  const movedBy = (statesOf: StatesOf): readonly Moved[] =>
    free.map((index) => {
      const step = STEP * sds[index]!;
      const to = (by: number): ImpliedStates =>
        statesAt(evidence, known, truth.with(index, truth[index]! + by), statesOf);
      return { up: to(step), down: to(-step), width: 2 * step };
    });
  const [moved, movedOnLegs] = [movedBy(usualStates), movedBy(statesOfLegs)];
  const at = statesAt(evidence, known, truth);
  const information = new Float64Array(free.length ** 2);
  for (const name of SERIES_NAMES) {
    const slopesBy = isOfMotion(name) ? movedOnLegs : moved;
    addSeries(name, known, evidence, at, slopesBy, information);
  }
  addMeans(known, evidence, at, moved, context, information);
  const drawn = inverse(priorCovariance(free));
  for (let row = 0; row < free.length; row++)
    for (let column = 0; column < free.length; column++)
      information[row * free.length + column]! += drawn.get(row, column) / width ** 2;
  // in prior scales, so that the inverse is of numbers of one size
  const scaled = Matrix.from1DArray(free.length, free.length, information);
  scaled.apply((row, column) => {
    scaled.set(row, column, scaled.get(row, column) * sds[free[row]!]! * sds[free[column]!]!);
  });
  const bound = inverse(scaled);
  return Float64Array.from(free, (index, place) => Math.sqrt(bound.get(place, place)) * sds[index]!);
}

/** A vector of parameters and law errors drawn about the fit's priors, as tied as they are (M190), so many times as wide. */
export const drawnTruth = (width: number, normal: () => number): Float64Array => {
  const means = priorMeans();
  const numbers = Array.from(means, normal);
  const moves = priorSpread([...means.keys()])
    .mmul(Matrix.columnVector(numbers))
    .to1DArray();
  return means.map((mean, index) => mean + width * moves[index]!);
};
