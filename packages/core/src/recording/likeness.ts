/** Two sources are one if they agree in so many changes of value, and in this share of them. */
const FEWEST = 20;
const MOST = 0.9;

/** How often two sources were compared, and agreed. */
export interface LikenessCount {
  readonly compared: number;
  readonly same: number;
}

/** Counts how often a source's changes of value agree with what another source told last. */
export class Likeness {
  #compared = 0;
  #same = 0;

  get count(): LikenessCount {
    return { compared: this.#compared, same: this.#same };
  }

  /** Takes up what was counted elsewhere. */
  take({ compared, same }: LikenessCount): void {
    this.#compared += compared;
    this.#same += same;
  }

  add(isSame: boolean): void {
    this.#compared++;
    if (isSame) this.#same++;
  }

  /** The share that agreed; NaN without any comparison. */
  get share(): number {
    return this.#same / this.#compared;
  }

  get isCopy(): boolean {
    return this.#compared >= FEWEST && this.share >= MOST;
  }
}
