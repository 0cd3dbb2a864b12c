import type { Seconds } from "../units.ts";

/** A stretch of time: its start, s since 1970 UTC, and its length. */
export interface Stretch {
  readonly start: Seconds;
  readonly seconds: Seconds;
}

/** A silence of this length parts two days: wind, current and shear are then another day's. */
export const NIGHT: Seconds = 4 * 3600;

export const endOf = ({ start, seconds }: Stretch): Seconds => start + seconds;

/** From one time to another. */
export const stretchTo = (start: Seconds, end: Seconds): Stretch => ({ start, seconds: end - start });

const inOrder = (stretches: readonly Stretch[]): readonly Stretch[] =>
  [...stretches].sort((one, other) => one.start - other.start);

/** What holes leave of a stretch, in the order of time. Never throws. */
export function outside(whole: Stretch, holes: readonly Stretch[]): readonly Stretch[] {
  const left: Stretch[] = [];
  let from = whole.start;
  for (const hole of inOrder(holes)) {
    if (endOf(hole) <= from || hole.start >= endOf(whole)) continue;
    if (hole.start > from) left.push(stretchTo(from, hole.start));
    from = endOf(hole);
  }
  if (from < endOf(whole) || from === whole.start) left.push(stretchTo(from, endOf(whole)));
  return left;
}

/** Stretches that overlap, or are no further apart than told, made one; in the order of time. Never throws. */
export function together(stretches: readonly Stretch[], apart: Seconds = 0): readonly Stretch[] {
  const found: Stretch[] = [];
  for (const one of inOrder(stretches)) {
    const last = found.at(-1);
    if (last === undefined || one.start - endOf(last) > apart) found.push(one);
    else found[found.length - 1] = stretchTo(last.start, Math.max(endOf(last), endOf(one)));
  }
  return found;
}

/** What lies between stretches, from such a length on, in the order of time. Never throws. */
export function between(stretches: readonly Stretch[], shortest: Seconds): readonly Stretch[] {
  const heard = together(stretches);
  return heard
    .slice(1)
    .map((next, place) => stretchTo(endOf(heard[place]!), next.start))
    .filter(({ seconds }) => seconds >= shortest);
}

const MOST_KEPT = 1000;

/** Keeps the thousand longest of any number of stretches. */
export class LongestStretches {
  #kept: Stretch[] = [];

  add(start: Seconds, seconds: Seconds): void {
    this.#kept.push({ start, seconds });
    if (this.#kept.length >= 2 * MOST_KEPT) this.#trim();
  }

  /** Those longer than some length, in the order of time. */
  longerThan(seconds: Seconds): readonly Stretch[] {
    this.#trim();
    return this.#kept.filter((stretch) => stretch.seconds > seconds).sort((a, b) => a.start - b.start);
  }

  #trim(): void {
    this.#kept = this.#kept.sort((a, b) => b.seconds - a.seconds).slice(0, MOST_KEPT);
  }
}

/** Length of all the stretches together. */
export const totalSeconds = (stretches: readonly Stretch[]): Seconds =>
  stretches.reduce((sum, { seconds }) => sum + seconds, 0);
