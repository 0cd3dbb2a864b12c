import { wrapAngle } from "../angles.ts";
import type { Seconds } from "../units.ts";

/** Readings that a suspect is compared with, and how old the last of them may be. */
const WINDOW = 5;
const MEMORY: Seconds = 10;

/** Hampel's usual factor is 3; 5 since wind is gusty and a lost gust costs more than a kept spike. */
const DEVIATIONS = 5;
const NORMAL_SD_IN_MAD = 1.4826;

const difference = (value: number, from: number, isAngle: boolean): number =>
  isAngle ? wrapAngle(value - from) : value - from;

const middle = (values: Float64Array): number => values.sort()[(values.length - 1) >> 1]!;

/**
 * Lets the readings of one channel through but for lone spikes (M35): a reading that lies further from the median of
 * the five before it than `bound` and than 5 scaled median absolute deviations, where the next one is back again. A
 * reading that the next one confirms was a jump of the quantity itself, and passes.
 */
export class SpikeGate {
  /** Readings rejected so far. */
  rejected = 0;
  readonly #bound: number;
  readonly #isAngle: boolean;
  readonly #pass: (time: Seconds, value: number) => void;
  readonly #recent = new Float64Array(WINDOW);
  #seen = 0;
  #lastTime = Number.NaN;
  #suspectTime = Number.NaN;
  #suspect = Number.NaN;

  /**
   * @param bound smallest deviation that can be a spike, in the channel's unit; Infinity lets everything pass
   * @param isAngle whether differences go the short way round
   * @param pass is called with every accepted reading, in order
   */
  constructor(bound: number, isAngle: boolean, pass: (time: Seconds, value: number) => void) {
    this.#bound = bound;
    this.#isAngle = isAngle;
    this.#pass = pass;
  }

  /** Takes the next reading. Never throws. */
  push(time: Seconds, value: number): void {
    if (!Number.isNaN(this.#suspect)) this.#settle(value);
    if (this.#isSuspect(time, value)) {
      this.#suspectTime = time;
      this.#suspect = value;
    } else this.#accept(time, value);
  }

  /** Gives up a suspect older than `time` that no reading followed: it is rejected. Never throws. */
  expire(time: Seconds): void {
    if (this.#suspectTime < time) this.#reject();
  }

  #reject(): void {
    this.rejected += 1;
    this.#suspect = Number.NaN;
    this.#suspectTime = Number.NaN;
  }

  /** Decides about the suspect by the reading after it. */
  #settle(next: number): void {
    const away = Math.abs(difference(this.#suspect, next, this.#isAngle));
    const back = Math.abs(this.#deviation(next).value);
    if (away > this.#bound && back <= this.#bound / 2) {
      this.#reject();
      return;
    }
    const [time, value] = [this.#suspectTime, this.#suspect];
    this.#suspect = Number.NaN;
    this.#suspectTime = Number.NaN;
    this.#seen = 0;
    this.#accept(time, value);
  }

  #isSuspect(time: Seconds, value: number): boolean {
    if (this.#seen < WINDOW || time - this.#lastTime > MEMORY) return false;
    const last = this.#recent[(this.#seen - 1) % WINDOW]!;
    if (Math.abs(difference(value, last, this.#isAngle)) <= this.#bound) return false;
    const { value: deviation, scale } = this.#deviation(value);
    return Math.abs(deviation) > Math.max(this.#bound, DEVIATIONS * scale);
  }

  /** Deviation of a value from the median of the recent readings, and their scaled median absolute deviation. */
  #deviation(value: number): { value: number; scale: number } {
    const origin = this.#recent[0]!;
    const offsets = this.#recent.map((recent) => difference(recent, origin, this.#isAngle));
    const median = middle(offsets.slice());
    const scale = NORMAL_SD_IN_MAD * middle(offsets.map((offset) => Math.abs(offset - median)));
    return { value: difference(value, origin + median, this.#isAngle), scale };
  }

  #accept(time: Seconds, value: number): void {
    if (time - this.#lastTime > MEMORY) this.#seen = 0;
    this.#recent[this.#seen % WINDOW] = value;
    this.#seen += 1;
    this.#lastTime = time;
    this.#pass(time, value);
  }
}
