import { isBinaryText } from "./binaryText.ts";
import { BYTES_IN_A_FRAME, CanFrame } from "./canFrame.ts";
import { ElapsedStamps } from "./elapsedStamps.ts";
import { FastPackets } from "./fastPackets.ts";
import { LineCutter } from "./lineCutter.ts";
import { lineStamp } from "./lineStamp.ts";
import { LogBytes } from "./logBytes.ts";
import { RANK } from "./logClock.ts";
import type { LogReader, LogReaderOptions } from "./logReader.ts";
import { MOST_PGN_QUANTITIES, type PgnDecoder, type PgnValues } from "./pgnDecoder.ts";
import { PgnFields } from "./pgnFields.ts";
import { PgnOriginBook, senderKey } from "./pgnOrigin.ts";
import { printable } from "./problemList.ts";
import type { LineCount, Problem, Readings, Source } from "./readings.ts";
import { RecordLedger } from "./recordLedger.ts";
import { SourceList } from "./sourceList.ts";

/** Stamps at the head of lines have one origin, whatever the frame. */
const LINE_HEAD = -2;

const [LINE_FEED, CARRIAGE_RETURN, NUMBER_SIGN] = [0x0a, 0x0d, 0x23];

/** Longest line that is read: the longest message, of 1785 bytes, takes some 5400 characters. */
const LONGEST_LINE = 8192;

/** Buses that are told apart; noise in names could go on for ever. */
const MOST_BUSES = 16;

interface TextLine {
  readonly bytes: Uint8Array;
  readonly from: number;
  readonly to: number;
}

/**
 * Reads NMEA 2000 frames written as text, one a line (see `CanFrame`), from chunks of any size: the readings are the same, bit
 * for bit, however the log is cut. Fast packets are put together; the frames of those that lost some are problems. Fields that
 * are not available make no reading. True wind computed on board is kept apart from apparent wind by its reference. A source
 * is an address and a parameter group ("115 PGN 130306 apparent"), with the instance where there is one. Never throws.
 *
 * @example
 * const reader = new Nmea2000Reader({ file: "afternoon.candump" });
 * for (const chunk of chunks) for (const readings of reader.push(chunk)) use(readings, reader.sources);
 * for (const readings of reader.finish()) use(readings, reader.sources);
 */
export class Nmea2000Reader implements LogReader {
  readonly #sources: SourceList;
  readonly #origins: PgnOriginBook;
  readonly #ledger: RecordLedger;
  readonly #bytes = new LogBytes((plain) => this.#lines.push(plain));
  readonly #lines = new LineCutter(LONGEST_LINE, (bytes, from) => this.#readLine(bytes, from));
  readonly #packets: FastPackets;
  readonly #elapsed = new ElapsedStamps();
  readonly #frame = new CanFrame();
  readonly #fields = new PgnFields();
  readonly #values: PgnValues = { readings: new Float64Array(MOST_PGN_QUANTITIES), time: Number.NaN };
  /** The line that is being read. */
  #line: TextLine = { bytes: new Uint8Array(0), from: 0, to: 0 };
  readonly #buses: string[] = [];
  #bus = 0;

