const [TAB, SPACE, LAST_OF_ASCII] = [0x09, 0x20, 0x7f];

/** Whether bytes between two places are none that a line of ASCII text has. Never throws. */
export function isBinaryText(bytes: Uint8Array, from: number, to: number): boolean {
  for (let at = from; at < to; at++) {
    const byte = bytes[at]!;
    if (byte > LAST_OF_ASCII || (byte < SPACE && byte !== TAB)) return true;
  }
  return false;
}
