/** Logs damaged at random, repeatably: what readers must bear without a crash and without an invented reading. */
import { gzipSync } from "node:zlib";
import { expect } from "vitest";
import type { LogReader } from "../../packages/core/src/recording/logReader.ts";
import { QUANTITY_BOUNDS } from "../../packages/core/src/recording/quantityBounds.ts";
import { type RandomNumbers, randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { bytesOf, readWhole } from "./wholeLog.ts";

export interface MutatedLog {
  /** Its place in the sequence, from 0: with seed and sample it makes the log again. */
  readonly number: number;
  /** What was done to it, in the order in which it was. */
  readonly how: readonly string[];
  readonly bytes: Uint8Array;
}

/** A way to damage a log; `below` gives a whole number from 0 up to, not including, one. */
type Damage = (log: Uint8Array, below: (end: number) => number) => Uint8Array;

const joined = (...parts: readonly Uint8Array[]): Uint8Array => Uint8Array.from(Buffer.concat(parts));

/** What stands in a log in place of what stood between two places. */
const replaced = (log: Uint8Array, from: number, to: number, by: Uint8Array): Uint8Array =>
  joined(log.subarray(0, from), by, log.subarray(to));

const LINE_FEED = 0x0a;

/** Where the line around a place begins and ends; the end is past its line feed. */
function lineAround(log: Uint8Array, at: number): readonly [from: number, to: number] {
  const end = log.indexOf(LINE_FEED, at);
  return [log.lastIndexOf(LINE_FEED, at - 1) + 1, end < 0 ? log.length : end + 1];
}

const SEPARATORS = new Set(Array.from(',;:# \t*$!()[]{}"\\|=', (sign) => sign.charCodeAt(0)));

/** Where the field around a place begins and ends. */
function fieldAround(log: Uint8Array, at: number): readonly [from: number, to: number] {
  const isInner = (place: number): boolean => !SEPARATORS.has(log[place]!) && log[place] !== LINE_FEED;
  let [from, to] = [at, at];
  while (from > 0 && isInner(from - 1)) from--;
  while (to < log.length && isInner(to)) to++;
  return [from, to];
}

/** What may stand where a number or a name should. */
const HOSTILE = [
  ...'|0|-0|-1|1e999|-1e999|1e-999|NaN|Infinity|null|true|99999999999999999999|0x7fffffff|ff|7f,ff|,,,,|"|{|}|[[[[|]|*00|$|!'.split(
    "|",
  ),
  "<img src=x onerror=alert(1)>",
  "../../../etc/passwd",
  "\u0000\u0001\u001b[2J",
  "9".repeat(400),
];

const DAMAGES: Readonly<Record<string, Damage>> = {
  "a bit flipped": (log, below) => {
    const damaged = log.slice();
    const at = below(log.length);
    damaged[at] = damaged[at]! ^ (1 << below(8));
    return damaged;
  },
  "bytes set at random": (log, below) => {
    const damaged = log.slice();
    const from = below(log.length);
    for (let at = from; at < Math.min(log.length, from + 1 + below(12)); at++) damaged[at] = below(256);
    return damaged;
  },
  "bytes inserted": (log, below) => {
    const at = below(log.length);
    return replaced(
      log,
      at,
      at,
      Uint8Array.from({ length: 1 + below(20) }, () => below(256)),
    );
  },
  "bytes lost": (log, below) => {
    const at = below(log.length);
    return replaced(log, at, Math.min(log.length, at + 1 + below(40)), new Uint8Array(0));
  },
  "a line cut": (log, below) => {
    const at = below(log.length);
    const [, to] = lineAround(log, at);
    return replaced(log, at, Math.max(at, to - below(2)), new Uint8Array(0));
  },
  "a line again": (log, below) => {
    const [from, to] = lineAround(log, below(log.length));
    const at = lineAround(log, below(log.length))[0];
    return replaced(log, at, at, log.subarray(from, to));
  },
  "a line end in mid-line": (log, below) => {
    const at = below(log.length);
    return replaced(log, at, at, bytesOf(["\n", "\r", "\r\n", "\n\n"][below(4)]!));
  },
  "two fields swapped": (log, below) => {
    const [one, other] = [fieldAround(log, below(log.length)), fieldAround(log, below(log.length))];
    const [[from, to], [start, end]] = one[0] <= other[0] ? [one, other] : [other, one];
    if (start < to) return log;
    const [first, between, second] = [log.slice(from, to), log.slice(to, start), log.slice(start, end)];
    return replaced(log, from, end, joined(second, between, first));
  },
  "a field replaced": (log, below) => {
    const [from, to] = fieldAround(log, below(log.length));
    return replaced(log, from, to, bytesOf(HOSTILE[below(HOSTILE.length)]!));
  },
  "its end missing": (log, below) => log.slice(0, below(log.length)),
};

const COMPRESSED: Readonly<Record<string, Damage>> = {
  gzip: (log) => log,
  "gzip, its end missing": (log, below) => log.slice(0, below(log.length)),
  "gzip, a bit flipped": DAMAGES["a bit flipped"]!,
  "gzip twice in a row, bytes lost": (log, below) => DAMAGES["bytes lost"]!(joined(log, log), below),
};

const nameOf = (names: Readonly<Record<string, Damage>>, below: (end: number) => number): string =>
  Object.keys(names)[below(Object.keys(names).length)]!;

function mutatedLog(sample: Uint8Array, number: number, random: RandomNumbers): MutatedLog {
  const below = (end: number): number => Math.floor(random.between(0, Math.max(1, end)));
  const how: string[] = [];
  let bytes = sample;
  for (let left = 1 + below(4); left > 0 && bytes.length > 0; left--) {
    const name = nameOf(DAMAGES, below);
    how.push(name);
    bytes = DAMAGES[name]!(bytes, below);
  }
  if (below(5) > 0) return { number, how, bytes };
  const name = nameOf(COMPRESSED, below);
  return { number, how: [...how, name], bytes: COMPRESSED[name]!(Uint8Array.from(gzipSync(bytes)), below) };
}

/** So many damaged logs made from a sample; the same for the same sample and seed. */
export function* mutatedLogs(sample: Uint8Array, count: number, seed: number): Generator<MutatedLog> {
  for (let number = 0; number < count; number++)
    yield mutatedLog(sample, number, randomNumbers(seed, number));
}

/** How long one damaged log of some kilobytes may take, ms: a thousand times what it does, so that a busy machine is no hang. */
const LONGEST = 10_000;

/** Added to the seeds, so that each night brings other logs. */
const SEED_OF_THE_DAY = Number(process.env.FUZZ_SEED ?? 0);

/**
 * Lets a reader read so many damaged logs and asks of each: no crash, no hang, one outcome for each record, no reading that is no
 * number, no time that goes back; and, where the reader keeps to M100, none that its quantity cannot have. A failure names the log by its number.
 */
export function expectToBear(
  readerOf: () => LogReader,
  sample: string | Uint8Array,
  {
    count,
    seed: usualSeed,
    isBounded = false,
  }: { readonly count: number; readonly seed: number; readonly isBounded?: boolean },
): void {
  const seed = usualSeed + SEED_OF_THE_DAY;
  const bytes = typeof sample === "string" ? bytesOf(sample) : sample;
  for (const { number, how, bytes: damaged } of mutatedLogs(bytes, count, seed)) {
    const which = `damaged log ${number} of seed ${seed} (${how.join(", ")})`;
    try {
      expectSound(readerOf(), damaged, isBounded);
    } catch (error) {
      throw new Error(`${which}: ${error instanceof Error ? error.message : String(error)}`, {
        cause: error,
      });
    }
  }
}

function expectSound(reader: LogReader, damaged: Uint8Array, isBounded: boolean): void {
  const before = performance.now();
  const { time, value, source } = readWhole(reader, damaged, [777]);
  expect(performance.now() - before).toBeLessThan(LONGEST);
  const { lines, used, ignored, problems } = reader.lines;
  expect(used + ignored + problems).toBe(lines);
  expect(Math.min(used, ignored, problems)).toBeGreaterThanOrEqual(0);
  expect(value.every(Number.isFinite)).toBe(true);
  expect(source.every((index) => reader.sources[index] !== undefined)).toBe(true);
  expect(time.every((one, row) => row === 0 || !(one < time[row - 1]!))).toBe(true);
  if (!isBounded) return;
  const bounds = source.map((index) => QUANTITY_BOUNDS[reader.sources[index]!.quantity]);
  expect(value.every((one, row) => one >= bounds[row]!.least && one <= bounds[row]!.greatest)).toBe(true);
}
