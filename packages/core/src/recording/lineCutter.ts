const [LINE_FEED, CARRIAGE_RETURN] = [0x0a, 0x0d];

/** Whether a byte ends a line. */
export const isLineEnd = (byte: number): boolean => byte === LINE_FEED || byte === CARRIAGE_RETURN;

/** The last line end from a place on; −1 where there is none. */
function lastLineEnd(bytes: Uint8Array, from: number): number {
  let at = bytes.length - 1;
  while (at >= from && !isLineEnd(bytes[at]!)) at--;
  return at >= from ? at : -1;
}

/**
 * Cuts a stream of bytes into lines, ended by LF, CR or both. Lines are looked at where they lie in the chunk; only one that
 * spans chunks is copied, up to the longest line's length and one byte more, so that an endless line takes no memory.
 * Never throws.
 */
export class LineCutter {
  readonly #readLine: (bytes: Uint8Array, from: number) => number;
  readonly #longest: number;
  readonly #kept: (part: Uint8Array, before: number | undefined) => Uint8Array;
  /** A line begun in an earlier chunk, with room for its end; its whole length so far. */
  readonly #carry: Uint8Array;
  #carried = 0;
  #endedByReturn = false;

  /**
   * @param longest how much of a line is of use; of one that is longer so much and one byte more may be all there is
   * @param readLine reads the line that begins at a place, and returns the place of its end, which is there
   * @param kept what of a part of a line that spans chunks is kept, by the byte before it in that line; all unless told
   */
  constructor(
    longest: number,
    readLine: (bytes: Uint8Array, from: number) => number,
    kept = (part: Uint8Array, _before: number | undefined): Uint8Array => part,
  ) {
    this.#longest = longest;
    this.#readLine = readLine;
    this.#kept = kept;
    this.#carry = new Uint8Array(longest + 2);
  }

  push(bytes: Uint8Array): void {
    let at = 0;
    if (this.#endedByReturn && bytes.length > 0) {
      if (bytes[0] === LINE_FEED) at = 1;
      this.#endedByReturn = false;
    }
    if (this.#carried > 0) at = this.#endCarried(bytes, at);
    const last = lastLineEnd(bytes, at);
    while (at <= last) at = this.#next(bytes, this.#readLine(bytes, at));
    this.#append(bytes, at, bytes.length);
  }

  /** Ends the stream; what follows the last line end is a line too. */
  finish(): void {
    if (this.#carried > 0) this.#readCarried();
  }

  /** The place after a line end, CR LF being one. */
  #next(bytes: Uint8Array, end: number): number {
    const next = end + 1;
    if (bytes[end] === LINE_FEED) return next;
    this.#endedByReturn = next === bytes.length;
    return next < bytes.length && bytes[next] === LINE_FEED ? next + 1 : next;
  }

  #endCarried(bytes: Uint8Array, from: number): number {
    let end = from;
    while (end < bytes.length && !isLineEnd(bytes[end]!)) end++;
    this.#append(bytes, from, end);
    if (end === bytes.length) return end;
    this.#readCarried();
    return this.#next(bytes, end);
  }

  #append(bytes: Uint8Array, from: number, to: number): void {
    const filled = Math.min(this.#carried, this.#carry.length);
    const part = this.#kept(bytes.subarray(from, to), this.#carry[filled - 1]);
    this.#carry.set(part.subarray(0, this.#carry.length - filled), filled);
    this.#carried += part.length;
  }

  #readCarried(): void {
    const length = Math.min(this.#carried, this.#longest + 1);
    this.#carried = 0;
    this.#carry[length] = LINE_FEED;
    this.#readLine(this.#carry, 0);
  }
}
