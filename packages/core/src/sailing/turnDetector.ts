import { type Degrees, type Radians, type RadiansPerSecond, radians, type Seconds } from "../units.ts";
import type { Turn } from "./legRow.ts";
import { type SecondsWindow, TRACKS, type Track } from "./secondsWindow.ts";

/** Half the width of the line whose slope is the rate of turn. */
export const RATE_REACH: Seconds = 5;

const degreesPerSecond = (rate: Degrees): RadiansPerSecond => radians(rate) / 1;

/**
 * A turn opens above the first rate and lasts while above the second. The wind angle swings by itself, so where only
 * it can tell, more is asked of it.
 */
const RATES: Readonly<Record<Track, { open: RadiansPerSecond; keep: RadiansPerSecond }>> = {
  heading: { open: degreesPerSecond(1.5), keep: degreesPerSecond(0.7) },
  course: { open: degreesPerSecond(1.7), keep: degreesPerSecond(0.8) },
  wind: { open: degreesPerSecond(4), keep: degreesPerSecond(1.5) },
};

/** A pause within a turn that does not end it. */
const PAUSE: Seconds = 4;

/** Course changes from here on count as turns; less does where the wind changes sides. */
const TURN: Radians = radians(30);
const SMALLEST_TURN: Radians = radians(12);

/** Beyond this the boat has gone round, and where the wind was before and after does not say which way it passed. */
const WHIRL: Radians = radians(300);

/** Wind angles nearer to the bow or the stern tell no side. */
const NO_SIDE: Radians = radians(6);

/** How long before and after a turn headings and wind angles are averaged. */
const BEFORE_AND_AFTER: Seconds = 8;

/** Turning seconds in one direction: a turn if it goes far enough, else a wobble. */
export interface Turning {
  readonly start: number;
  /** The last turning second; of an open one, so far. */
  end: number;
  readonly direction: 1 | -1;
  readonly track: Track;
  /** Direction on the track and wind angle before it. */
  readonly before: { readonly direction: Radians; readonly awa: Radians };
  /** Change of direction (rad), clockwise positive; NaN until it has ended. */
  change: Radians;
  ended: boolean;
  /** What the turn was; undefined for a wobble and until it has ended. */
  turn: Turn | undefined;
}

/** M37. Slope of the unwrapped direction over a second ± 5 s by least squares (rad/s), with the track it came from. */
export function rateOfTurn(window: SecondsWindow, second: number): { rate: RadiansPerSecond; track: Track } {
  for (const track of TRACKS) {
    let [count, time, squares, rise, product] = [0, 0, 0, 0, 0];
    for (let offset = -RATE_REACH; offset <= RATE_REACH; offset++) {
      const direction = window.track(track, second + offset);
      if (Number.isNaN(direction)) continue;
      count += 1;
      time += offset;
      squares += offset * offset;
      rise += direction;
      product += offset * direction;
    }
    if (count > RATE_REACH)
      return { rate: (product - (time * rise) / count) / (squares - (time * time) / count), track };
  }
  return { rate: Number.NaN, track: "heading" };
}

/** Mean of a track over some seconds; NaN without any. */
function meanTrack(window: SecondsWindow, track: Track, from: number, to: number): Radians {
  let [sum, count] = [0, 0];
  for (let second = from; second <= to; second++) {
    const direction = window.track(track, second);
    if (Number.isNaN(direction)) continue;
    sum += direction;
    count += 1;
  }
  return sum / count;
}

/** Direction of the mean wind angle vector over some seconds; NaN without any. */
export function meanWindAngle(window: SecondsWindow, from: number, to: number): Radians {
  let [sine, cosine, count] = [0, 0, 0];
  for (let second = from; second <= to; second++) {
    const angle = window.at("awa", second);
    if (Number.isNaN(angle)) continue;
    sine += Math.sin(angle);
    cosine += Math.cos(angle);
    count += 1;
  }
  return count > 0 ? Math.atan2(sine, cosine) : Number.NaN;
}

