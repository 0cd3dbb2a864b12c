// The least that reading a log of sentences takes: the checksum of each (M30), and nothing else of it. Prints as JSON the good sentences
// and the bad ones, to compare, the seconds and the memory.
import { closeSync, openSync, readSync } from "node:fs";

const CHUNK = 1 << 18;
const [DOLLAR, STAR] = [0x24, 0x2a];
const DIGITS = Int8Array.from({ length: 256 }, (_, code) =>
  "0123456789ABCDEF".indexOf(String.fromCharCode(code)),
);

const found = { good: 0, bad: 0 };
/** Where the last chunk ended within a sentence: the sum so far, and how many digits after the star; −1 before it. */
const state = { sum: 0, digits: -1 };

function pass(bytes, length) {
  let { sum, digits } = state;
  for (let at = 0; at < length; at++) {
    const byte = bytes[at];
    if (byte > STAR) {
      if (digits < 0) sum ^= byte;
      else if (digits++ === 0) sum ^= DIGITS[byte] << 4;
      else {
        found[sum === DIGITS[byte] ? "good" : "bad"]++;
        digits = -1;
      }
    } else if (byte === DOLLAR) sum = 0;
    else if (byte === STAR) digits = 0;
    else if (digits < 0) sum ^= byte;
  }
  state.sum = sum;
  state.digits = digits;
}

const before = performance.now();
const file = openSync(process.argv[2], "r");
const chunk = new Uint8Array(CHUNK);
for (let read = readSync(file, chunk); read > 0; read = readSync(file, chunk)) pass(chunk, read);
closeSync(file);
const seconds = (performance.now() - before) / 1000;
const megabytes = process.resourceUsage().maxRSS / 1024;
console.log(JSON.stringify({ found, seconds: { reading: seconds }, megabytes }));
