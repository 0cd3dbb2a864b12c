/**
 * Makes each run of zero bytes in a stream one byte long: a logger whose power failed leaves thousands of them where a file was
 * allotted but not written, and the sentence behind them would be at the end of a line too long to hold. Never throws.
 */
export class ZeroRuns {
  #endedInZero = false;

  /** @returns the chunk itself where it has no zeros */
  shortened(chunk: Uint8Array): Uint8Array {
    if (chunk.length === 0) return chunk;
    const first = chunk.indexOf(0);
    const endedInZero = this.#endedInZero;
    this.#endedInZero = chunk.at(-1) === 0;
    if (first < 0) return chunk;
    const kept = chunk.slice();
    let length = first;
    let isInRun = first === 0 && endedInZero;
    for (let at = first; at < chunk.length; at++) {
      const byte = chunk[at]!;
      if (byte !== 0 || !isInRun) kept[length++] = byte;
      isInRun = byte === 0;
    }
    return kept.subarray(0, length);
  }
}
