import { type Degrees, type Radians, type RadiansPerSecond, radians, type Seconds } from "../units.ts";
import type { Turn } from "./legRow.ts";
import type { SecondsWindow, Track } from "./secondsWindow.ts";
import { directionFrom, kindOfTurn, LOOKED_FOR_WITHIN, rateOfTurn, windAngleFrom } from "./turns.ts";

const degreesPerSecond = (rate: Degrees): RadiansPerSecond => radians(rate) / 1;

/**
 * A turn opens above the first rate and lasts while above the second. The wind angle swings by itself, so where only
 * it can tell, more is asked of it.
 */
const RATES: Readonly<Record<Track, { open: RadiansPerSecond; keep: RadiansPerSecond }>> = {
  heading: { open: degreesPerSecond(1.5), keep: degreesPerSecond(0.7) },
  course: { open: degreesPerSecond(1.7), keep: degreesPerSecond(0.8) },
  wind: { open: degreesPerSecond(3), keep: degreesPerSecond(1.2) },
};

/** A pause within a turn that does not end it. */
const PAUSE: Seconds = 4;

/** How much of the seconds after it a turning needs when it is looked at. */
export const TURN_FORESIGHT: Seconds = LOOKED_FOR_WITHIN + PAUSE + 1;

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
   * Looks at one more second, which the window must hold with the TURN_FORESIGHT after it, while there are any.
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
        direction: this.#directionBefore(track, start),
        awa: windAngleFrom(this.#window, start - 1, -1),
      },
      change: Number.NaN,
      ended: false,
      turn: undefined,
    });
  }

  /** Where the recording begins with the turn, it is the turn's first direction. */
  #directionBefore(track: Track, start: number): Radians {
    const direction = directionFrom(this.#window, track, start - 1, -1);
    return Number.isNaN(direction) ? directionFrom(this.#window, track, start, 1) : direction;
  }

  #finish(turning: Turning): Turning {
    const { start, end, track, before } = turning;
    turning.change = directionFrom(this.#window, track, end + 1, 1) - before.direction;
    turning.ended = true;
    const kind = kindOfTurn(turning.change, before.awa, windAngleFrom(this.#window, end + 1, 1));
    turning.turn = kind && { kind, start, end, change: turning.change };
    return turning;
  }
}