const hasSide = (angle: Radians): boolean =>
  Math.abs(angle) >= NO_SIDE && Math.abs(angle) <= Math.PI - NO_SIDE;

/**
 * M37. Finds the turns of a boat in the seconds as they come. A tack takes the wind from one side to the other across the
 * bow, a gybe across the stern: a turn towards the side that the wind came from leads through the bow.
 */
export class TurnDetector {
  /** Turnings that are still of interest, in time order; the last may be open. */
  readonly turnings: Turning[] = [];
  readonly #window: SecondsWindow;

  constructor(window: SecondsWindow) {
    this.#window = window;
  }

  /**
   * Looks at one more second, which the window must hold with the 5 s after it; at the end of a turning with 10 s.
   * @returns the turning that ended there, if one did. Never throws.
   */
  advance(second: number): Turning | undefined {
    const { rate, track } = rateOfTurn(this.#window, second);
    const open = this.#open();
    if (open === undefined) {
      if (Math.abs(rate) >= RATES[track].open) this.#begin(second, rate, track);
      return undefined;
    }
    if (rate * open.direction >= RATES[track].keep) {
      open.end = second;
      return undefined;
    }
    if (second - open.end <= PAUSE) return undefined;
    return this.#finish(open);
  }

  /** Ends an open turning where the recording ends. Never throws. */
  finish(): Turning | undefined {
    const open = this.#open();
    return open === undefined ? undefined : this.#finish(open);
  }

  /** Forgets turnings that ended before a second. Never throws. */
  forget(before: number): void {
    while (this.turnings.length > 1 && this.turnings[0]!.ended && this.turnings[0]!.end < before)
      this.turnings.shift();
  }

  #open(): Turning | undefined {
    const last = this.turnings.at(-1);
    return last === undefined || last.ended ? undefined : last;
  }

  #begin(second: number, rate: RadiansPerSecond, track: Track): void {
    const direction = rate > 0 ? 1 : -1;
    const floor = Math.max(this.turnings.at(-1)?.end ?? Number.NEGATIVE_INFINITY, second - 20);
    let start = second;
    while (start - 1 > floor && rateOfTurn(this.#window, start - 1).rate * direction >= RATES[track].keep)
      start -= 1;
    this.turnings.push({
      start,
      end: second,
      direction,
      track,
      before: {
        direction: this.#directionBy(track, start, start - BEFORE_AND_AFTER, start - 1),
        awa: meanWindAngle(this.#window, start - BEFORE_AND_AFTER, start - 1),
      },
      change: Number.NaN,
      ended: false,
      turn: undefined,
    });
  }

  #finish(turning: Turning): Turning {
    const { end, track } = turning;
    const after = this.#directionBy(track, end, end + 1, end + BEFORE_AND_AFTER);
    turning.change = after - turning.before.direction;
    turning.ended = true;
    turning.turn = this.#turnOf(turning);
    return turning;
  }

  /** Mean direction over some seconds, or that of the nearest second of the turning where the recording has none. */
  #directionBy(track: Track, nearest: number, from: number, to: number): Radians {
    const mean = meanTrack(this.#window, track, from, to);
    return Number.isNaN(mean) ? meanTrack(this.#window, track, nearest, nearest) : mean;
  }

  #turnOf({ start, end, change, before: { awa: before } }: Turning): Turn | undefined {
    const after = meanWindAngle(this.#window, end + 1, end + BEFORE_AND_AFTER);
    const sidesChange = hasSide(before) && hasSide(after) && before * after < 0 && Math.abs(change) < WHIRL;
    if (sidesChange && Math.abs(change) >= SMALLEST_TURN)
      return { kind: before * change > 0 ? "tack" : "gybe", start, end, change };
    return Math.abs(change) >= TURN ? { kind: "other", start, end, change } : undefined;
  }
}
