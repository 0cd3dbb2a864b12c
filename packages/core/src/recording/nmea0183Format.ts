import { type LogFormat, shareOfLines } from "./logFormat.ts";
import { Nmea0183Reader } from "./nmea0183Reader.ts";

/** A sentence anywhere in a line: its address, or that of a maker (P and three letters), and a comma. */
const SENTENCE = /[$!](?:[A-Z0-9]{2}[A-Z]{3}|P[A-Z0-9]{3,}),/;

export const NMEA_0183: LogFormat = {
  record: "NMEA 0183 sentence",
  likeness: (head) => shareOfLines(head, (line) => SENTENCE.test(line)),
  reader: (options) => new Nmea0183Reader(options),
};
