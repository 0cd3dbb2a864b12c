import { wrapAngle } from "../angles.ts";
import type { MetresPerSecond, Seconds } from "../units.ts";
import type { Channel } from "./series.ts";
import { countStay, type StayLengths, stayLengths } from "./stayHabit.ts";
import { WATCHED, type WatchedChannel } from "./trouble.ts";

/** Shorter stays are not looked at, and are the habit of many a sensor. */
const SHORTEST: Seconds = 30;

/** Seconds of silence that end a stay. */
const SILENCE: Seconds = 5;

/** Means and straight lines between equal readings differ by the last bits only. */
const SAME = 1e-9;

/** Seconds before a stay whose means are kept, but for the last few, in which a damped value still came to rest. */
const [BEFORE, REST] = [60, 15] as const;

/** Seconds of the speeds that are held: the minute before a stay, until the stay is long enough to be looked at. */
const HELD = 128;

/** Stays kept, the longest first, so that memory does not grow with the recording. */
const MOST_KEPT = 2000;

/** What the other sensors did meanwhile. */
const COMPANIONS = ["awa", "aws", "stw", "heading", "course", "over ground", "load"] as const;
export type Companion = (typeof COMPANIONS)[number];

/** A value that stayed. */
export interface Stay {
  readonly channel: WatchedChannel;
  readonly start: Seconds;
  readonly end: Seconds;
  readonly value: number;
  /** How far the other sensors ranged meanwhile; NaN where they are silent. */
  readonly range: Readonly<Record<Companion, number>>;
  /** Means meanwhile and in the minute before: speed over ground, through the water, apparent wind speed. */
  readonly meanwhile: Readonly<Record<Speed, MetresPerSecond>>;
  readonly before: Readonly<Record<Speed, MetresPerSecond>>;
}

const SPEEDS = ["over ground", "stw", "aws"] as const;
type Speed = (typeof SPEEDS)[number];

const IS_DIRECTION: Readonly<Record<Companion, boolean>> = {
  awa: true,
  aws: false,
  stw: false,
  heading: true,
  course: true,
  "over ground": false,
  load: false,
};

/** What is known of the other sensors in a second. */
type Instant = Record<Companion, number>;

const instant = (): Instant => ({
  awa: Number.NaN,
  aws: Number.NaN,
  stw: Number.NaN,
  heading: Number.NaN,
  course: Number.NaN,
  "over ground": Number.NaN,
  load: Number.NaN,
});

/** Below this a course over ground is noise. */
const SLOWEST_COURSE: MetresPerSecond = 0.8;

/** One channel's open stay. */
class OpenStay {
  value = Number.NaN;
  start: Seconds = Number.NaN;
  readonly #first = instant();
  readonly #lowest = instant();
  readonly #highest = instant();
  readonly #sums: Record<Speed, number> = { "over ground": 0, stw: 0, aws: 0 };
  readonly #counts: Record<Speed, number> = { "over ground": 0, stw: 0, aws: 0 };
  /** Known once the stay is long. */
  before: Readonly<Record<Speed, MetresPerSecond>> | undefined;

  open(second: Seconds, value: number, now: Instant): void {
    this.value = value;
    this.start = second;
    this.before = undefined;
    for (const name of SPEEDS) this.#sums[name] = this.#counts[name] = 0;
    for (const name of COMPANIONS) this.#first[name] = this.#lowest[name] = this.#highest[name] = Number.NaN;
    this.add(now);
  }

