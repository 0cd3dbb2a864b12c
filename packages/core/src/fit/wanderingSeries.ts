import { type Day, daysOf } from "./days.ts";
import type { ImpliedStates } from "./impliedState.ts";
import { studentWeight } from "./robustWeights.ts";
import type { RowEvidence } from "./rowEvidence.ts";
import {
  isOfMotion,
  type SeriesName,
  seriesDifference,
  seriesValue,
  unwrapDirections,
  WANDER_PRIORS,
} from "./sailingSeries.ts";
import { seriesNoise } from "./seriesNoise.ts";
import { maximumLikelihoodWander, type WanderModel, whiten } from "./stateSpace.ts";
import { windTimes } from "./windTimes.ts";

/**
 * Degrees of freedom of the innovations' law far out: tails for squalls and weed. Up to two standard deviations rows count whole: were
 * they weighed down from one on, the scales of a normal wander would come out too small, and with them what the fit says it knows.
 */
const DEGREES_OF_FREEDOM = 6;
const COUNTS_WHOLE = 2;

const weightOf = (innovation: number): number =>
  Math.min(
    1,
    studentWeight(innovation, DEGREES_OF_FREEDOM) / studentWeight(COUNTS_WHOLE, DEGREES_OF_FREEDOM),
  );

/** Passes of weighing after each search for scales: the weights are as good as at rest. */
const PASSES = 2;

/** The rows of one day: its own scales of wander, and its part of the columns. */
interface WanderingDay {
  wander: WanderModel;
  /** Other scales, a standard deviation of their doubt away (M45); none where they were never sought. */
  asLikely: readonly WanderModel[];
  readonly rows: Day;
  readonly times: Float64Array;
  readonly durations: Float64Array;
  readonly variances: Float64Array;
  readonly values: Float64Array;
  readonly column: Float64Array;
  readonly innovations: Float64Array;
}

/** Rows of a day, whitened. */
export interface WhitenedRows {
  /** Row-major, rows × columns. */
  readonly slopes: Float64Array;
  readonly values: Float64Array;
}

/** A day by the scales that were found for it, and by others that are as likely (M45). */
export interface UnderScales {
  readonly found: WhitenedRows;
  readonly others: readonly WhitenedRows[];
}

/**
 * One wandering quantity over all rows (M51): its values in the round, its rows' weights, and for each day (M56) its scales of
 * wander, of which the next day's level knows nothing.
 */
export class WanderingSeries {
  readonly name: SeriesName;
  /** Values that the settings of the round imply, directions unwrapped. */
  readonly values: Float64Array;
  /** Standardised innovations of the last whitening; 0 in rows that have none. */
  readonly innovations: Float64Array;
  /** Robust weights, 1 for a row that counts whole. */
  readonly weights: Float64Array;
  /** Σ ln S of the last whitening. */
  logDeterminant = 0;
  readonly #evidence: readonly RowEvidence[];
  readonly #days: readonly WanderingDay[];
  readonly #variances: Float64Array;
  readonly #column: Float64Array;

