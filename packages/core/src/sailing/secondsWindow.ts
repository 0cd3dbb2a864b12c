import { wrapAngle } from "../angles.ts";
import type { Seconds } from "../units.ts";
import { byChannel, CHANNELS, type Channel } from "./series.ts";

/** Seconds held at once; a power of two. */
export const WINDOW_LENGTH = 256;
const MASK = WINDOW_LENGTH - 1;

/** What can show a turn, the best first: compass, course over ground, apparent wind angle (which turns the other way). */
export const TRACKS = ["heading", "course", "wind"] as const;
export type Track = (typeof TRACKS)[number];

/** Course over ground says nothing of a boat that lies still. */
const SLOWEST_COURSE = 0.8;

/** Longest silence across which a track is carried on. */
const LONGEST_SILENCE: Seconds = 60;

/**
 * The last 256 seconds of a recording, and directions counted on through turns instead of jumping at north. Seconds are
 * numbered without holes; a second that the recording lacks is NaN.
 */
export class SecondsWindow {
  /** Numbers of the first and the last second held. */
  first = Number.NaN;
  last = Number.NaN;
  readonly #columns = byChannel(() => new Float64Array(WINDOW_LENGTH));
  readonly #overGround = new Float64Array(WINDOW_LENGTH);
  readonly #tracks: Readonly<Record<Track, Float64Array>> = {
    heading: new Float64Array(WINDOW_LENGTH),
    course: new Float64Array(WINDOW_LENGTH),
    wind: new Float64Array(WINDOW_LENGTH),
  };
  readonly #known: Record<Track, { second: number; value: number }> = {
    heading: { second: Number.NaN, value: 0 },
    course: { second: Number.NaN, value: 0 },
    wind: { second: Number.NaN, value: 0 },
  };

  /** Adds the second after the last; the first ever starts the count. Never throws. */
  push(second: number, value: (channel: Channel) => number): void {
    if (Number.isNaN(this.last)) this.first = second;
    this.last = second;
    this.first = Math.max(this.first, second - WINDOW_LENGTH + 1);
    const slot = second & MASK;
    for (const channel of CHANNELS) this.#columns[channel][slot] = value(channel);
    this.#extend("heading", second, value("heading"));
    const [east, north] = [value("east"), value("north")];
    const speed = Math.sqrt(east * east + north * north);
    this.#overGround[slot] = speed;
    this.#extend("course", second, speed > SLOWEST_COURSE ? Math.atan2(east, north) : Number.NaN);
    this.#extend("wind", second, -value("awa"));
  }

  /** The value of a channel; NaN outside the window. Never throws. */
  at(channel: Channel, second: number): number {
    return second >= this.first && second <= this.last ? this.#columns[channel][second & MASK]! : Number.NaN;
  }

  /** Direction (rad) counted on through turns, clockwise positive; NaN where unknown. Never throws. */
  track(track: Track, second: number): number {
    return second >= this.first && second <= this.last ? this.#tracks[track][second & MASK]! : Number.NaN;
  }

  /** Speed through water, or over ground where that is missing (m/s). Never throws. */
  speed(second: number): number {
    const through = this.at("stw", second);
    return Number.isNaN(through) ? this.speedOverGround(second) : through;
  }

  /** Speed over ground (m/s); NaN where missing. Never throws. */
  speedOverGround(second: number): number {
    return second >= this.first && second <= this.last ? this.#overGround[second & MASK]! : Number.NaN;
  }

  #extend(track: Track, second: number, direction: number): void {
    const known = this.#known[track];
    const column = this.#tracks[track];
    if (Number.isNaN(direction)) {
      column[second & MASK] = Number.NaN;
      return;
    }
    const carried = second - known.second <= LONGEST_SILENCE;
    known.value = carried ? known.value + wrapAngle(direction - known.value) : direction;
    known.second = second;
    column[second & MASK] = known.value;
  }
}
