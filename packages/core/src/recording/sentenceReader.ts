import type { Seconds } from "../units.ts";
import type { PacedRows } from "./pacedRows.ts";
import { MOST_QUANTITIES, type SentenceValues } from "./sentenceDecoder.ts";
import type { SentenceFields } from "./sentenceFields.ts";
import type { SentenceOrigin } from "./sentenceOrigin.ts";

/** Reads what sentences tell: readings go to the rows, the last sentence's time is kept. Never throws. */
export class SentenceReader {
  readonly #rows: PacedRows;
  readonly #fields: SentenceFields;
  readonly #values: SentenceValues = {
    readings: new Float64Array(MOST_QUANTITIES).fill(Number.NaN),
    timeOfDay: Number.NaN,
    day: Number.NaN,
  };

  constructor(rows: PacedRows, fields: SentenceFields) {
    this.#rows = rows;
    this.#fields = fields;
  }

  /** UTC time of day; NaN where the last sentence did not tell it. */
  get timeOfDay(): Seconds {
    return this.#values.timeOfDay;
  }

  /** Days since 1970-01-01; NaN where the last sentence did not tell the date. */
  get day(): number {
    return this.#values.day;
  }

  /** Reads the sentence that the fields hold, by its origin. */
  read(origin: SentenceOrigin): void {
    const { decoder } = origin;
    const values = this.#values;
    values.timeOfDay = Number.NaN;
    values.day = Number.NaN;
    this.#fields.readNumbers(decoder.numbers);
    decoder.decode(this.#fields, values);
    this.#add(origin);
    if (decoder.hasTransducers) origin.transducers.read(this.#fields, this.#rows);
  }

  /** Adds the readings that the sentence told, and forgets them. */
  #add(origin: SentenceOrigin): void {
    const { readings } = this.#values;
    const count = origin.decoder.quantities.length;
    this.#fields.expected ||= origin.bounds.fault(readings);
    this.#rows.addAll(readings, count, origin);
    for (let place = 0; place < count; place++) readings[place] = Number.NaN;
  }
}
