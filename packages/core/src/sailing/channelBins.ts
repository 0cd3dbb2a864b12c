import { wrapAngle } from "../angles.ts";
import type { Seconds } from "../units.ts";

/** Seconds of one channel that are held at once; a power of two. */
const HELD = 64;

/** Readings further apart than this are not joined: what happened between is unknown. */
export const LONGEST_BRIDGE: Seconds = 5;

/**
 * M35. One channel's readings averaged within each second, angles as vectors; seconds without a reading are bridged
 * by the straight line between neighbours at most 5 s apart (angles the short way). Holds the last 64 seconds only.
 */
export class ChannelBins {
  readonly #isAngle: boolean;
  readonly #second = new Float64Array(HELD).fill(Number.NaN);
  readonly #count = new Float64Array(HELD);
  /** Sums of the value, or of sine and cosine for an angle. */
  readonly #sum = new Float64Array(HELD);
  readonly #cosines = new Float64Array(HELD);
  /** Sums of t, t², x and t·x for the rate within the second, x counted from the second's first reading. */
  readonly #moments = new Float64Array(HELD * 4);
  readonly #first = new Float64Array(HELD);

  constructor(isAngle: boolean) {
    this.#isAngle = isAngle;
  }

  /** Adds a reading to its second. Never throws. */
  add(time: Seconds, value: number): void {
    const second = Math.floor(time);
    const slot = second & (HELD - 1);
    if (this.#second[slot] !== second) this.#open(slot, second, value);
    this.#count[slot]! += 1;
    if (this.#isAngle) {
      this.#sum[slot]! += Math.sin(value);
      this.#cosines[slot]! += Math.cos(value);
    } else this.#sum[slot]! += value;
    const elapsed = time - second;
    const rise = this.#isAngle ? wrapAngle(value - this.#first[slot]!) : value - this.#first[slot]!;
    this.#moments[4 * slot]! += elapsed;
    this.#moments[4 * slot + 1]! += elapsed * elapsed;
    this.#moments[4 * slot + 2]! += rise;
    this.#moments[4 * slot + 3]! += elapsed * rise;
  }

  #open(slot: number, second: number, value: number): void {
    this.#second[slot] = second;
    this.#count[slot] = 0;
    this.#sum[slot] = 0;
    this.#cosines[slot] = 0;
    this.#first[slot] = value;
    this.#moments.fill(0, 4 * slot, 4 * slot + 4);
  }

  /** Mean of the readings within a second; NaN without any. Never throws. */
  mean(second: number): number {
    const slot = second & (HELD - 1);
    if (this.#second[slot] !== second) return Number.NaN;
    if (this.#isAngle) return Math.atan2(this.#sum[slot]!, this.#cosines[slot]!);
    return this.#sum[slot]! / this.#count[slot]!;
  }

  /** Mean within a second, or the value on the line between its neighbours; NaN in a longer gap. Never throws. */
  bridged(second: number): number {
    const here = this.mean(second);
    if (!Number.isNaN(here)) return here;
    for (let before = 1; before < LONGEST_BRIDGE; before++) {
      const left = this.mean(second - before);
      if (Number.isNaN(left)) continue;
      for (let after = 1; before + after <= LONGEST_BRIDGE; after++) {
        const right = this.mean(second + after);
        if (Number.isNaN(right)) continue;
        const rise = this.#isAngle ? wrapAngle(right - left) : right - left;
        return left + (rise * before) / (before + after);
      }
      return Number.NaN;
    }
    return Number.NaN;
  }

  /** Slope of the readings within a second by least squares, per s; NaN with fewer than two times. Never throws. */
  rate(second: number): number {
    const slot = second & (HELD - 1);
    const count = this.#count[slot]!;
    if (this.#second[slot] !== second || count < 2) return Number.NaN;
    const [time, squares, rise, product] = this.#moments.subarray(4 * slot, 4 * slot + 4);
    const spread = squares! - (time! * time!) / count;
    return spread > 1e-6 ? (product! - (time! * rise!) / count) / spread : Number.NaN;
  }
}
