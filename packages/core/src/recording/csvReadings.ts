import { wrapAngle, wrapDirection } from "../angles.ts";
import { siOf } from "./columnUnits.ts";
import type { PlannedColumn } from "./csvColumns.ts";
import { QUANTITY_BOUNDS } from "./quantityBounds.ts";
import type { QuantityName } from "./readings.ts";
import type { SourceList } from "./sourceList.ts";

/** Courses come first, so that a heading of the same row that only repeats the course is seen to do so (M34). */
const FIRST: ReadonlySet<QuantityName> = new Set<QuantityName>([
  "courseOverGround",
  "courseOverGroundMagnetic",
  "variation",
]);

const inOrder = (columns: readonly PlannedColumn[]): readonly PlannedColumn[] => [
  ...columns.filter(({ quantity }) => FIRST.has(quantity)),
  ...columns.filter(({ quantity }) => !FIRST.has(quantity)),
];

/** The numbers of a row as they become readings, in SI units, by their places among the columns that are read. */
export class CsvReadings {
  /** NaN where there is no reading. */
  readonly values: Float64Array;
  readonly count: number;
  readonly #columns: readonly PlannedColumn[];
  readonly #indices: Int32Array;
  /** What the columns can hold (M100) and their units, each number in an array of its own: that is where the time of reading goes. */
  readonly #least: Float64Array;
  readonly #most: Float64Array;
  readonly #factor: Float64Array;
  readonly #zero: Float64Array;
  readonly #isAngle: Uint8Array;
  readonly #isDirection: Uint8Array;
  readonly #sources: Int32Array;

  constructor(planned: readonly PlannedColumn[], sources: SourceList) {
    const columns = inOrder(planned);
    this.count = columns.length;
    this.values = new Float64Array(columns.length);
    this.#columns = columns;
    this.#indices = Int32Array.from(columns, ({ index }) => index);
    const bounds = columns.map(({ quantity }) => QUANTITY_BOUNDS[quantity]);
    this.#least = Float64Array.from(bounds, ({ least }) => least);
    this.#most = Float64Array.from(bounds, ({ greatest }) => greatest);
    this.#factor = Float64Array.from(
      columns,
      ({ unit, isTurned }) => siOf(unit).factor * (isTurned ? -1 : 1),
    );
    this.#zero = Float64Array.from(columns, ({ unit }) => siOf(unit).zero);
    this.#isAngle = Uint8Array.from(bounds, ({ wrap }) => Number(wrap === wrapAngle));
    this.#isDirection = Uint8Array.from(bounds, ({ wrap }) => Number(wrap === wrapDirection));
    this.#sources = Int32Array.from(columns, ({ quantity, name }) => sources.indexOf(quantity, name));
  }

  /** The index of the source of one of the columns. */
  sourceOf(place: number): number {
    return this.#sources[place]!;
  }

  /** Takes a row's numbers; returns the column whose number can be none of its quantity, undefined where all can. */
  take(numbers: Float64Array): PlannedColumn | undefined {
    const { values, count } = this;
    for (let place = 0; place < count; place++) {
      const value = (numbers[this.#indices[place]!]! - this.#zero[place]!) * this.#factor[place]!;
      if (value < this.#least[place]! || value > this.#most[place]!) return this.#columns[place];
      if (this.#isAngle[place] === 1) values[place] = wrapAngle(value);
      else values[place] = this.#isDirection[place] === 1 ? wrapDirection(value) : value;
    }
    return undefined;
  }

  get hasAny(): boolean {
    for (let place = 0; place < this.count; place++) if (!Number.isNaN(this.values[place]!)) return true;
    return false;
  }
}
