import type { Seconds } from "../units.ts";
import type { Random } from "./random.ts";

/**
 * M71. A quantity that wanders about 0 with a standard deviation and a time scale: x ← x e^(−Δt/τ) + sd √(1 − e^(−2Δt/τ)) n, n
 * standard normal; in the long run its autocovariance is sd² e^(−|t|/τ).
 *
 * @see G. E. Uhlenbeck, L. S. Ornstein, 1930: On the Theory of the Brownian Motion, Physical Review 36, 823–841
 */
export class Wander {
  value: number;
  readonly #keep: number;
  readonly #kick: number;
  readonly #random: Random;

  constructor(sd: number, scale: Seconds, step: Seconds, random: Random) {
    this.#keep = Math.exp(-step / scale);
    this.#kick = sd * Math.sqrt(1 - this.#keep * this.#keep);
    this.#random = random;
    this.value = sd * random.normal();
  }

  /** Goes on by a step. */
  advance(): number {
    this.value = this.value * this.#keep + this.#kick * this.#random.normal();
    return this.value;
  }
}

/** How many of its periods a boat's roll remembers: a choice, wide enough to look like waves. */
const PERIODS_KEPT = 2;

/**
 * M72. A quantity that swings about 0 with a period, as a boat does in waves: M71 for a complex number that turns once a
 * period, of which this is the real part.
 */
export class Swing {
  value = 0;
  /** Change of the value per second. */
  rate = 0;
  #other = 0;
  readonly #random: Random;
  readonly #kick: number;
  readonly #keep: number;
  readonly #cosine: number;
  readonly #sine: number;
  readonly #damping: number;
  readonly #turn: number;

  constructor(sd: number, period: Seconds, step: Seconds, random: Random) {
    const scale = PERIODS_KEPT * period;
    this.#damping = 1 / scale;
    this.#turn = (2 * Math.PI) / period;
    this.#keep = Math.exp(-step / scale);
    this.#kick = sd * Math.sqrt(1 - this.#keep * this.#keep);
    this.#cosine = Math.cos(this.#turn * step);
    this.#sine = Math.sin(this.#turn * step);
    this.#random = random;
    this.value = sd * random.normal();
    this.#other = sd * random.normal();
  }

  /** Goes on by a step. */
  advance(): void {
    const { value } = this;
    const kept = this.#keep * (this.#cosine * value - this.#sine * this.#other);
    const other = this.#keep * (this.#sine * value + this.#cosine * this.#other);
    this.value = kept + this.#kick * this.#random.normal();
    this.#other = other + this.#kick * this.#random.normal();
    this.rate = -this.#damping * this.value - this.#turn * this.#other;
  }
}
