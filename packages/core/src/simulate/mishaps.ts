import type { Seconds } from "../units.ts";
import type { RandomNumbers } from "./random.ts";

const HOUR: Seconds = 3600;
const LEAST_SILENCE: Seconds = 3;
const LONGEST_SILENCE: Seconds = 45;

/** Silences of a sensor, each some seconds to most of a minute. */
export class Silences {
  readonly #perSecond: number;
  readonly #random: RandomNumbers;
  #until = Number.NEGATIVE_INFINITY;

  constructor(perHour: number, random: RandomNumbers) {
    this.#perSecond = perHour / HOUR;
    this.#random = random;
  }

  /** To be asked once a second. */
  holdsAt(seconds: Seconds): boolean {
    if (this.#random.chance(this.#perSecond))
      this.#until = seconds + this.#random.between(LEAST_SILENCE, LONGEST_SILENCE);
    return seconds < this.#until;
  }
}

/** Single readings far from what is so: speeds doubled, and angles turned by up to 90°. */
export class Spikes {
  readonly #probability: number;
  readonly #random: RandomNumbers;

  /** @param rate readings a second */
  constructor(perHour: number, rate: number, random: RandomNumbers) {
    this.#probability = perHour / HOUR / rate;
    this.#random = random;
  }

  angle(value: number): number {
    const strikes = this.#random.chance(this.#probability);
    return strikes ? value + this.#random.between(-Math.PI / 2, Math.PI / 2) : value;
  }

  speed(value: number): number {
    const strikes = this.#random.chance(this.#probability);
    return strikes ? value * this.#random.between(0, 3) : value;
  }
}
