import type { Seconds } from "../units.ts";
import type { CsvPlan } from "./csvColumns.ts";
import type { CsvRow } from "./csvRow.ts";
import { numericTime, RowTimes } from "./csvTime.ts";
import { TimeText } from "./timeText.ts";

/** The time of a row, from the fields that tell it. */
export class CsvRowTime {
  readonly #indices: readonly number[];
  readonly #ofNumber: ((value: number) => Seconds) | undefined;
  readonly #ofText: RowTimes;
  readonly #texts = [0, 1].map(() => new TimeText(new Uint8Array(0), 0, 0));

  constructor({ indices, as }: CsvPlan["time"]) {
    this.#indices = indices;
    this.#ofNumber = numericTime(as);
    this.#ofText = new RowTimes(as);
  }

  /** Whether the time is a number in one column. */
  get isNumber(): boolean {
    return this.#ofNumber !== undefined;
  }

  /** s since 1970 UTC; NaN where the row tells none. Never throws. */
  of(row: CsvRow): Seconds {
    const [first = 0, second] = this.#indices;
    if (this.#ofNumber) return this.#ofNumber(row.numbers[first]!);
    const date = this.#text(0, first, row);
    return second === undefined
      ? this.#ofText.of(date)
      : this.#ofText.ofTwo(date, this.#text(1, second, row));
  }

  /** Whether nothing stands in the fields. */
  isEmpty(row: CsvRow): boolean {
    return this.#indices.every((index) =>
      this.#ofNumber ? Number.isNaN(row.numbers[index]!) : row.textFrom[index]! >= row.textTo[index]!,
    );
  }

  #text(place: number, index: number, row: CsvRow): TimeText {
    const text = this.#texts[place]!;
    text.bytes = row.bytes;
    text.at = row.textFrom[index]!;
    text.to = row.textTo[index]!;
    return text;
  }
}
