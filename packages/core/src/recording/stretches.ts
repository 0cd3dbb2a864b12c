import type { Seconds } from "../units.ts";

/** A stretch of time: its start, s since 1970 UTC, and its length. */
export interface Stretch {
  readonly start: Seconds;
  readonly seconds: Seconds;
}

const MOST_KEPT = 1000;

/** Keeps the thousand longest of any number of stretches. */
export class LongestStretches {
  #kept: Stretch[] = [];

  add(start: Seconds, seconds: Seconds): void {
    this.#kept.push({ start, seconds });
    if (this.#kept.length >= 2 * MOST_KEPT) this.#trim();
  }

  /** Those longer than some length, in the order of time. */
  longerThan(seconds: Seconds): readonly Stretch[] {
    this.#trim();
    return this.#kept.filter((stretch) => stretch.seconds > seconds).sort((a, b) => a.start - b.start);
  }

  #trim(): void {
    this.#kept = this.#kept.sort((a, b) => b.seconds - a.seconds).slice(0, MOST_KEPT);
  }
}

/** Length of all the stretches together. */
export const totalSeconds = (stretches: readonly Stretch[]): Seconds =>
  stretches.reduce((sum, { seconds }) => sum + seconds, 0);
