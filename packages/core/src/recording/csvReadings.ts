import { type PlannedColumn, ruleOf } from "./csvColumns.ts";
import type { SourceList } from "./sourceList.ts";

/** The numbers of a row as they become readings, in SI units, by their places among the columns that are read. */
export class CsvReadings {
  /** NaN where there is no reading. */
  readonly values: Float64Array;
  readonly count: number;
  readonly #columns: readonly PlannedColumn[];
  readonly #indices: Int32Array;
  readonly #rules: readonly ReturnType<typeof ruleOf>[];
  readonly #sources: Int32Array;

  constructor(columns: readonly PlannedColumn[], sources: SourceList) {
    this.count = columns.length;
    this.values = new Float64Array(columns.length);
    this.#columns = columns;
    this.#indices = Int32Array.from(columns, ({ index }) => index);
    this.#rules = columns.map(ruleOf);
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
      const { least, most, wrap, factor, zero } = this.#rules[place]!;
      const value = (numbers[this.#indices[place]!]! - zero) * factor;
      if (value < least || value > most) return this.#columns[place];
      values[place] = wrap === undefined ? value : wrap(value);
    }
    return undefined;
  }

  get hasAny(): boolean {
    for (let place = 0; place < this.count; place++) if (!Number.isNaN(this.values[place]!)) return true;
    return false;
  }
}
