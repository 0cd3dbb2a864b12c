/**
 * A part of a line with each run of zero bytes made one byte long: a logger whose power failed leaves thousands of them where a
 * file was allotted but not written, and the sentence behind them would be at the end of a line too long to hold. Never throws.
 *
 * @param before the byte before the part in its line, if there is any
 * @returns the part itself where it has no zeros
 */
export function withoutZeroRuns(part: Uint8Array, before?: number): Uint8Array {
  const first = part.indexOf(0);
  if (first < 0) return part;
  const kept = part.slice();
  let length = first;
  let isInRun = first === 0 && before === 0;
  for (let at = first; at < part.length; at++) {
    const byte = part[at]!;
    if (byte !== 0 || !isInRun) kept[length++] = byte;
    isInRun = byte === 0;
  }
  return kept.subarray(0, length);
}
