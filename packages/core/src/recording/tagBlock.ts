import type { Seconds } from "../units.ts";
import { isSumAt } from "./nmea0183Checksum.ts";
import { printable } from "./problemList.ts";
import { epochSeconds, TimeText } from "./timeText.ts";

const [STAR, COMMA, COLON, BACKSLASH] = [0x2a, 0x2c, 0x3a, 0x5c] as const;
const [TIME, SOURCE] = [0x63, 0x73] as const;

/** What the tag blocks before a sentence tell. */
export interface TagBlock {
  /** s since 1970 UTC; NaN where they tell none. */
  readonly time: Seconds;
  /** The source that they name; "" where they name none. */
  readonly source: string;
}

/** Whether tag blocks stand at the head of a line. */
export const hasTagBlock = (bytes: Uint8Array, from: number): boolean => bytes[from] === BACKSLASH;

/** Where the block that begins at a place ends, its closing backslash; −1 unless it is whole and its checksum (M30) right. */
function starOfBlock(bytes: Uint8Array, from: number, to: number): number {
  let star = from;
  let sum = 0;
  while (star < to && bytes[star] !== STAR) sum ^= bytes[star++]!;
  const isWhole = star + 3 < to && bytes[star + 3] === BACKSLASH;
  return isWhole && isSumAt(sum, bytes, star + 1) ? star : -1;
}

/** Reads the fields of one block, such as `s:mast,c:1490000000`, each a letter, a colon and a value. */
function fieldsOf(bytes: Uint8Array, from: number, to: number, before: TagBlock): TagBlock {
  let { time, source } = before;
  for (let at = from; at < to; at++) {
    let end = at;
    while (end < to && bytes[end] !== COMMA) end++;
    if (bytes[at + 1] === COLON && at + 2 < end) {
      if (bytes[at] === TIME) time = epochSeconds(new TimeText(bytes, at + 2, end)) ?? time;
      else if (bytes[at] === SOURCE) source = printable(bytes, at + 2, end);
    }
    at = end;
  }
  return { time, source };
}

/**
 * M110. The tag blocks of NMEA 0183 version 4 before a sentence, `\…*hh\`, one or several: `c:` is UTC since 1970 in s or
 * ms, `s:` names the source; other fields are passed over.
 *
 * @param from where the line starts, with a backslash
 * @param to where the sentence starts
 * @returns undefined where one is not whole or its checksum (M30) is wrong. Never throws.
 */
export function tagBlock(bytes: Uint8Array, from: number, to: number): TagBlock | undefined {
  let told: TagBlock = { time: Number.NaN, source: "" };
  let at = from;
  while (at < to && bytes[at] === BACKSLASH) {
    const star = starOfBlock(bytes, at + 1, to);
    if (star < 0) return undefined;
    told = fieldsOf(bytes, at + 1, star, told);
    at = star + 4;
  }
  return at === to ? told : undefined;
}
