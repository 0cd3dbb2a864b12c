/** The highest three values of a field tell that it is not available, out of range or reserved. */
const SPECIAL_VALUES = 3;

const TWO_TO_32 = 2 ** 32;

/**
 * M101. The fields of one NMEA 2000 message, little endian, where they lie among its bytes. A field that is not available, or past
 * the end of the message, is NaN, never a number; one that holds what it cannot sets `expected`. Nothing here throws.
 */
export class PgnFields {
  data: Uint8Array = new Uint8Array(0);
  length = 0;
  /** What the first faulty field should have held; "" as long as all is well. */
  expected = "";

  /** Takes the bytes of a message. */
  take(data: Uint8Array, length: number): void {
    this.data = data;
    this.length = length;
    this.expected = "";
  }

  fault(what: string): number {
    if (this.expected === "") this.expected = what;
    return Number.NaN;
  }

  /** Some bits of a byte: a letter of a set; NaN past the end. */
  bits(at: number, first: number, count: number): number {
    return at < this.length ? (this.data[at]! >> first) & ((1 << count) - 1) : Number.NaN;
  }

  /** A number without sign in 1 to 4 bytes. */
  unsigned(at: number, bytes: number): number {
    const value = this.#raw(at, bytes);
    return value >= 2 ** (8 * bytes) - SPECIAL_VALUES ? Number.NaN : value;
  }

  /** A number with sign in 1 to 4 bytes. */
  signed(at: number, bytes: number): number {
    const value = this.#raw(at, bytes);
    const half = 2 ** (8 * bytes - 1);
    if (value >= half) return value - 2 * half;
    return value >= half - SPECIAL_VALUES ? Number.NaN : value;
  }

  /** A number with sign in 8 bytes, to the nearest double. */
  signed64(at: number): number {
    const low = this.#raw(at, 4);
    const high = this.#raw(at + 4, 4);
    if (high === 0x7fffffff && low >= TWO_TO_32 - SPECIAL_VALUES) return Number.NaN;
    return (high >= TWO_TO_32 / 2 ? high - TWO_TO_32 : high) * TWO_TO_32 + low;
  }

  #raw(at: number, bytes: number): number {
    if (at + bytes > this.length) return Number.NaN;
    let value = 0;
    for (let index = at + bytes - 1; index >= at; index--) value = value * 256 + this.data[index]!;
    return value;
  }
}