  constructor({ file, sources = new SourceList() }: LogReaderOptions) {
    this.#sources = sources;
    this.#origins = new PgnOriginBook(sources);
    this.#ledger = new RecordLedger({
      file,
      received: () => printable(this.#line.bytes, this.#line.from, this.#line.to),
      dated:
        "date and UTC: an epoch or a time with its zone before each frame, or a frame that tells them (PGN 126992, 129029, 129033)",
    });
    this.#packets = new FastPackets((records, received, expected) =>
      this.#ledger.faultWaiting(records, "cut", received, expected),
    );
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
    this.#lines.finish();
    this.#packets.finish();
    return this.#ledger.finish(this.#bytes.fault);
  }

  /** Reads the line that begins at a place; returns where it ends. */
  #readLine(bytes: Uint8Array, from: number): number {
    let to = from;
    while (bytes[to] !== LINE_FEED && bytes[to] !== CARRIAGE_RETURN) to++;
    this.#line = { bytes, from, to };
    this.#ledger.begin();
    if (to - from > LONGEST_LINE)
      this.#ledger.fault("too long", `at most ${LONGEST_LINE} characters in a line`);
    else if (from < to && bytes[from] !== NUMBER_SIGN) this.#readText();
    return to;
  }

  #readText(): void {
    const { bytes, from, to } = this.#line;
    const kind = this.#frame.read(bytes, from, to);
    if (kind === "frame") this.#readFrame();
    else if (isBinaryText(bytes, from, to)) this.#ledger.fault("binary", "text");
    else if (kind === "damaged")
      this.#ledger.fault(this.#frame.isCut ? "cut" : "field", this.#frame.expected);
  }

  /** A frame that is not read counts only as one of those that share the time, where lines have none of their own. */
  #readFrame(): void {
    const { bytes } = this.#line;
    const { stampFrom, stampTo, pgn, data, length } = this.#frame;
    const stamp = lineStamp(bytes, stampFrom, stampTo) ?? this.#elapsed.read(bytes, stampFrom, stampTo);
    const decoder = this.#origins.decoderOf(pgn);
    if (decoder === undefined) {
      if (stamp === undefined) this.#ledger.end(false);
      return;
    }
    if (stamp !== undefined) this.#ledger.stamp(stamp.kind, stamp.seconds, RANK.line, LINE_HEAD);
    if (decoder.isFast && length <= BYTES_IN_A_FRAME) this.#readPart(decoder);
    else this.#readMessage(decoder, data, length);
  }

  /** One frame of a fast packet. */
  #readPart(decoder: PgnDecoder): void {
    const { data, length } = this.#frame;
    const packets = this.#packets;
    const outcome = packets.push(senderKey(this.#sender(), decoder.pgn), data, length, this.#ledger.record);
    if (outcome === "stray") this.#ledger.fault("cut", "the first frames of its fast packet");
    if (outcome === "waiting" && this.#ledger.end(false)) this.#ledger.wait();
    if (outcome !== "complete") return;
    const { records } = packets;
    const isUsed = this.#readMessage(decoder, packets.data, packets.length);
    this.#ledger.settleWaiting(records, isUsed);
  }

  /** A whole message; true where it was of use. */
  #readMessage(decoder: PgnDecoder, data: Uint8Array, length: number): boolean {
    const [fields, values, ledger] = [this.#fields, this.#values, this.#ledger];
    const { readings } = values;
    const count = decoder.quantities.length;
    fields.take(data, length);
    for (let place = 0; place < count; place++) readings[place] = Number.NaN;
    values.time = Number.NaN;
    decoder.decode(fields, values);
    const origin = this.#origins.originOf(decoder, this.#sender(), data);
    const expected = fields.expected || origin.bounds.fault(readings);
    if (expected !== "") {
      ledger.fault("field", `${expected} in PGN ${decoder.pgn}`);
      return false;
    }
    ledger.rows.addAll(readings, count, origin);
    const isTimed = !Number.isNaN(values.time);
    if (isTimed) ledger.stamp("utc", values.time, RANK.dated, origin.id);
    const isUsed = isTimed || ledger.rows.hasReadings;
    return ledger.end(isTimed) && isUsed;
  }

  #sender() {
    const { source, busFrom, busTo } = this.#frame;
    this.#meetBus(busFrom, busTo);
    return { source, bus: this.#bus, busName: this.#buses[this.#bus] ?? "" };
  }

  /** Finds the bus whose name stands between two places of the line; most lines are of the bus that the last was of. */
  #meetBus(from: number, to: number): void {
    const { bytes } = this.#line;
    if (isWritten(this.#buses[this.#bus], bytes, from, to)) return;
    const name = printable(bytes, from, to);
    const known = this.#buses.indexOf(name);
    if (known < 0 && this.#buses.length < MOST_BUSES) this.#buses.push(name);
    this.#bus = known >= 0 ? known : this.#buses.length - 1;
  }
}

function isWritten(name: string | undefined, bytes: Uint8Array, from: number, to: number): boolean {
  if (name === undefined || name.length !== to - from) return false;
  for (let at = 0; at < name.length; at++) if (name.charCodeAt(at) !== bytes[from + at]) return false;
  return true;
}
