import type { ColumnMapping } from "./columnMapping.ts";
import type { LineCount, Problem, Readings, Source } from "./readings.ts";
import type { SourceList } from "./sourceList.ts";

/** What a reader of logs may be told. */
export interface LogReaderOptions {
  /** Name of the log, for its problems. */
  readonly file: string;
  /** Sources known from other logs of the same recording; new ones are added. */
  readonly sources?: SourceList;
  /** How the columns of a log in columns (CSV) are to be understood where their headers do not tell it. */
  readonly columns?: ColumnMapping;
}

/**
 * Reads a log of one format from chunks of any size: the readings are the same, bit for bit, however the log is cut. Each
 * record (sentence, frame, delta, row) has one outcome: used, ignored or a problem. No reader throws.
 */
export interface LogReader {
  /** All sources met so far; readings give their index. */
  readonly sources: readonly Source[];
  /** Records so far: used where they gave a reading or told the time. What is not settled yet counts as ignored. */
  readonly lines: LineCount;
  /** The first hundred problems. Those of the log as a whole (compression, a date never told) are of no record. */
  readonly problems: readonly Problem[];
  /** Problems of each kind, all of them. */
  readonly problemCounts: Readonly<Record<Problem["kind"], number>>;
  /** What must be told before the log can be read, in words; nothing or "" where nothing must. */
  readonly refusal?: string;
  /** Reads on; returns the batches of readings that are complete. Memory grows with the chunk, not with the log. */
  push(chunk: Uint8Array): Readings[];
  /** Ends the log; returns what was left. */
  finish(): Readings[];
}
