import type { LogReader, LogReaderOptions } from "./logReader.ts";

/** How a log of one format is told and read. */
export interface LogFormat {
  /** Its name and what a record of it is called, one of them: "NMEA 0183 sentence". */
  readonly record: string;
  /** Share of the lines of a log's head that are of this format, 0 to 1. Never throws. */
  readonly likeness: (head: LogHead) => number;
  /** A reader of such logs, plain ones: gzip is undone before. */
  readonly reader: (options: LogReaderOptions) => LogReader;
}

/** The beginning of a log: what its format is told by. */
export interface LogHead {
  /** Whole lines without their ends; neither empty ones nor comments (#). A line of half the head is one, whole or not. */
  readonly lines: readonly string[];
}

/** So much of a log, in bytes, tells its format. */
export const HEAD_LENGTH = 8192;

/**
 * The head of a log.
 *
 * @param bytes its first `HEAD_LENGTH` bytes, or all that there are
 * @param isWhole whether they are the whole log. Never throws.
 */
export function logHead(bytes: Uint8Array, isWhole: boolean): LogHead {
  const text = Array.from(bytes, (byte) => String.fromCharCode(byte)).join("");
  const lines = text.split(/\r\n|\r|\n/);
  if (!isWhole && lines.at(-1)!.length < text.length / 2) lines.pop();
  return { lines: lines.filter((line) => line.trim() !== "" && !line.startsWith("#")) };
}

/** Share of the lines of a head that a rule holds for; 0 where there are none. Never throws. */
export const shareOfLines = ({ lines }: LogHead, isOfFormat: (line: string) => boolean): number =>
  lines.length === 0 ? 0 : lines.filter(isOfFormat).length / lines.length;

/** M103. The format that a head is most like, the first among equals; undefined where it is like none. Never throws. */
export function likeliestFormat(head: LogHead, formats: readonly LogFormat[]): LogFormat | undefined {
  let likeliest: LogFormat | undefined;
  let highest = 0;
  for (const format of formats) {
    const likeness = format.likeness(head);
    if (likeness <= highest) continue;
    likeliest = format;
    highest = likeness;
  }
  return likeliest;
}
