import { type WanderModel, whiten } from "./stateSpace.ts";

/** One wandering series in which a trouble may show, a value a row. */
export interface ScannedSeries {
  readonly times: Float64Array;
  readonly durations: Float64Array;
  /** Of each row's own error; Infinity where the row says nothing. */
  readonly variances: Float64Array;
  readonly model: WanderModel;
  readonly values: Float64Array;
  /** What faults that last all the time do to it, for each unit of the fault; the same faults in every series. */
  readonly faults: readonly Float64Array[];
  /** What a trouble of size 1 adds in a row while it lasts. */
  readonly trouble: Float64Array;
  /** Likewise in rows on the other tack, where either tack must show the trouble by itself. */
  readonly onOtherTack?: Float64Array;
}

/** Columns shorter than this share of what they were are a sum of those before. */
const DEPENDENT = 1e-6;

/** Σ x y. Never throws. */
export function dot(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let place = 0; place < one.length; place++) sum += one[place]! * other[place]!;
  return sum;
}

function takeOut(column: Float64Array, direction: Float64Array): void {
  const share = dot(column, direction);
  for (let place = 0; place < column.length; place++)
    column[place] = column[place]! - share * direction[place]!;
}

/** Columns of length 1 at right angles to each other, that span what some columns span (Gram and Schmidt). */
function basisOf(columns: readonly Float64Array[]): readonly Float64Array[] {
  const basis: Float64Array[] = [];
  for (const column of columns) {
    const left = column.slice();
    for (const direction of basis) takeOut(left, direction);
    const length = Math.sqrt(dot(left, left));
    if (length > DEPENDENT * Math.sqrt(dot(column, column))) basis.push(left.map((value) => value / length));
  }
  return basis;
}

function joined(parts: readonly Float64Array[]): Float64Array {
  const whole = new Float64Array(parts.reduce((sum, { length }) => sum + length, 0));
  let place = 0;
  for (const part of parts) {
    whole.set(part, place);
    place += part.length;
  }
  return whole;
}

/** Innovations (M44) of columns of a series, column by column. */
function innovationsOf(series: ScannedSeries, columns: readonly Float64Array[]): readonly Float64Array[] {
  const { times, durations, variances, model } = series;
  const width = columns.length;
  const table = new Float64Array(times.length * width);
  columns.forEach((column, place) => {
    column.forEach((value, row) => {
      table[row * width + place] = variances[row] === Number.POSITIVE_INFINITY ? 0 : value;
    });
  });
  whiten(model, times, durations, variances, table, table);
  return columns.map((_, place) => times.map((__, row) => table[row * width + place]!));
}

/** Makes columns of some series into what a scan compares: whitened, one series below the other, cleared of lasting faults. */
export class ClearedColumns {
  readonly #series: readonly ScannedSeries[];
  readonly #basis: readonly Float64Array[];
  readonly #priorRows: Float64Array;

  /** @param faultSds standard deviations of the lasting faults, a row each below the innovations */
  constructor(series: readonly ScannedSeries[], faultSds: readonly number[]) {
    this.#series = series;
    this.#priorRows = new Float64Array(faultSds.length);
    const faults = this.whitened(({ faults: columns }) => columns);
    const withPrior = (column: Float64Array, place: number): Float64Array =>
      joined([column, this.#priorRows.map((_, row) => (row === place ? 1 / faultSds[place]! : 0))]);
    this.#basis = basisOf(faults.map(withPrior));
  }

  /** The same columns of every series, whitened, one series below the other. Never throws. */
  whitened(columns: (series: ScannedSeries) => readonly Float64Array[]): readonly Float64Array[] {
    const ofSeries = this.#series.map((series) => innovationsOf(series, columns(series)));
    return (ofSeries[0] ?? []).map((_, place) => joined(ofSeries.map((one) => one[place]!)));
  }

  /** What is left of a whitened column without the lasting faults; rows of their priors stand below. Never throws. */
  cleared(column: Float64Array): Float64Array {
    const left = joined([column, this.#priorRows]);
    for (const direction of this.#basis) takeOut(left, direction);
    return left;
  }
}