  constructor(name: SeriesName, evidence: readonly RowEvidence[]) {
    const column = (): Float64Array => new Float64Array(evidence.length);
    const rows = evidence.map(({ row }) => row);
    this.name = name;
    this.values = column();
    this.innovations = column();
    this.weights = column().fill(1);
    this.#evidence = evidence;
    this.#variances = column();
    this.#column = column();
    const times = isOfMotion(name) ? Float64Array.from(evidence, ({ time }) => time) : windTimes(rows);
    const durations = Float64Array.from(rows, ({ duration }) => duration);
    const { slow, fast, fastSeconds } = WANDER_PRIORS[name];
    this.#days = daysOf(rows).map((day) => {
      const { from, to } = day;
      return {
        wander: { slow: slow.median, fast: fast.median, fastSeconds: fastSeconds[0]! },
        asLikely: [],
        rows: day,
        times: times.subarray(from, to),
        durations: durations.subarray(from, to),
        variances: this.#variances.subarray(from, to),
        values: this.values.subarray(from, to),
        column: this.#column.subarray(from, to),
        innovations: this.innovations.subarray(from, to),
      };
    });
  }

  /** The scales of wander, over several days their root mean squares, a day as heavy as it has rows. */
  get wander(): WanderModel {
    const rootMeanSquare = (scale: "slow" | "fast"): number =>
      Math.sqrt(
        this.#days.reduce((sum, { wander, times }) => sum + wander[scale] ** 2 * times.length, 0) /
          this.#evidence.length,
      );
    const { fastSeconds } = this.#days[0]!.wander;
    return { slow: rootMeanSquare("slow"), fast: rootMeanSquare("fast"), fastSeconds };
  }

  /** Takes the values that states imply; on asking finds scales of wander and weights of rows anew. */
  read(states: ImpliedStates, anew: boolean): void {
    this.#evidence.forEach((_, row) => {
      this.values[row] = seriesValue(this.name, states, row);
    });
    if (this.name === "direction") unwrapDirections(this.values);
    this.#weigh(states);
    for (let pass = 0; anew && pass < PASSES; pass++) {
      this.#findScales();
      this.#whiten("values");
      this.innovations.forEach((innovation, row) => {
        const plain = innovation / Math.sqrt(this.weights[row]!);
        this.weights[row] = weightOf(plain);
      });
      this.#weigh(states);
    }
    this.#whiten("values");
  }

  /** Standardised innovations of the round's values, moved by what lies between two usual states. */
  residuals(from: ImpliedStates, to: ImpliedStates, out: Float64Array): void {
    this.values.forEach((value, row) => {
      const moved = seriesDifference(
        this.name,
        seriesValue(this.name, to, row),
        seriesValue(this.name, from, row),
      );
      this.#column[row] = value + moved;
    });
    this.#whiten("column");
    out.set(this.innovations);
  }

  /** Whitens a table of so many columns in place, day by day, as the last residuals were. */
  whitenTable(table: Float64Array, columns: number): void {
    for (const { wander, rows, times, durations, variances } of this.#days) {
      const part = table.subarray(rows.from * columns, rows.to * columns);
      whiten(wander, times, durations, variances, part, part);
    }
  }

  /**
   * M192. Slopes and values of each day that tells something, whitened by the scales that were found and by others that are as likely.
   *
   * @param slopes before whitening, row-major, rows × columns
   */
  *underOtherScales(slopes: Float64Array, columns: number): Iterable<UnderScales> {
    for (const { wander, asLikely, rows, times, durations, variances, values } of this.#days) {
      if (variances.every((variance) => variance === Number.POSITIVE_INFINITY)) continue;
      const ofDay = slopes.subarray(rows.from * columns, rows.to * columns);
      const under = (model: WanderModel): WhitenedRows => {
        const whitened = { slopes: new Float64Array(ofDay.length), values: new Float64Array(values.length) };
        whiten(model, times, durations, variances, ofDay, whitened.slopes);
        whiten(model, times, durations, variances, values, whitened.values);
        return whitened;
      };
      yield { found: under(wander), others: asLikely.map(under) };
    }
  }

  #findScales(): void {
    const prior = WANDER_PRIORS[this.name];
    for (const day of this.#days) {
      const { times, durations, values, variances } = day;
      const found = maximumLikelihoodWander(times, durations, values, variances, prior);
      day.wander = found.rootMeanSquare;
      day.asLikely = found.asLikely;
    }
  }

  /** M52: each row's own variance; a row of weight w is given what makes its innovation's variance S / w. */
  #weigh(states: ImpliedStates): void {
    for (const { wander, rows } of this.#days) {
      for (let row = rows.from; row < rows.to; row++) {
        const noise = seriesNoise(this.name, this.#evidence[row]!.row.kind, states, row);
        const doubt = wander.fast ** 2 * (1 / this.weights[row]! - 1);
        this.#variances[row] = noise + doubt;
      }
    }
  }

  #whiten(what: "values" | "column"): void {
    this.logDeterminant = 0;
    for (const day of this.#days) {
      const { wander, times, durations, variances, innovations } = day;
      const { logDeterminant } = whiten(wander, times, durations, variances, day[what], innovations);
      this.logDeterminant += logDeterminant;
    }
  }
}
