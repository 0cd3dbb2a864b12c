import type { Seconds } from "../units.ts";
import type { RandomNumbers } from "./random.ts";

/** Something that moves on by one step of time each time it is asked. */
export type Process = () => number;

/**
 * M71. An Ornstein-Uhlenbeck process in steps of time, exact at the steps: x becomes φ x + s √(1 − φ²) z, φ = e^(−step/τ).
 * It starts where it may be found at any time.
 *
 * @param sd its standard deviation s
 * @param timeScale τ, s, over which it forgets
 * @param step s
 * @see D. T. Gillespie, 1996: Exact Numerical Simulation of the Ornstein-Uhlenbeck Process, Physical Review E 54
 */
export function ornsteinUhlenbeck(
  sd: number,
  timeScale: Seconds,
  step: Seconds,
  { normal }: RandomNumbers,
): Process {
  const kept = Math.exp(-step / timeScale);
  const added = sd * Math.sqrt(1 - kept * kept);
  let value = sd * normal();
  return () => {
    value = kept * value + added * normal();
    return value;
  };
}

/** What passes through a first-order low pass in steps of time, from its first value on; a time scale of 0 passes all. */
export class LowPass {
  readonly #share: number;
  #value = Number.NaN;

  constructor(timeScale: Seconds, step: Seconds) {
    this.#share = timeScale > 0 ? 1 - Math.exp(-step / timeScale) : 1;
  }

  get value(): number {
    return this.#value;
  }

  push(value: number): number {
    if (Number.isNaN(this.#value)) this.#value = value;
    else this.#value += this.#share * (value - this.#value);
    return this.#value;
  }
}

/** A low pass of an angle, by its sine and cosine. */
export class AngleLowPass {
  readonly #sine: LowPass;
  readonly #cosine: LowPass;

  constructor(timeScale: Seconds, step: Seconds) {
    this.#sine = new LowPass(timeScale, step);
    this.#cosine = new LowPass(timeScale, step);
  }

  push(angle: number): number {
    return Math.atan2(this.#sine.push(Math.sin(angle)), this.#cosine.push(Math.cos(angle)));
  }
}

/**
 * M73. A damped swing that waves keep going: x″ = ω² (rest − x) − 2 ζ ω x′ + white noise, in steps of time, velocity first.
 * The noise is such that the swing about a rest that stands still has the standard deviation asked for, within some percent.
 */
export class Swing {
  readonly #step: Seconds;
  readonly #stiffness: number;
  readonly #drag: number;
  readonly #push: number;
  readonly #random: RandomNumbers;
  value = 0;
  rate = 0;

  /** @param damping ζ, the share of critical damping */
  constructor(sd: number, frequency: number, damping: number, step: Seconds, random: RandomNumbers) {
    const omega = 2 * Math.PI * frequency;
    this.#step = step;
    this.#stiffness = omega * omega;
    this.#drag = 2 * damping * omega;
    this.#push = sd * Math.sqrt(4 * damping * omega ** 3 * step);
    this.#random = random;
  }

  /** Moves on by one step towards where it would come to rest. */
  push(rest: number): void {
    const pull = this.#stiffness * (rest - this.value) - this.#drag * this.rate;
    this.rate += pull * this.#step + this.#push * this.#random.normal();
    this.value += this.rate * this.#step;
  }
}
