import type { CsvPlan } from "./csvColumns.ts";
import type { CsvHead } from "./csvHead.ts";
import { CsvReadings } from "./csvReadings.ts";
import { CsvRow } from "./csvRow.ts";
import { CsvRowTime } from "./csvRowTime.ts";
import { RANK } from "./logClock.ts";
import { QUANTITY_BOUNDS } from "./quantityBounds.ts";
import type { RecordLedger } from "./recordLedger.ts";
import type { SourceList } from "./sourceList.ts";

/** The times of rows have one origin. */
const ROW_TIME = 0;

/** Reads the rows of a log whose columns are known: each is used, ignored or a problem of the ledger's. Never throws. */
export class CsvRows {
  readonly #names: readonly string[];
  readonly #header: Uint8Array;
  readonly #row: CsvRow;
  readonly #readings: CsvReadings;
  readonly #time: CsvRowTime;
  readonly #timeNames: string;
  readonly #ledger: RecordLedger;

  constructor({ names, header, dialect }: CsvHead, plan: CsvPlan, sources: SourceList, ledger: RecordLedger) {
    this.#names = names;
    this.#header = new TextEncoder().encode(header);
    this.#readings = new CsvReadings(plan.columns, sources);
    this.#time = new CsvRowTime(plan.time);
    this.#timeNames = plan.time.indices.map((index) => `"${names[index]}"`).join(" and ");
    const indices = plan.columns.map(({ index }) => index);
    this.#row = new CsvRow({
      ...dialect,
      columns: names.length,
      numbers: this.#time.isNumber ? [...indices, ...plan.time.indices] : indices,
      texts: this.#time.isNumber ? [] : plan.time.indices,
    });
    this.#ledger = ledger;
  }

  /** Reads the row that begins at a place, which is not to be used if it is too long; returns the place of its end. */
  scan(bytes: Uint8Array, from: number): number {
    return this.#row.read(bytes, from);
  }

  /** Accounts for the row that was scanned last. */
  account(bytes: Uint8Array, from: number, to: number): void {
    const expected = this.#faultOf();
    if (expected === "") this.#use();
    else if (!this.#isHeader(bytes, from, to)) this.#ledger.fault("field", expected);
  }

  /** What the row should hold and does not; "" where all is well. */
  #faultOf(): string {
    const { count, faulty, numbers } = this.#row;
    if (count !== this.#names.length) return `${this.#names.length} fields`;
    if (faulty >= 0) return `a number in column "${this.#names[faulty]}"`;
    const column = this.#readings.take(numbers);
    return column
      ? `in column "${column.name}" a number of ${QUANTITY_BOUNDS[column.quantity].words}, told in ${column.unit}`
      : "";
  }

  #use(): void {
    const ledger = this.#ledger;
    const readings = this.#readings;
    const time = this.#time.of(this.#row);
    if (Number.isNaN(time)) {
      if (readings.hasAny || !this.#time.isEmpty(this.#row))
        ledger.fault("clock", `a time in column ${this.#timeNames}`);
      return;
    }
    ledger.rows.addAll(readings.values, readings.count, readings);
    ledger.stamp("utc", time, RANK.line, ROW_TIME);
    ledger.end(false);
  }

  /** Whether the line is the header once more, as in files that were joined. */
  #isHeader(bytes: Uint8Array, from: number, to: number): boolean {
    const header = this.#header;
    return to - from === header.length && header.every((byte, index) => byte === bytes[from + index]);
  }
}