  add(now: Instant): void {
    for (const name of SPEEDS) {
      if (Number.isNaN(now[name])) continue;
      this.#sums[name] += now[name];
      this.#counts[name] += 1;
    }
    for (const name of COMPANIONS) {
      const value = now[name];
      if (Number.isNaN(value)) continue;
      if (Number.isNaN(this.#first[name])) {
        this.#first[name] = value;
        this.#lowest[name] = 0;
        this.#highest[name] = 0;
        continue;
      }
      const rise = IS_DIRECTION[name] ? wrapAngle(value - this.#first[name]) : value - this.#first[name];
      if (rise < this.#lowest[name]) this.#lowest[name] = rise;
      if (rise > this.#highest[name]) this.#highest[name] = rise;
    }
  }

  /** The stay as it was, ending before a second. */
  closed(channel: WatchedChannel, end: Seconds, before: Stay["before"]): Stay {
    const range = instant();
    for (const name of COMPANIONS) range[name] = this.#highest[name] - this.#lowest[name];
    const mean = (name: Speed): number => this.#sums[name] / this.#counts[name];
    return {
      channel,
      start: this.start,
      end,
      value: this.value,
      range,
      meanwhile: { "over ground": mean("over ground"), stw: mean("stw"), aws: mean("aws") },
      before,
    };
  }
}

/** What was watched in one recording, or one piece of it: stays that were long, and how long stays usually are. */
export interface WatchedStays {
  readonly stays: readonly Stay[];
  readonly lengths: Readonly<Record<WatchedChannel, StayLengths>>;
}

const byWatched = <Value>(value: () => Value): Record<WatchedChannel, Value> => ({
  awa: value(),
  aws: value(),
  stw: value(),
  heading: value(),
  heel: value(),
});

/** M90. Watches the channels, second by second, for values that stay while the boat moves. */
export class StaysWatch {
  readonly #open = byWatched(() => new OpenStay());
  readonly #lengths = byWatched(stayLengths);
  #stays: Stay[] = [];
  #second: Seconds = Number.NaN;
  readonly #now = instant();
  /** The last minute of the speeds. */
  readonly #recent = new Float64Array(SPEEDS.length * HELD).fill(Number.NaN);

  /** Takes the values of the next second as they came from the instruments. Never throws. */
  push(second: Seconds, value: (channel: Channel) => number): void {
    if (second - this.#second > SILENCE) this.#endAll();
    this.#look(value);
    for (const channel of WATCHED) {
      const open = this.#open[channel];
      const here = value(channel);
      if (Math.abs(here - open.value) <= SAME) {
        open.add(this.#now);
        if (open.before === undefined && second + 1 - open.start >= SHORTEST)
          open.before = this.#before(open.start);
      } else {
        this.#end(channel);
        if (!Number.isNaN(here)) open.open(second, here, this.#now);
      }
    }
    SPEEDS.forEach((name, place) => {
      this.#recent[place * HELD + (second & (HELD - 1))] = this.#now[name];
    });
    this.#second = second;
  }

  /** Ends the recording. Never throws. */
  finish(): WatchedStays {
    this.#endAll();
    return { stays: this.#stays, lengths: this.#lengths };
  }

  #look(value: (channel: Channel) => number): void {
    const now = this.#now;
    const [east, north] = [value("east"), value("north")];
    now.awa = value("awa");
    now.aws = value("aws");
    now.stw = value("stw");
    now.heading = value("heading");
    now["over ground"] = Math.sqrt(east * east + north * north);
    now.course = now["over ground"] > SLOWEST_COURSE ? Math.atan2(east, north) : Number.NaN;
    now.load = now.aws * now.aws * Math.sin(now.awa);
  }

  /** Means of the speeds over the minute before a second, its last seconds left out. */
  #before(second: Seconds): Stay["before"] {
    const mean = (place: number): number => {
      let [sum, count] = [0, 0];
      for (let back = REST; back < BEFORE; back++) {
        const value = this.#recent[place * HELD + ((second - back) & (HELD - 1))]!;
        if (Number.isNaN(value)) continue;
        sum += value;
        count += 1;
      }
      return sum / count;
    };
    return { "over ground": mean(0), stw: mean(1), aws: mean(2) };
  }

  #endAll(): void {
    for (const channel of WATCHED) this.#end(channel);
    this.#recent.fill(Number.NaN);
  }

  #end(channel: WatchedChannel): void {
    const open = this.#open[channel];
    if (Number.isNaN(open.value)) return;
    const seconds = this.#second + 1 - open.start;
    countStay(this.#lengths[channel], seconds);
    if (seconds >= SHORTEST)
      this.#keep(open.closed(channel, this.#second + 1, open.before ?? this.#before(open.start)));
    open.value = Number.NaN;
  }

  #keep(stay: Stay): void {
    this.#stays.push(stay);
    if (this.#stays.length < 2 * MOST_KEPT) return;
    this.#stays = this.#stays.sort((a, b) => b.end - b.start - (a.end - a.start)).slice(0, MOST_KEPT);
  }
}
