import { wrapAngle } from "../angles.ts";
import { QUANTITY_TRAITS } from "../recording/quantityTraits.ts";
import type { QuantityName, Readings, Source } from "../recording/readings.ts";
import type { Seconds } from "../units.ts";
import { type Lag, LagCorrelation, type LagSums, LONGEST_LAG } from "./lagCorrelation.ts";

/** Quantities of which a boat may have several sensors that are worth comparing. */
const COMPARED: ReadonlySet<QuantityName> = new Set<QuantityName>([
  "apparentWindAngle",
  "apparentWindSpeed",
  "speedThroughWater",
  "headingMagnetic",
  "headingTrue",
  "heel",
  "pitch",
  "courseOverGround",
  "speedOverGround",
]);

/** Sources of one quantity that are compared; what lies beyond is noise that passed for names. */
const MOST_SOURCES = 6;

/** Seconds held; a power of two above twice the longest lag. */
const HELD = 32;
const MASK = HELD - 1;

/** Only quick changes tell a lag: this share of what is a spike, in a second. */
const QUICK = 1 / 16;

/** What one log tells of two sources of one quantity: plain values that add up over the logs of a season. */
export interface PairPart {
  readonly quantity: QuantityName;
  readonly names: readonly [string, string];
  /** Seconds in which both told something; sum and sum of squares of the second less the first. */
  readonly count: number;
  readonly sum: number;
  readonly squares: number;
  /** Likewise of the changes of that difference from one second to the next. */
  readonly steps: number;
  readonly stepSquares: number;
  readonly lag: LagSums;
}

/** Two sources of one quantity compared. */
export interface SourcePair {
  readonly quantity: QuantityName;
  readonly names: readonly [string, string];
  /** Seconds in which both told something. */
  readonly seconds: Seconds;
  /** Mean of the second source less the first, SI. */
  readonly bias: number;
  /** Standard deviation of that difference, SI. */
  readonly spread: number;
  /** That part of it which is new every second: the noise of both together, SI; NaN without seconds in a row. */
  readonly noise: number;
  /** How far the second is behind the first. */
  readonly lag: Lag;
  /** Whether the second turns one way where the first turns the other: one of them has port and starboard swapped. */
  readonly isOpposite: boolean;
}

/** One source, second by second. */
interface Watched {
  readonly source: Source;
  readonly isAngle: boolean;
  readonly means: Float64Array;
  readonly rates: Float64Array;
  first: number;
  sum: number;
  count: number;
}

interface Pair {
  readonly one: Watched;
  readonly other: Watched;
  readonly quick: number;
  readonly lag: LagCorrelation;
  count: number;
  sum: number;
  squares: number;
  steps: number;
  stepSquares: number;
  last: number;
}

const difference = ({ isAngle }: Watched, value: number, from: number): number =>
  isAngle ? wrapAngle(value - from) : value - from;

/**
 * M161. Compares the sources of a quantity second by second, from readings as they come: means within the second, their differences,
 * and how far one is behind the other (M36). Never throws.
 */
export class SourcePairs {
  readonly #watched: (Watched | undefined)[] = [];
  readonly #pairs: Pair[] = [];
  #second = Number.NaN;

  /** @param sources of the log, as far as they are known */
  add({ length, time, source, value }: Readings, sources: readonly Source[]): void {
    for (let place = this.#watched.length; place < sources.length; place++) this.#watch(sources[place]!);
    if (this.#pairs.length === 0) return;
    for (let row = 0; row < length; row++) {
      const watched = this.#watched[source[row]!];
      const now = time[row]!;
      if (watched === undefined || Number.isNaN(now)) continue;
      const second = Math.floor(now);
      if (second !== this.#second) this.#begin(second);
      if (watched.count === 0) watched.first = value[row]!;
      watched.sum += difference(watched, value[row]!, watched.first);
      watched.count += 1;
    }
  }

  /** Ends the log. */
  finish(): readonly PairPart[] {
    this.#close();
    return this.#pairs
      .filter(({ count }) => count > 0)
      .map(({ one, other, count, sum, squares, steps, stepSquares, lag }) => ({
        quantity: one.source.quantity,
        names: [one.source.name, other.source.name],
        count,
        sum,
        squares,
        steps,
        stepSquares,
        lag: lag.sums,
      }));
  }

  #watch(source: Source): void {
    if (!COMPARED.has(source.quantity)) {
      this.#watched.push(undefined);
      return;
    }
    const { isAngle, spike } = QUANTITY_TRAITS[source.quantity];
    const empty = () => new Float64Array(HELD).fill(Number.NaN);
    const watched: Watched = {
      source,
      isAngle,
      means: empty(),
      rates: empty(),
      first: 0,
      sum: 0,
      count: 0,
    };
    const rivals = this.#watched.filter((one) => one?.source.quantity === source.quantity);
    this.#watched.push(rivals.length < MOST_SOURCES ? watched : undefined);
    if (rivals.length >= MOST_SOURCES) return;
    for (const one of rivals)
      this.#pairs.push({
        one: one!,
        other: watched,
        quick: QUICK * spike,
        lag: new LagCorrelation(false),
        count: 0,
        sum: 0,
        squares: 0,
        steps: 0,
        stepSquares: 0,
        last: Number.NaN,
      });
  }

