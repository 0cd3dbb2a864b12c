import type { Seconds } from "../units.ts";
import type { PacedRows } from "./pacedRows.ts";
import type { SentenceValues } from "./sentenceDecoder.ts";
import type { SentenceFields } from "./sentenceFields.ts";
import type { SentenceOrigin } from "./sentenceOrigin.ts";

/** Reads what sentences tell: readings go to the rows, the last sentence's time is kept. Never throws. */
export class SentenceReader implements SentenceValues {
  /** UTC time of day; NaN where the last sentence did not tell it. */
  timeOfDay: Seconds = Number.NaN;
  /** Days since 1970-01-01; NaN where the last sentence did not tell the date. */
  day = Number.NaN;
  readonly #rows: PacedRows;
  readonly #fields: SentenceFields;
  #origin: SentenceOrigin | undefined;

  constructor(rows: PacedRows, fields: SentenceFields) {
    this.#rows = rows;
    this.#fields = fields;
  }

  /** Reads the sentence that the fields hold, by its origin. */
  read(origin: SentenceOrigin): void {
    const { decoder } = origin;
    if (this.#origin !== origin) this.#origin = origin;
    this.timeOfDay = Number.NaN;
    this.day = Number.NaN;
    decoder.decode(this.#fields, this);
    if (decoder.hasTransducers) origin.transducers.read(this.#fields, this.#rows);
  }

  put(place: number, reading: number): void {
    const { sources, bounds } = this.#origin!;
    const source = sources[place]!;
    if (source >= 0 && reading >= bounds.least[place]! && reading <= bounds.greatest[place]!)
      this.#rows.add(source, reading);
    else if (!Number.isNaN(reading)) this.#putFirst(this.#origin!, place, reading);
  }

  /** Takes the first reading of its source, or refuses one that its quantity cannot have: the sentence is faulty then. */
  #putFirst(origin: SentenceOrigin, place: number, reading: number): void {
    this.#rows.add(origin.sourceOf(place), reading);
    if (!origin.bounds.hold(place, reading)) this.#fields.expected ||= origin.bounds.expected(place);
  }
}
