import type { QuantityName, Source } from "./readings.ts";

/** More sources than any boat has: what lies beyond is noise that passed for names. */
const MOST_SOURCES = 4096;

/**
 * The sources of a recording in the order in which they turned up; several logs of one recording may share it.
 *
 * @example
 * const sources = new SourceList();
 * sources.indexOf("heel", "II XDR") // 0
 */
export class SourceList {
  readonly #sources: Source[] = [];
  readonly #indices = new Map<string, number>();

  get sources(): readonly Source[] {
    return this.#sources;
  }

  /** The index of a source, which is added if it is new; −1 when there are too many. Never throws. */
  indexOf(quantity: QuantityName, name: string): number {
    const key = `${quantity} ${name}`;
    const known = this.#indices.get(key);
    if (known !== undefined) return known;
    if (this.#sources.length >= MOST_SOURCES) return -1;
    this.#sources.push({ quantity, name });
    this.#indices.set(key, this.#sources.length - 1);
    return this.#sources.length - 1;
  }
}