  /** Begins a second; the seconds that nobody told anything in are empty. */
  #begin(second: Seconds): void {
    this.#close();
    const silent = second - this.#second - 1;
    if (silent > 0 || Number.isNaN(silent))
      for (let hole = 0; hole < Math.min(silent, HELD); hole++) {
        this.#second += 1;
        this.#close();
      }
    this.#second = second;
  }

  /** Ends the second that is open: its means are known, the rates of the one before, and lags of LONGEST_LAG earlier. */
  #close(): void {
    const now = this.#second;
    if (Number.isNaN(now)) return;
    for (const watched of this.#watched) {
      if (watched === undefined) continue;
      const { first, sum, count, means, rates } = watched;
      means[now & MASK] = count > 0 ? first + sum / count : Number.NaN;
      const change = difference(watched, means[now & MASK]!, means[(now - 2) & MASK]!);
      rates[(now - 1) & MASK] = change / 2;
      watched.sum = watched.count = 0;
    }
    for (const pair of this.#pairs) {
      this.#compare(pair, now);
      this.#correlate(pair, now - 1 - LONGEST_LAG);
    }
  }

  #compare(pair: Pair, now: Seconds): void {
    const apart = difference(pair.one, pair.other.means[now & MASK]!, pair.one.means[now & MASK]!);
    const step = difference(pair.one, apart, pair.last);
    pair.last = apart;
    if (!Number.isNaN(step)) {
      pair.steps += 1;
      pair.stepSquares += step * step;
    }
    if (Number.isNaN(apart)) return;
    pair.count += 1;
    pair.sum += apart;
    pair.squares += apart * apart;
  }

  #correlate({ one, other, quick, lag }: Pair, at: Seconds): void {
    const rate = one.rates[at & MASK]!;
    if (Math.abs(rate) > quick) lag.add(at, rate, (seconds) => other.rates[(at + seconds) & MASK]!);
  }
}

/**
 * M161. Sources of one quantity compared, over the logs of a recording.
 *
 * @returns in the order in which the pairs turned up. Never throws.
 */
export function sourcePairs(parts: readonly (readonly PairPart[])[]): readonly SourcePair[] {
  const byNames = new Map<string, PairPart[]>();
  for (const part of parts.flat()) {
    const key = JSON.stringify([part.quantity, part.names]);
    byNames.set(key, [...(byNames.get(key) ?? []), part]);
  }
  return [...byNames.values()].map((of) => {
    const sum = (value: (part: PairPart) => number): number =>
      of.reduce((total, part) => total + value(part), 0);
    const lag = new LagCorrelation(false);
    for (const part of of) lag.take(part.lag);
    const count = sum((part) => part.count);
    const bias = sum((part) => part.sum) / count;
    const steps = sum((part) => part.steps);
    return {
      quantity: of[0]!.quantity,
      names: of[0]!.names,
      seconds: count,
      bias,
      spread: Math.sqrt(Math.max(0, sum((part) => part.squares) / count - bias ** 2)),
      noise: steps > 0 ? Math.sqrt(sum((part) => part.stepSquares) / steps / 2) : Number.NaN,
      lag: lag.lag(),
      isOpposite: lag.isOpposite,
    };
  });
}
