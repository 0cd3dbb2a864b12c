import { isBinaryText } from "./binaryText.ts";
import { JsonCutter, type JsonPiece } from "./jsonCutter.ts";
import { LogBytes } from "./logBytes.ts";
import { RANK } from "./logClock.ts";
import type { LogReader, LogReaderOptions } from "./logReader.ts";
import { printable } from "./problemList.ts";
import type { LineCount, Problem, Readings, Source } from "./readings.ts";
import { RecordLedger } from "./recordLedger.ts";
import { areOwnUpdates, type SignalKUpdate, signalKMessage, signalKUpdates } from "./signalKDelta.ts";
import { SourceList } from "./sourceList.ts";

/** Stamps of updates have one origin, whatever the source: the server's clock. */
const UPDATE = -2;

/** Longest delta that is read, in bytes: the full state of a boat with hundreds of paths takes less than half of it. */
const LONGEST_DELTA = 1 << 20;

/** How a stream calls the boat that it comes from; a delta without a context is hers too. */
const SELF = "vessels.self";

const NUMBER_SIGN = 0x23;

/**
 * Reads Signal K deltas, one a line or in a list, from chunks of any size: the readings are the same, bit for bit, however the
 * log is cut. A record is an update (nearly all deltas have one); what tells of other vessels, and paths that are not read, are
 * ignored. The boat herself is `vessels.self`, or what a hello message calls so; without either, the first vessel that tells
 * what only her own sensors can. A source is what `$source` names. Never throws.
 *
 * @example
 * const reader = new SignalKReader({ file: "afternoon.jsonl" });
 * for (const chunk of chunks) for (const readings of reader.push(chunk)) use(readings, reader.sources);
 * for (const readings of reader.finish()) use(readings, reader.sources);
 */
export class SignalKReader implements LogReader {
  readonly #sources: SourceList;
  readonly #ledger: RecordLedger;
  readonly #text = new TextDecoder();
  readonly #bytes = new LogBytes((plain) => this.#cutter.push(plain));
  readonly #cutter = new JsonCutter(LONGEST_DELTA, (...piece) => this.#readPiece(...piece));
  /** The piece that is being read. */
  #piece = { bytes: new Uint8Array(0) as Uint8Array, from: 0, to: 0, line: 1 };
  /** The boat's name for herself, once it is known. */
  #self: string | undefined;

  constructor({ file, sources = new SourceList() }: LogReaderOptions) {
    this.#sources = sources;
    this.#ledger = new RecordLedger({
      file,
      received: () => printable(this.#piece.bytes, this.#piece.from, this.#piece.to),
      dated: "a timestamp with its zone in each update",
    });
  }

  get sources(): readonly Source[] {
    return this.#sources.sources;
  }

  get lines(): LineCount {
    return this.#ledger.lines;
  }

  get problems(): readonly Problem[] {
    return this.#ledger.problems;
  }

  get problemCounts(): Readonly<Record<Problem["kind"], number>> {
    return this.#ledger.problemCounts;
  }

  push(chunk: Uint8Array): Readings[] {
    this.#bytes.push(chunk);
    return this.#ledger.rows.take();
  }

  finish(): Readings[] {
    this.#bytes.finish();
    this.#cutter.finish();
    return this.#ledger.finish(this.#bytes.fault);
  }

  #readPiece(
    kind: JsonPiece,
    bytes: Uint8Array,
    from: number,
    to: number,
    line: number,
    isTooLong: boolean,
  ): void {
    this.#piece = { bytes, from, to, line };
    if (isTooLong) this.#fault("too long", `at most ${LONGEST_DELTA} bytes in a delta`);
    else if (kind === "object") this.#readObject();
    else if (bytes[from] === NUMBER_SIGN) this.#ledger.begin(line);
    else if (isBinaryText(bytes, from, to)) this.#fault("binary", "text");
    else this.#fault("cut", "a whole object");
  }

  #readObject(): void {
    const { bytes, from, to, line } = this.#piece;
    const message = signalKMessage(this.#parsed(this.#text.decode(bytes.subarray(from, to))));
    if (message.kind === "faulty") {
      this.#fault("field", message.expected);
      return;
    }
    if (message.kind === "hello") this.#self = vessel(message.self);
    if (message.kind === "delta" && this.#isOwn(message.context, message.updates))
      this.#readUpdates(message.updates);
    else this.#ledger.begin(line);
  }

  /** What a text is as JSON; undefined where it is none. */
  #parsed(text: string): unknown {
    try {
      return JSON.parse(text);
    } catch {
      return undefined;
    }
  }

  /** M104. Whether a delta tells of the boat herself. */
  #isOwn(context: string | undefined, updates: readonly unknown[]): boolean {
    if (context === undefined || context === SELF) {
      this.#self ??= SELF;
      return true;
    }
    if (this.#self === undefined && areOwnUpdates(updates)) this.#self = context;
    return context === this.#self;
  }

  #readUpdates(updates: readonly unknown[]): void {
    const read = signalKUpdates(updates);
    if (typeof read === "string") this.#fault("field", read);
    else if (read.length === 0) this.#ledger.begin(this.#piece.line);
    else for (const update of read) this.#readUpdate(update);
  }

  #readUpdate({ source, time, values }: SignalKUpdate): void {
    const ledger = this.#ledger;
    ledger.begin(this.#piece.line);
    if (time !== undefined) {
      const { seconds, zone } = time;
      if (Number.isNaN(zone)) ledger.stamp("local", seconds, RANK.line, UPDATE);
      else ledger.stamp("utc", seconds - zone, RANK.line, UPDATE);
    }
    for (const { part, value } of values) {
      const name = part.suffix === undefined ? source : `${source} ${part.suffix}`;
      const index = this.#sources.indexOf(part.quantity, name);
      if (index >= 0) ledger.rows.add(index, value);
    }
    ledger.end(false);
  }

  #fault(kind: Problem["kind"], expected: string): void {
    this.#ledger.begin(this.#piece.line);
    this.#ledger.fault(kind, expected);
  }
}

/** A vessel's context, from a hello message, which may leave its beginning out. */
const vessel = (self: string): string => (self.startsWith("vessels.") ? self : `vessels.${self}`);
