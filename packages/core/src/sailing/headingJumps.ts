import { wrapAngle } from "../angles.ts";
import { type MetresPerSecond, type Radians, radians, type Seconds } from "../units.ts";
import type { Channel } from "./series.ts";
import type { StraySecond } from "./straySeconds.ts";
import type { Trouble } from "./trouble.ts";

/** A jump of the heading that no boat makes: at a second, by an angle. */
export interface HeadingJump {
  readonly second: Seconds;
  readonly by: Radians;
  /** Whether a course over ground was there, against which M95 can look for the rest. */
  readonly besideCourse: boolean;
}

/** So far within two seconds is a jump, if she neither turned before nor goes on to turn by more than the second. */
const [JUMP, STILL]: readonly [Radians, Radians] = [radians(25), radians(8)];

/** In a true turn wind angle and course turn as the heading does; here less than this share of it. */
const SHARE = 1 / 3;

/** Seconds before and after that are looked at: others follow later, by what is left of their lags. */
const [BEFORE, AFTER] = [4, 6] as const;

/** Below this a course over ground is noise. */
const SLOWEST_COURSE: MetresPerSecond = 0.8;

/** A power of two above what is looked at. */
const HELD = 16;
const MASK = HELD - 1;

/** Jumps kept: a compass that jumps more often is worth nothing. */
const MOST_KEPT = 1000;

/** M90. Watches the heading, second by second, for rates of turn that no boat has. */
export class HeadingJumps {
  readonly #second = new Float64Array(HELD).fill(Number.NaN);
  readonly #heading = new Float64Array(HELD);
  readonly #awa = new Float64Array(HELD);
  readonly #course = new Float64Array(HELD);
  readonly #jumps: HeadingJump[] = [];

  /** Takes the values of the next second as they came from the instruments. Never throws. */
  push(second: Seconds, value: (channel: Channel) => number): void {
    const slot = second & MASK;
    const [east, north] = [value("east"), value("north")];
    this.#second[slot] = second;
    this.#heading[slot] = value("heading");
    this.#awa[slot] = value("awa");
    this.#course[slot] =
      Math.sqrt(east * east + north * north) > SLOWEST_COURSE ? Math.atan2(east, north) : Number.NaN;
    this.#look(second - AFTER);
  }

  /** Ends the recording. Never throws. */
  finish(): readonly HeadingJump[] {
    return this.#jumps;
  }

  /** Change of a column between two seconds, NaN where one of them is not known. */
  #change(column: Float64Array, from: Seconds, to: Seconds): Radians {
    const [before, after] = [from & MASK, to & MASK];
    const isKnown = this.#second[before] === from && this.#second[after] === to;
    return isKnown ? wrapAngle(column[after]! - column[before]!) : Number.NaN;
  }

  #look(second: Seconds): void {
    const turned = (at: Seconds): Radians => Math.abs(this.#change(this.#heading, at - 1, at + 1));
    const here = turned(second);
    if (!(here >= JUMP) || turned(second - 1) >= here || turned(second + 1) > here) return;
    const wasStill = Math.abs(this.#change(this.#heading, second - BEFORE, second - 2)) < STILL;
    const isStill = Math.abs(this.#change(this.#heading, second + 2, second + 4)) < STILL;
    const by = this.#change(this.#heading, second - 2, second + 2);
    const others = [this.#awa, this.#course]
      .map((column) => Math.abs(this.#change(column, second - BEFORE, second + AFTER)))
      .filter((change) => !Number.isNaN(change));
    const stayed = others.length > 0 && others.every((change) => change < SHARE * Math.abs(by));
    if (!(wasStill && isStill && stayed && this.#jumps.length < MOST_KEPT)) return;
    this.#jumps.push({ second, by, besideCourse: !Number.isNaN(this.#course[second & MASK]!) });
  }
}

/** A jump takes the one before back, to so much, within so long. */
const [BACK, LONGEST]: readonly [Radians, Seconds] = [radians(12), 3600];

/** Shorter spells are bursts. */
const SHORTEST: Seconds = 30;

/** A spell for which the compass read otherwise, by so much. */
interface Spell {
  readonly start: Seconds;
  readonly end: Seconds;
  readonly by: Radians;
}

/** Jumps to and fro that belong together: each takes the one before back. */
function chainsOf(jumps: readonly HeadingJump[]): readonly (readonly HeadingJump[])[] {
  const chains: HeadingJump[][] = [];
  for (const jump of jumps) {
    const last = chains.at(-1)?.at(-1);
    const takesBack =
      last !== undefined &&
      jump.second - last.second <= LONGEST &&
      Math.abs(wrapAngle(last.by + jump.by)) <= BACK;
    if (takesBack) chains.at(-1)!.push(jump);
    else chains.push([jump]);
  }
  return chains;
}

/** Spells between every other jump of a chain and the next, from one on. */
const spellsFrom = (chain: readonly HeadingJump[], from: number): readonly Spell[] =>
  chain
    .slice(from, -1)
    .flatMap(({ second, by }, place) =>
      place % 2 === 0 ? [{ start: second, end: chain[from + place + 1]!.second + 1, by }] : [],
    );

const lasting = (spells: readonly Spell[]): Seconds =>
  spells.reduce((sum, { start, end }) => sum + end - start, 0);

/** The spells of a chain: the shorter of both readings of it, since a compass is right most of the time. */
function spellsOf(chain: readonly HeadingJump[], start: Seconds, end: Seconds): readonly Spell[] {
  const [{ second, by, besideCourse }] = chain as readonly [HeadingJump];
  if (chain.length === 1 && besideCourse) return [];
  if (chain.length === 1)
    return second - start < end - second
      ? [{ start, end: second + 1, by: -by }]
      : [{ start: second, end, by }];
  const [one, other] = [spellsFrom(chain, 0), spellsFrom(chain, 1)];
  const shorter = chain.length > 2 && lasting(other) < lasting(one) ? other : one;
  return 2 * lasting(shorter) < end - start ? shorter : [];
}

/** What jumps tell: spells for which a compass was thrown, and seconds of bursts. */
export interface ThrownCompass {
  readonly troubles: readonly Trouble[];
  readonly strays: readonly StraySecond[];
}

/**
 * M90. Spells between a jump of the heading and the one that takes it back; of a jump that none takes back the shorter
 * side, unless M95 can tell it better.
 *
 * @param jumps of one piece of a recording, in the order of time
 * @param start of the piece, s since 1970
 * @param end likewise
 * @returns nothing where there are no jumps. Never throws.
 */
export function thrownCompass(jumps: readonly HeadingJump[], start: Seconds, end: Seconds): ThrownCompass {
  const spells = chainsOf(jumps).flatMap((chain) => spellsOf(chain, start, end));
  const isLong = (spell: Spell): boolean => spell.end - spell.start >= SHORTEST;
  return {
    troubles: spells.filter(isLong).map(({ by, ...span }) => ({
      kind: "turned",
      channel: "heading",
      ...span,
      size: by,
      remedy: "rows left out",
    })),
    strays: spells
      .filter((spell) => !isLong(spell))
      .flatMap((spell) =>
        Array.from(
          { length: spell.end - spell.start },
          (_, place): StraySecond => ({
            channel: "heading",
            second: spell.start + place,
          }),
        ),
      ),
  };
}
