import type { Seconds } from "../units.ts";
import { decimal } from "./decimal.ts";
import type { LineStamp } from "./lineStamp.ts";

/** Stamps that go back below this count from line to line, not from a start. */
const LONGEST_STEP: Seconds = 2;

/**
 * Times at the head of lines that count seconds from some start, or from the line before: which of the two they do shows the first
 * one that is less than the one before it, near the start.
 */
export class ElapsedStamps {
  #last: Seconds = 0;
  #sum: Seconds = 0;
  #highest: Seconds = 0;
  #areSteps = false;

  /** The time that a number between two places tells; undefined where none stands there. Never throws. */
  read(bytes: Uint8Array, from: number, to: number): LineStamp | undefined {
    const told = decimal(bytes, from, to);
    if (Number.isNaN(told)) return undefined;
    this.#areSteps ||= told < this.#last && this.#highest < LONGEST_STEP;
    this.#sum = this.#areSteps ? this.#sum + told : told;
    this.#last = told;
    this.#highest = Math.max(this.#highest, told);
    return { kind: "elapsed", seconds: this.#sum };
  }
}
