import type { LogFormat } from "../recording/logFormat.ts";
import { LOG_FORMATS } from "../recording/logFormats.ts";
import type { LineCount, Problem, Readings } from "../recording/readings.ts";
import { RecognisedReader } from "../recording/recognisedReader.ts";
import type { SourceList } from "../recording/sourceList.ts";
import type { JobRun, LogSource } from "./logSource.ts";

/**
 * A log that holds nothing that can be read: which, and why in words.
 *
 * @example
 * new UnusableLog("prose.txt", "holds no sentence").message // "prose.txt: holds no sentence"
 */
export class UnusableLog extends Error {
  override readonly name = "UnusableLog";

  constructor(
    readonly log: string,
    readonly reason: string,
  ) {
    super(`${log}: ${reason}`);
  }
}

/** What one log was found to hold, record by record. */
export interface LogCount {
  readonly name: string;
  /** What it consists of ("NMEA 0183 sentence"); absent where it is of no format that is known. */
  readonly record?: string;
  readonly lines: LineCount;
  /** The first hundred. */
  readonly problems: readonly Problem[];
  /** Problems of each kind, all of them. */
  readonly problemCounts: Readonly<Record<Problem["kind"], number>>;
}

/** Records of some formats, any one of which would have done. */
function anyRecord(formats: readonly LogFormat[]): string {
  const records = formats.map(({ record }) => record);
  const last = records.pop();
  return records.length === 0 ? `${last}` : `${records.join(", ")} or ${last}`;
}

/** Why a log of which not one record could be used is no log. */
function reasonAgainst({ lines, problems }: LogCount, format: LogFormat | undefined): string {
  const [first] = problems;
  if (lines.lines === 0 && first === undefined) return "the file is empty";
  const found = `holds no ${anyRecord(format ? [format] : LOG_FORMATS)} that this program reads, in ${lines.lines} line${lines.lines === 1 ? "" : "s"}`;
  if (first === undefined) return found;
  return `${found}; in line ${first.line} (${first.kind}): expected ${first.expected}, received ${first.received === "" ? "nothing" : first.received}`;
}

function requireUsable(count: LogCount, format: LogFormat | undefined): void {
  if (count.lines.used === 0) throw new UnusableLog(count.name, reasonAgainst(count, format));
}

/**
 * The readings of a log, from its first byte to its last, batch by batch.
 *
 * @param sources of the recording that the log belongs to; new ones are added
 * @param found is told at the end what the log was found to hold
 * @throws UnusableLog when not one record of it could be used; what the chunks throw; the signal's reason when aborted
 */
export async function* readingsOfLog(
  log: LogSource,
  sources: SourceList,
  { progress, signal }: JobRun = {},
  found?: (count: LogCount) => void,
): AsyncGenerator<Readings, void, undefined> {
  const reader = new RecognisedReader({
    file: log.name,
    sources,
    ...(log.columns ? { columns: log.columns } : {}),
  });
  const requireReadable = (): void => {
    if (reader.refusal !== "") throw new UnusableLog(log.name, reader.refusal);
  };
  let done = 0;
  for await (const chunk of log.chunks) {
    signal?.throwIfAborted();
    yield* reader.push(chunk);
    requireReadable();
    done += chunk.length;
    progress?.(`reading ${log.name}`, done / (log.bytes ?? Number.NaN));
  }
  yield* reader.finish();
  requireReadable();
  const { lines, problems, problemCounts, format } = reader;
  const of = format ? { record: format.record } : {};
  const count: LogCount = { name: log.name, ...of, lines, problems, problemCounts };
  requireUsable(count, format);
  found?.(count);
}
