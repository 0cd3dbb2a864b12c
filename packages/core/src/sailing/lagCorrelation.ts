import type { Seconds } from "../units.ts";

/** Lags are looked for up to this far either way: a filtered course over ground was seen 8 s behind the compass. */
export const LONGEST_LAG: Seconds = 12;
const SPAN = 2 * LONGEST_LAG + 1;

/** Moving seconds and correlation without which a lag is not believed. Judgement. */
const LEAST_SECONDS = 40;
const LEAST_CORRELATION = 0.5;

/** How far one channel is behind another, and how well that is known. */
export interface Lag {
  /** How long after the other channel it shows the same event; NaN where that cannot be found. */
  readonly seconds: Seconds;
  /** Highest correlation of the two rates of change, 0 to 1; NaN where there was nothing to correlate. */
  readonly correlation: number;
  /** Seconds of quick change that it rests on. */
  readonly moving: number;
}

/** M36. Rates of change of two channels that move together, correlated at every whole lag. */
export class LagCorrelation {
  readonly #products = new Float64Array(SPAN);
  readonly #squares = new Float64Array(SPAN);
  readonly #references = new Float64Array(SPAN);
  readonly #anySign: boolean;
  #moving = 0;

  /** @param anySign whether the two may move together or opposite, as with a sensor whose sign is unknown */
  constructor(anySign: boolean) {
    this.#anySign = anySign;
  }

  /** Adds a rate of the reference, and the other's rates from LONGEST_LAG before it on. Never throws. */
  add(reference: number, other: (lag: number) => number): void {
    for (let index = 0; index < SPAN; index++) {
      const rate = other(index - LONGEST_LAG);
      if (Number.isNaN(rate)) continue;
      this.#products[index]! += reference * rate;
      this.#squares[index]! += rate * rate;
      this.#references[index]! += reference * reference;
    }
    this.#moving += 1;
  }

  /** The lag of highest correlation, refined by the parabola through it and its neighbours. Never throws. */
  lag(): Lag {
    const correlations = this.#products.map((product, index) => {
      const correlation = product / Math.sqrt(this.#squares[index]! * this.#references[index]!);
      return this.#anySign ? Math.abs(correlation) : correlation;
    });
    let best = 0;
    for (let index = 1; index < SPAN; index++) if (correlations[index]! > correlations[best]!) best = index;
    const [before = Number.NaN, peak, after = Number.NaN] = [-1, 0, 1].map(
      (step) => correlations[best + step],
    );
    const refined = best - LONGEST_LAG + (before - after) / (2 * (before - 2 * peak! + after));
    const believed = this.#moving >= LEAST_SECONDS && peak! >= LEAST_CORRELATION;
    return { seconds: believed ? refined : Number.NaN, correlation: peak!, moving: this.#moving };
  }
}
