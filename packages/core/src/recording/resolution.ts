/** Decimal steps that are tried, coarse first: tens, fives, ones, halves, tenths and so on, of each unit. */
const STEPS = [10, 5, 1, 0.5, 0.1, 0.05, 0.01, 0.001, 0.0001, 0.00001] as const;

/** The share of readings that must be multiples of a step; the rest may be noise or another sensor's. */
const MOST = 0.99;

/** How far off a whole multiple may be, for the rounding of unit conversions: at all, and for each of the multiple. */
const ROUNDING = { whole: 1e-6, each: 1e-12 } as const;

/** Fewer readings, or fewer different ones, tell no resolution. */
const FEWEST = 20;
const FEWEST_CHANGES = 3;

/** So many readings tell the step; looking at more would only take time. */
const ENOUGH = 5000;

/** How many readings were multiples of each step, of how many that came and that differed from the one before. */
export interface StepCount {
  readonly readings: number;
  readonly changes: number;
  readonly multiples: Float64Array;
}

/** Finds the step in which a sensor's readings come. */
export class Resolution {
  readonly #steps: readonly number[];
  readonly #multiples: Float64Array;
  #count = 0;
  #changes = 0;
  #last = Number.NaN;

  /** @param units in which readings may have been written, in SI */
  constructor(units: readonly number[]) {
    this.#steps = units.flatMap((unit) => STEPS.map((step) => step * unit)).sort((a, b) => b - a);
    this.#multiples = new Float64Array(this.#steps.length);
  }

  add(value: number): void {
    if (this.#count >= ENOUGH) return;
    this.#count++;
    if (value !== this.#last) this.#changes++;
    this.#last = value;
    for (let index = 0; index < this.#steps.length; index++) {
      const quotient = value / this.#steps[index]!;
      if (Math.abs(quotient - Math.round(quotient)) < ROUNDING.whole + ROUNDING.each * Math.abs(quotient))
        this.#multiples[index] = this.#multiples[index]! + 1;
    }
  }

  get steps(): StepCount {
    return { readings: this.#count, changes: this.#changes, multiples: this.#multiples };
  }

  /** Takes up what was counted elsewhere, with the same units. */
  take({ readings, changes, multiples }: StepCount): void {
    this.#count += readings;
    this.#changes += changes;
    for (let index = 0; index < multiples.length; index++)
      this.#multiples[index] = this.#multiples[index]! + multiples[index]!;
  }

  /** The coarsest step of which nearly all readings are multiples, in SI; NaN where none is, or few readings came. */
  get step(): number {
    if (this.#count < FEWEST || this.#changes < FEWEST_CHANGES) return Number.NaN;
    const index = this.#multiples.findIndex((multiples) => multiples >= MOST * this.#count);
    return index < 0 ? Number.NaN : this.#steps[index]!;
  }
}
