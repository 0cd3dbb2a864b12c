import type { Seconds } from "../units.ts";
import { AngleLowPass, LowPass } from "./processes.ts";
import type { RandomNumbers } from "./random.ts";
import type { SensorForm } from "./scenario.ts";

/** M73. One value on its way from a sensor: with noise, late, and smoothed. */
export class SensorLine {
  readonly #waiting: Float64Array;
  #place = 0;
  readonly #noise: number;
  readonly #random: RandomNumbers;
  readonly #damping: LowPass | AngleLowPass;
  readonly #isAngle: boolean;
  #isFirst = true;

  /** @param noise standard deviation, a step of time; speeds that read 0, where nothing turns, have none */
  constructor(form: SensorForm, noise: number, isAngle: boolean, step: Seconds, random: RandomNumbers) {
    this.#waiting = new Float64Array(Math.round(form.lag / step) + 1);
    this.#noise = noise;
    this.#random = random;
    this.#isAngle = isAngle;
    this.#damping = isAngle ? new AngleLowPass(form.damping, step) : new LowPass(form.damping, step);
  }

  /** Takes what the sensor reads and returns what is put out. */
  push(reading: number): number {
    const noise = this.#noise * this.#random.normal();
    const noisy = this.#isAngle ? reading + noise : reading === 0 ? 0 : reading + noise;
    if (this.#isFirst) this.#waiting.fill(noisy);
    this.#isFirst = false;
    this.#waiting[this.#place] = noisy;
    this.#place = (this.#place + 1) % this.#waiting.length;
    return this.#damping.push(this.#waiting[this.#place]!);
  }
}
