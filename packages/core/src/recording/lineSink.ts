import type { Seconds } from "../units.ts";
import type { PacedRows } from "./pacedRows.ts";
import type { SentenceSink } from "./sentenceDecoder.ts";
import type { SentenceFields } from "./sentenceFields.ts";
import type { SentenceOrigin } from "./sentenceOrigin.ts";

/** Takes what one sentence tells: its readings go to the rows, its time is kept. Never throws. */
export class LineSink implements SentenceSink {
  /** UTC time of day and days since 1970-01-01; NaN where the sentence did not tell them. */
  timeOfDay: Seconds = Number.NaN;
  day = Number.NaN;
  readonly #rows: PacedRows;
  readonly #fields: SentenceFields;
  #origin: SentenceOrigin | undefined;

  constructor(rows: PacedRows, fields: SentenceFields) {
    this.#rows = rows;
    this.#fields = fields;
  }

  /** Lets the decoder of an origin read the line's fields. */
  read(origin: SentenceOrigin): void {
    this.#origin = origin;
    this.timeOfDay = Number.NaN;
    this.day = Number.NaN;
    origin.decoder.decode(this.#fields, this);
  }

  add(place: number, value: number): void {
    if (Number.isNaN(value)) return;
    const source = this.#origin!.sourceOf(place);
    if (source >= 0) this.#rows.add(source, value);
  }

  addAttitude(nameField: number, valueField: number): void {
    const origin = this.#origin!;
    const { name, quantity } = origin.transducerOf(this.#fields, nameField);
    if (quantity === undefined) return;
    const angle = this.#fields.angle(valueField);
    if (Number.isNaN(angle)) return;
    const source = origin.sourceOfTransducer(quantity, name);
    if (source >= 0) this.#rows.add(source, angle);
  }

  tell(timeOfDay: Seconds, day: number): void {
    this.timeOfDay = timeOfDay;
    this.day = day;
  }
}
