import { ClearedColumns, dot, type ScannedSeries } from "./troubleColumns.ts";

export type { ScannedSeries };

/** What is asked of some series of the same rows. */
export interface Scan {
  readonly series: readonly ScannedSeries[];
  /** Standard deviations of the faults, as far as they are known beforehand. */
  readonly faultSds: readonly number[];
  /** Rows that a trouble, and its absence, last at least. */
  readonly leastRows: number;
  /** Sizes below are not looked at; a trouble that has but one sign. */
  readonly leastSize: number;
  readonly sign?: 1 | -1;
}

/** A trouble from row `first` up to and without row `end`. */
export interface ScannedStep {
  readonly first: number;
  readonly end: number;
  readonly size: number;
  /** By how much the sum of squared innovations falls for it, in their robust variance. */
  readonly gain: number;
}

const NORMAL_SD_IN_MAD = 1.4826;

/** Innovations further out than this many robust standard deviations count as so far: fronts, tide lines, a row gone wrong. */
const FARTHEST = 4;

/** Nothing is left of a column but rounding. */
const NOTHING = 1e-9;

const middle = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;

/** Columns "from this row on", one for each row and one for none: whitened, and cleared of the lasting faults. */
interface Onsets {
  readonly whitened: readonly Float64Array[];
  readonly cleared: readonly Float64Array[];
}

/** Products of onsets with each other, so that any stretch of rows is four of them. */
class Stretches {
  readonly #size: number;
  readonly #among: Float64Array;

  constructor(one: Onsets, other: Onsets) {
    const size = one.whitened.length;
    this.#size = size;
    this.#among = new Float64Array(size * size);
    for (let row = 0; row < size; row++)
      for (let column = 0; column < size; column++)
        this.#among[row * size + column] =
          row >= column
            ? productFrom(row, one, other.cleared[column]!)
            : one === other
              ? 0
              : productFrom(column, other, one.cleared[row]!);
    if (one === other) this.#mirror();
  }

