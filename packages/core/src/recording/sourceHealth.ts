import { wrapAngle } from "../angles.ts";
import type { Seconds } from "../units.ts";
import { type HealthPart, SHORTEST_GAP } from "./healthPart.ts";
import type { QuantityTraits } from "./quantityTraits.ts";
import { Resolution } from "./resolution.ts";
import { LongestStretches, type Stretch, totalSeconds } from "./stretches.ts";

/** M34. In intervals as usual, a silence that is a gap. */
const INTERVALS_IN_A_GAP = 10;

/** A restless quantity with one value for longer than this, and in so many readings, is frozen. */
const SHORTEST_FREEZE: Seconds = 60;
const FEWEST_FROZEN = 20;

/** Neighbours further apart say nothing about a spike, or about a value that stayed. */
const MEMORY: Seconds = 10;

/** A change is judged over so long: over less, noise and rounding make rates of their own; over more, all changes are possible. */
const LEAP = { shortest: 1, longest: 2 } as const;

/** Bins of the logarithm of intervals, from a hundredth of a second on: twenty to a factor of ten, 12 % wide. */
const [SHORTEST_INTERVAL, BINS_IN_A_DECADE, BINS] = [0.01, 20, 120] as const;

/** Gathers the health of one source, reading by reading. Never throws. */
export class SourceHealth {
  readonly #traits: QuantityTraits;
  readonly #resolution: Resolution;
  readonly #intervals = new Float64Array(BINS);
  readonly #silences = new LongestStretches();
  readonly #frozen = new LongestStretches();
  #readings = 0;
  #untimed = 0;
  #start = Number.NaN;
  #end = Number.NaN;
  #lowest = Number.POSITIVE_INFINITY;
  #highest = Number.NEGATIVE_INFINITY;
  #zeroSeconds = 0;
  #spikes = 0;
  #leaps = 0;
  /** A reading, a second old or more, that the next one is compared with. */
  #reference = { time: Number.NaN, value: Number.NaN };
  /** The last two values, and since when and in how many readings the last one stayed. */
  #before = Number.NaN;
  #last = Number.NaN;
  #since = Number.NaN;
  #stayed = 0;

  constructor(traits: QuantityTraits) {
    this.#traits = traits;
    this.#resolution = new Resolution(traits.units);
  }

  add(time: Seconds, value: number): void {
    this.#readings++;
    this.#resolution.add(value);
    if (value < this.#lowest) this.#lowest = value;
    if (value > this.#highest) this.#highest = value;
    if (Number.isNaN(time)) this.#untimed++;
    else this.#addTimed(time, value);
  }

  /** What the log tells of it so far. */
  get part(): HealthPart {
    const span = Number.isNaN(this.#start) ? 0 : this.#end - this.#start;
    const gaps = this.#silences.longerThan(
      Math.max(SHORTEST_GAP, INTERVALS_IN_A_GAP * this.#usualInterval()),
    );
    const frozen = [...this.#frozen.longerThan(0), ...this.#freezeUpTo(this.#end)];
    return {
      readings: this.#readings,
      untimed: this.#untimed,
      start: this.#start,
      end: this.#end,
      intervals: Math.max(0, this.#readings - this.#untimed - 1 - gaps.length),
      heardSeconds: span - totalSeconds(gaps),
      gaps,
      frozen,
      zeroSeconds: this.#zeroSeconds,
      steps: this.#resolution.steps,
      lowest: this.#lowest,
      highest: this.#highest,
      spikes: this.#spikes,
      leaps: this.#leaps,
    };
  }

  #addTimed(time: Seconds, value: number): void {
    const interval = time - this.#end;
    if (Number.isNaN(this.#start)) this.#start = time;
    else this.#addInterval(interval);
    if (interval <= MEMORY) this.#addNeighbour(time, interval, value);
    else this.#forget(time, value);
    this.#end = time;
    if (this.#traits.fastest !== undefined) this.#addLeap(time, value, this.#traits.fastest);
  }

  #addLeap(time: Seconds, value: number, fastest: number): void {
    const { time: before, value: was } = this.#reference;
    const interval = time - before;
    if (interval < LEAP.shortest) return;
    if (interval <= LEAP.longest && this.#difference(value, was) > fastest * interval) this.#leaps++;
    this.#reference = { time, value };
  }

  #addInterval(interval: Seconds): void {
    if (interval > SHORTEST_GAP) this.#silences.add(this.#end, interval);
    const bin = Math.floor(Math.log10(interval / SHORTEST_INTERVAL) * BINS_IN_A_DECADE);
    const place = Math.min(BINS - 1, Math.max(0, Number.isNaN(bin) ? 0 : bin));
    this.#intervals[place] = this.#intervals[place]! + 1;
  }

  #addNeighbour(time: Seconds, interval: Seconds, value: number): void {
    const { spike } = this.#traits;
    const isSpike =
      this.#difference(this.#last, this.#before) > spike &&
      this.#difference(this.#last, value) > spike &&
      this.#difference(value, this.#before) <= spike / 2;
    if (isSpike) this.#spikes++;
    if (value === this.#last) {
      this.#stayed++;
      if (value === 0 && this.#traits.isRestless && !this.#traits.isAngle) this.#zeroSeconds += interval;
    } else {
      this.#endStay();
      this.#since = time;
      this.#stayed = 1;
    }
    this.#before = this.#last;
    this.#last = value;
  }

  /** Begins anew after a silence. */
  #forget(time: Seconds, value: number): void {
    this.#endStay();
    this.#before = Number.NaN;
    this.#last = value;
    this.#since = time;
    this.#stayed = 1;
  }

  /** Ends the time for which the last value stayed. */
  #endStay(): void {
    for (const { start, seconds } of this.#freezeUpTo(this.#end)) this.#frozen.add(start, seconds);
  }

  /** The stretch for which the last value has stayed up to a time, if that is a freeze. */
  #freezeUpTo(end: Seconds): readonly Stretch[] {
    const { isRestless, isAngle } = this.#traits;
    const seconds = end - this.#since;
    const isStill = this.#last === 0 && !isAngle;
    const isFrozen = seconds > SHORTEST_FREEZE && this.#stayed >= FEWEST_FROZEN && isRestless && !isStill;
    return isFrozen ? [{ start: this.#since, seconds }] : [];
  }

  #difference(one: number, other: number): number {
    return Math.abs(this.#traits.isAngle ? wrapAngle(one - other) : one - other);
  }

  /** The median of the intervals, to the width of a bin; 0 without any. */
  #usualInterval(): Seconds {
    const total = this.#intervals.reduce((sum, count) => sum + count, 0);
    let below = 0;
    for (let bin = 0; bin < BINS; bin++) {
      below += this.#intervals[bin]!;
      if (2 * below >= total && total > 0) return SHORTEST_INTERVAL * 10 ** ((bin + 0.5) / BINS_IN_A_DECADE);
    }
    return 0;
  }
}
