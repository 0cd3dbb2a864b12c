import type { LogReader } from "../../packages/core/src/recording/logReader.ts";
import { Nmea0183Reader } from "../../packages/core/src/recording/nmea0183Reader.ts";
import type { QuantityName, Readings } from "../../packages/core/src/recording/readings.ts";

/** A log read to its end: its readings in three columns, with names for sources. */
export interface WholeLog<Reader extends LogReader = Nmea0183Reader> {
  readonly reader: Reader;
  readonly time: readonly number[];
  readonly value: readonly number[];
  readonly source: readonly number[];
  /** Values of one quantity, from all its sources, in the order of the log. */
  readonly valuesOf: (quantity: QuantityName) => readonly number[];
  /** Times of the same. */
  readonly timesOf: (quantity: QuantityName) => readonly number[];
}

export const bytesOf = (text: string): Uint8Array => Uint8Array.from(Buffer.from(text, "latin1"));

/** Cuts bytes into chunks of some sizes, used in turn. */
export function* chunksOf(bytes: Uint8Array, sizes: readonly number[]): Generator<Uint8Array> {
  for (let at = 0, turn = 0; at < bytes.length; turn++) {
    const size = sizes[turn % sizes.length]!;
    yield bytes.subarray(at, at + size);
    at += size;
  }
}

/** Reads an NMEA 0183 log from text or bytes, in chunks of some sizes, used in turn. */
export const wholeLog = (log: string | Uint8Array, sizes?: readonly number[]): WholeLog =>
  readWhole(new Nmea0183Reader({ file: "log.nmea" }), log, sizes);

/** Lets a reader read a log from text or bytes, in chunks of some sizes, used in turn. */
export function readWhole<Reader extends LogReader>(
  reader: Reader,
  log: string | Uint8Array,
  sizes: readonly number[] = [1 << 16],
): WholeLog<Reader> {
  const batches: Readings[] = [];
  const bytes = typeof log === "string" ? bytesOf(log) : log;
  for (const chunk of chunksOf(bytes, sizes)) batches.push(...reader.push(chunk));
  batches.push(...reader.finish());
  const column = (of: (batch: Readings) => ArrayLike<number>): readonly number[] =>
    batches.flatMap((batch) => Array.from(of(batch)));
  const [time, value, source] = [
    column((batch) => batch.time),
    column((batch) => batch.value),
    column((batch) => batch.source),
  ];
  const ofQuantity = (values: readonly number[], quantity: QuantityName) =>
    values.filter((_, row) => reader.sources[source[row]!]!.quantity === quantity);
  return {
    reader,
    time,
    value,
    source,
    valuesOf: (quantity) => ofQuantity(value, quantity),
    timesOf: (quantity) => ofQuantity(time, quantity),
  };
}