  #mirror(): void {
    for (let row = 0; row < this.#size; row++)
      for (let column = row + 1; column < this.#size; column++)
        this.#among[row * this.#size + column] = this.#among[column * this.#size + row]!;
  }

  product(first: number, end: number): number {
    const of = (row: number, column: number): number => this.#among[row * this.#size + column]!;
    return of(first, first) - of(first, end) - of(end, first) + of(end, end);
  }
}

/**
 * The product of an onset with another that is cleared: it matters not whether both are, and one that is only whitened is nothing
 * before its row, in each series.
 */
function productFrom(row: number, { whitened }: Onsets, cleared: Float64Array): number {
  const onset = whitened[row]!;
  const rows = whitened.length - 1;
  let sum = 0;
  for (let series = 0; series < onset.length; series += rows)
    for (let place = series + row; place < series + rows; place++) sum += onset[place]! * cleared[place]!;
  return sum;
}

/** One kind of column with its products with the innovations, plain and drawn in. */
interface Seen {
  readonly stretches: Stretches;
  readonly plain: Float64Array;
  readonly drawnIn: Float64Array;
}

/** What a trouble in a stretch of rows explains. */
type Explained = (first: number, end: number) => Pick<ScannedStep, "size" | "gain">;

const NOT_EXPLAINED = { size: 0, gain: 0 } as const;

const from = (column: Float64Array, row: number): Float64Array =>
  column.map((value, place) => (place < row ? 0 : value));

/** What stretches of a scan's rows explain, over the robust variance of the innovations. */
function explainedBy({ series, faultSds }: Scan): Explained {
  const columns = new ClearedColumns(series, faultSds);
  const left = columns.cleared(columns.whitened(({ values }) => [values])[0]!);
  const sd = NORMAL_SD_IN_MAD * middle([...left].filter((value) => value !== 0).map(Math.abs));
  const drawnIn = left.map((value) => Math.max(-FARTHEST, Math.min(FARTHEST, value / sd)));
  const ends = Array.from({ length: series[0]!.times.length + 1 }, (_, row) => row);
  const onsetsOf = (of: (one: ScannedSeries) => Float64Array): Onsets => {
    const whitened = columns.whitened((one) => ends.map((row) => from(of(one), row)));
    return { whitened, cleared: whitened.map((column) => columns.cleared(column)) };
  };
  const seenOf = (onsets: Onsets): Seen => ({
    stretches: new Stretches(onsets, onsets),
    plain: Float64Array.from(onsets.cleared, (column) => dot(column, left)),
    drawnIn: Float64Array.from(onsets.cleared, (column) => dot(column, drawnIn)),
  });
  const own = onsetsOf(({ trouble }) => trouble);
  if (!series.every(({ onOtherTack }) => onOtherTack)) return byItself(seenOf(own));
  const others = onsetsOf(({ onOtherTack }) => onOtherTack!);
  return byBothTacks(seenOf(own), seenOf(others), new Stretches(own, others));
}

const byItself =
  ({ stretches, plain, drawnIn }: Seen): Explained =>
  (first, end) => {
    const square = stretches.product(first, end);
    if (!(square > NOTHING)) return NOT_EXPLAINED;
    return {
      size: (plain[first]! - plain[end]!) / square,
      gain: (drawnIn[first]! - drawnIn[end]!) ** 2 / square,
    };
  };

/** Both tacks fitted together; the gain is that of the tack which tells less, and the size the mean of the two. */
function byBothTacks(one: Seen, other: Seen, shared: Stretches): Explained {
  return (first, end) => {
    const [a, b, d] = [one.stretches, shared, other.stretches].map((all) => all.product(first, end));
    const determinant = a! * d! - b! ** 2;
    if (!(determinant > NOTHING * a! * d!)) return NOT_EXPLAINED;
    const sizes = (x: number, y: number) =>
      [(d! * x - b! * y) / determinant, (a! * y - b! * x) / determinant] as const;
    const [mine, theirs] = sizes(
      one.drawnIn[first]! - one.drawnIn[end]!,
      other.drawnIn[first]! - other.drawnIn[end]!,
    );
    if (!(mine * theirs > 0)) return NOT_EXPLAINED;
    const [onOne, onOther] = sizes(
      one.plain[first]! - one.plain[end]!,
      other.plain[first]! - other.plain[end]!,
    );
    return {
      size: (onOne + onOther) / 2,
      gain: Math.min((mine ** 2 * determinant) / d!, (theirs ** 2 * determinant) / a!),
    };
  };
}

const rowsThatTell = ({ series }: Scan): number =>
  Math.max(
    0,
    ...series.map(({ variances }) => variances.filter((one) => one < Number.POSITIVE_INFINITY).length),
  );

/**
 * M94. The stretch of rows in which a trouble explains most: of all stretches, the one whose column, beside the faults that
 * last all the time, makes the sum of squared innovations fall most; where either tack must show it, on the tack that tells less.
 *
 * @returns undefined where too few rows tell, or no stretch has a trouble of the least size. Never throws.
 */
export function strongestStep(scan: Scan): ScannedStep | undefined {
  const { faultSds, leastRows, leastSize, sign } = scan;
  if (rowsThatTell(scan) < 2 * (leastRows + faultSds.length)) return undefined;
  const explained = explainedBy(scan);
  const rows = scan.series[0]!.times.length;
  let best: ScannedStep | undefined;
  for (let first = 0; first + leastRows <= rows; first++)
    for (let end = first + leastRows; end <= rows; end++) {
      if (rows - (end - first) < leastRows) continue;
      const { size, gain } = explained(first, end);
      if (!(gain > (best?.gain ?? 0)) || Math.abs(size) < leastSize) continue;
      if (sign === undefined || Math.sign(size) === sign) best = { first, end, size, gain };
    }
  return best;
}
