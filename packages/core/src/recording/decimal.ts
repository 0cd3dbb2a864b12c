/** Up to this many digits a number is exact in a double, and so is its quotient by a power of ten: correctly rounded. */
const EXACT_DIGITS = 15;

// not exported where they stand: the compiler knows a module's own constants, but looks up what is exported or imported at each use
const POWERS_OF_TEN = Float64Array.from({ length: EXACT_DIGITS + 1 }, (_, power) => 10 ** power);

/** So many digits make a whole number that the processor holds as one. */
const WHOLE_DIGITS = 9;

export { EXACT_DIGITS, POWERS_OF_TEN, WHOLE_DIGITS };

const [SPACE, PLUS, MINUS, POINT, ZERO] = [0x20, 0x2b, 0x2d, 0x2e, 0x30] as const;

/**
 * The number written between two places, without sign: the double nearest to it, as `Number` of the text would give.
 * NaN where it is no plain decimal number. Never throws.
 */
export function decimal(bytes: Uint8Array, from: number, to: number): number {
  let mantissa = 0;
  let point = to;
  for (let at = from; at < to; at++) {
    const digit = bytes[at]! - ZERO;
    if (digit >= 0 && digit <= 9) mantissa = mantissa * 10 + digit;
    else if (digit === POINT - ZERO && point === to) point = at;
    else return Number.NaN;
  }
  const decimals = point < to ? to - point - 1 : 0;
  const digits = point < to ? to - from - 1 : to - from;
  if (digits === 0) return Number.NaN;
  if (digits > EXACT_DIGITS) {
    const value = Number(String.fromCharCode(...bytes.subarray(from, to)));
    return Number.isFinite(value) ? value : Number.NaN;
  }
  return decimals > 0 ? mantissa / POWERS_OF_TEN[decimals]! : mantissa;
}

/** The place after the spaces from a place on. */
export function afterSpaces(bytes: Uint8Array, from: number, to: number): number {
  let at = from;
  while (at < to && bytes[at] === SPACE) at++;
  return at;
}

/** As `decimal`, with a sign and spaces allowed around it. */
export function signedDecimal(bytes: Uint8Array, from: number, to: number): number {
  const value = bytes[from] === MINUS ? -decimal(bytes, from + 1, to) : decimal(bytes, from, to);
  return Number.isNaN(value) ? looseDecimal(bytes, from, to) : value;
}

function looseDecimal(bytes: Uint8Array, from: number, to: number): number {
  const start = afterSpaces(bytes, from, to);
  let end = to;
  while (end > start && bytes[end - 1] === SPACE) end--;
  const sign = bytes[start];
  const value = decimal(bytes, sign === MINUS || sign === PLUS ? start + 1 : start, end);
  return sign === MINUS ? -value : value;
}
