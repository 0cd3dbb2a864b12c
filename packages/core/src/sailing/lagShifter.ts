import { wrapAngle, wrapDirection } from "../angles.ts";
import { LONGEST_LAG } from "./lagCorrelation.ts";
import type { Lagged, Lags } from "./lags.ts";
import { byChannel, CHANNELS, type Channel, type SecondsBlock } from "./series.ts";

/** Seconds held; a power of two above twice the longest lag that may be asked for. */
const HELD = 64;
const MASK = HELD - 1;
const FURTHEST = 2 * LONGEST_LAG;

/** The sensor whose lag a channel has. */
const SENSOR_OF: Readonly<Partial<Record<Channel, Lagged>>> = {
  awa: "wind",
  aws: "wind",
  stw: "speed",
  heel: "heel",
  pitch: "heel",
  heelRate: "heel",
  pitchRate: "heel",
  east: "course",
  north: "course",
};

const ANGLES: Readonly<Partial<Record<Channel, (angle: number) => number>>> = {
  awa: wrapAngle,
  heading: wrapDirection,
  heel: wrapAngle,
  pitch: wrapAngle,
};

/**
 * M36. Puts the channels of a recording in step: a channel that is behind by a lag is moved ahead by it, between whole seconds by
 * the straight line (angles the short way). Unknown lags (NaN) count as none. Holds the last 64 seconds only.
 *
 * @example
 * const none = { seconds: NaN, correlation: NaN, turns: 0 };
 * const shifter = new LagShifter({ wind: none, course: none, heel: none, speed: none });
 * shifter.push(block).length + shifter.finish().length === block.length // true
 */
export class LagShifter {
  readonly #lag: Readonly<Record<Channel, number>>;
  readonly #columns = byChannel(() => new Float64Array(HELD));
  readonly #time = new Float64Array(HELD).fill(Number.NaN);
  readonly #waiting: number[] = [];
  #headingIsTrue = false;

  /** @throws RangeError where a lag is longer than the shifter can hold */
  constructor(lags: Lags) {
    const lagOf = (channel: Channel): number => {
      const sensor = SENSOR_OF[channel];
      const lag = sensor === undefined ? 0 : lags[sensor].seconds;
      if (Math.abs(lag) > FURTHEST)
        throw new RangeError(`LagShifter: the lag of ${sensor} must be at most ${FURTHEST} s, got ${lag}`);
      return Number.isNaN(lag) ? 0 : lag;
    };
    this.#lag = byChannel(lagOf);
  }

  /** Takes the next block; returns the seconds that are ready. Never throws. */
  push(block: SecondsBlock): SecondsBlock {
    const ready: number[] = [];
    const shifted = byChannel((): number[] => []);
    this.#headingIsTrue = block.headingIsTrue;
    for (let index = 0; index < block.length; index++) {
      const second = block.time[index]!;
      this.#release(second - FURTHEST - 1, ready, shifted);
      const slot = second & MASK;
      this.#time[slot] = second;
      for (const channel of CHANNELS) this.#columns[channel][slot] = block.columns[channel][index]!;
      this.#waiting.push(second);
    }
    return this.#block(ready, shifted);
  }

  /** Ends the recording; returns what was left. Never throws. */
  finish(): SecondsBlock {
    const ready: number[] = [];
    const shifted = byChannel((): number[] => []);
    this.#release(Number.POSITIVE_INFINITY, ready, shifted);
    return this.#block(ready, shifted);
  }

  #release(upTo: number, ready: number[], shifted: Record<Channel, number[]>): void {
    while (this.#waiting.length > 0 && this.#waiting[0]! <= upTo) {
      const second = this.#waiting.shift()!;
      ready.push(second);
      for (const channel of CHANNELS) shifted[channel].push(this.#shifted(channel, second));
    }
  }

  #value(channel: Channel, second: number): number {
    const slot = second & MASK;
    return this.#time[slot] === second ? this.#columns[channel][slot]! : Number.NaN;
  }

  #shifted(channel: Channel, second: number): number {
    const at = second + this.#lag[channel];
    const before = Math.floor(at);
    const left = this.#value(channel, before);
    if (at === before) return left;
    const wrap = ANGLES[channel];
    const rise = this.#value(channel, before + 1) - left;
    const value = left + (at - before) * (wrap === undefined ? rise : wrapAngle(rise));
    return wrap === undefined ? value : wrap(value);
  }

  #block(ready: readonly number[], shifted: Record<Channel, number[]>): SecondsBlock {
    return {
      length: ready.length,
      time: Float64Array.from(ready),
      headingIsTrue: this.#headingIsTrue,
      columns: byChannel((channel) => Float64Array.from(shifted[channel])),
    };
  }
}
