import type { ColumnMapping } from "../recording/columnMapping.ts";
import type { LogSteps } from "./logSteps.ts";

/** A log as the job reads it: bytes in chunks, plain or gzip. */
export interface LogSource {
  /** What to call it in messages: the file's name as the user gave it. */
  readonly name: string;
  /** Size, for progress; undefined where it is not known beforehand. */
  readonly bytes?: number;
  /** Whether it may turn out to be no log, such as one file of a folder: it is left out then, and told of. */
  readonly mayBeNone?: boolean;
  /** How its columns are to be understood, if it is a log in columns (CSV) whose headers do not tell it. */
  readonly columns?: ColumnMapping;
  /** Begins again each time it is iterated: sources are chosen in a first reading, and used in a second. */
  readonly chunks: AsyncIterable<Uint8Array>;
}

/** What is being done, and which share of it is done: 0 to 1, NaN where that cannot be told. */
export type Progress = (what: string, share: number) => void;

/** What a long job takes along. */
export interface JobRun {
  /** Who reads the logs; unless told, they are read here, one after the other. */
  readonly steps?: LogSteps;
  readonly progress?: Progress;
  /** Aborted, the job throws the signal's reason. */
  readonly signal?: AbortSignal;
}
