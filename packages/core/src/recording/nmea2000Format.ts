import { type LogFormat, shareOfLines } from "./logFormat.ts";
import { Nmea2000Reader } from "./nmea2000Reader.ts";

/** The forms in which a line holds a frame (see `CanFrame`): packed, spaced, between marks, listed. */
const FRAMES = [
  /^\s*(?:\([^)]*\)\s+)?\S+\s+[0-9A-Fa-f]{8}#/,
  /^\s*(?:\([^)]*\)\s+)?\S+\s+(?:\S+\s+){0,3}[0-9A-Fa-f]{8}\s+\[\d\]/,
  /^\s*(?:\([^)]*\)\s+)?<0x[0-9A-Fa-f]{8}>\s+\[\d\]/,
  /^[\d:.TZ+ _-]{0,40},\s*[0-7]\s*,\s*\d{5,6}\s*,\s*\d{1,3}\s*,\s*\d{1,3}\s*,\s*\d{1,4}\s*(?:,\s*[0-9A-Fa-f]{1,2}\s*){1,8}(?:,|$)/,
];

export const NMEA_2000: LogFormat = {
  record: "NMEA 2000 frame",
  likeness: (head) => shareOfLines(head, (line) => FRAMES.some((frame) => frame.test(line))),
  reader: (options) => new Nmea2000Reader(options),
};
