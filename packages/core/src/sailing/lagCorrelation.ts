import type { Seconds } from "../units.ts";

/** Lags are looked for up to this far either way: a filtered course over ground was seen 8 s behind the compass. */
export const LONGEST_LAG: Seconds = 12;
const SPAN = 2 * LONGEST_LAG + 1;

/** Correlation without which a lag is not believed. Judgement. */
const LEAST_CORRELATION = 0.5;

/**
 * By chance the correlation of n independent turns has a standard deviation near 1/√n, and the highest of some independent
 * lags lies at one or two of them: so much, times √n, is asked for.
 */
const LEAST_DEVIATIONS = 2.5;

/** Quick changes further apart than this are two turns. */
const SAME_TURN: Seconds = 15;

/** How far one channel is behind another, and how well that is known. */
export interface Lag {
  /** How long after the other channel it shows the same event; NaN where that cannot be found. */
  readonly seconds: Seconds;
  /** Highest correlation of the two rates of change, 0 to 1; NaN where there was nothing to correlate. */
  readonly correlation: number;
  /** How many quick changes it rests on. */
  readonly turns: number;
}

/** What one log tells of a lag: plain values that add up over the logs of a season. */
export interface LagSums {
  readonly products: Float64Array;
  readonly squares: Float64Array;
  readonly references: Float64Array;
  readonly turns: number;
}

/** M36. Rates of change of two channels that move together, correlated at every whole lag. */
export class LagCorrelation {
  readonly #products = new Float64Array(SPAN);
  readonly #squares = new Float64Array(SPAN);
  readonly #references = new Float64Array(SPAN);
  readonly #anySign: boolean;
  #turns = 0;
  #lastMoving = Number.NEGATIVE_INFINITY;

  /** @param anySign whether the two may move together or opposite, as with a sensor whose sign is unknown */
  constructor(anySign: boolean) {
    this.#anySign = anySign;
  }

  /** Adds a second's rate of the reference, and the other's rates from LONGEST_LAG before it on. Never throws. */
  add(second: number, reference: number, other: (lag: number) => number): void {
    for (let index = 0; index < SPAN; index++) {
      const rate = other(index - LONGEST_LAG);
      if (Number.isNaN(rate)) continue;
      this.#products[index]! += reference * rate;
      this.#squares[index]! += rate * rate;
      this.#references[index]! += reference * reference;
    }
    if (second - this.#lastMoving > SAME_TURN) this.#turns += 1;
    this.#lastMoving = second;
  }

  get sums(): LagSums {
    return {
      products: this.#products,
      squares: this.#squares,
      references: this.#references,
      turns: this.#turns,
    };
  }

  /** Takes up what was summed elsewhere. Never throws. */
  take({ products, squares, references, turns }: LagSums): void {
    for (let index = 0; index < SPAN; index++) {
      this.#products[index]! += products[index]!;
      this.#squares[index]! += squares[index]!;
      this.#references[index]! += references[index]!;
    }
    this.#turns += turns;
  }

  /** Whether the two move against each other, as believably as a lag would be, and nowhere together. Never throws. */
  get isOpposite(): boolean {
    const known = this.#correlations().filter((correlation) => !Number.isNaN(correlation));
    return this.#isBelieved(-Math.min(...known)) && !this.#isBelieved(Math.max(...known));
  }

  #correlations(): Float64Array {
    return this.#products.map(
      (product, index) => product / Math.sqrt(this.#squares[index]! * this.#references[index]!),
    );
  }

  #isBelieved(correlation: number): boolean {
    return correlation >= LEAST_CORRELATION && correlation * Math.sqrt(this.#turns) >= LEAST_DEVIATIONS;
  }

  /** The lag of highest correlation, refined by the parabola through it and its neighbours. Never throws. */
  lag(): Lag {
    const correlations = this.#correlations().map((correlation) =>
      this.#anySign ? Math.abs(correlation) : correlation,
    );
    let best = 0;
    for (let index = 1; index < SPAN; index++) if (correlations[index]! > correlations[best]!) best = index;
    const [before = Number.NaN, peak, after = Number.NaN] = [-1, 0, 1].map(
      (step) => correlations[best + step],
    );
    const refined = best - LONGEST_LAG + (before - after) / (2 * (before - 2 * peak! + after));
    return {
      seconds: this.#isBelieved(peak!) ? refined : Number.NaN,
      correlation: peak!,
      turns: this.#turns,
    };
  }
}
