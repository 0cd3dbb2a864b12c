import type { RandomNumbers } from "./random.ts";

/** Lines on a bad day: one in so many comes through cut, changed, or with rubbish before it. */
export class BrokenLines {
  readonly #probability: number;
  readonly #random: RandomNumbers;

  constructor(perHour: number, linesInASecond: number, random: RandomNumbers) {
    this.#probability = perHour / 3600 / linesInASecond;
    this.#random = random;
  }

  /** What comes through of a line. */
  *passing(line: string): Generator<string> {
    if (!this.#random.chance(this.#probability)) {
      yield line;
      return;
    }
    const place = Math.floor(this.#random.between(1, line.length - 1));
    if (this.#random.chance(0.4)) yield line.slice(0, place);
    else if (this.#random.chance(0.6))
      yield `${line.slice(0, place)}${line[place] === "7" ? "1" : "7"}${line.slice(place + 1)}`;
    else {
      yield "# instrument bus restarted";
      yield line;
    }
  }
}
