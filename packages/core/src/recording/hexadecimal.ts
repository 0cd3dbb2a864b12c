const NO_DIGIT = -1;

/** Values of hexadecimal digits, capital or small, by their codes; −1 for what is none. */
export const HEXADECIMAL_DIGITS = Int8Array.from({ length: 256 }, (_, code) => {
  const sign = String.fromCharCode(code);
  return /[0-9A-Fa-f]/.test(sign) ? Number.parseInt(sign, 16) : NO_DIGIT;
});
