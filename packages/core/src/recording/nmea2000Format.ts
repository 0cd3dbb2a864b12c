import { type LogFormat, shareOfLines } from "./logFormat.ts";
import { Nmea2000Reader } from "./nmea2000Reader.ts";

/** The forms in which a line holds a frame (see `CanFrame`): packed, spaced, listed. */
const FRAMES = [
  /^\s*(?:\([^)]*\)\s+)?\S+\s+[0-9A-Fa-f]{8}#/,
  /^\s*(?:\([^)]*\)\s+)?\S+\s+(?:\S+\s+){0,3}[0-9A-Fa-f]{8}\s+\[\d\]/,
  /^[^,]{4,12}\d\d:\d\d[^,]{0,20},[0-7],\d{5,6},\d{1,3},\d{1,3},\d{1,3}(?:,[0-9A-Fa-f]{1,2}){1,8}(?:,|\s*$)/,
];

export const NMEA_2000: LogFormat = {
  record: "NMEA 2000 frame",
  likeness: (head) => shareOfLines(head, (line) => FRAMES.some((frame) => frame.test(line))),
  reader: (options) => new Nmea2000Reader(options),
};
