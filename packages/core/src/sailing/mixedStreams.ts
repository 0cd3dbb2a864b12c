import { wrapAngle } from "../angles.ts";
import type { QuantityName, Readings, Source } from "../recording/readings.ts";
import { metresPerSecond, radians, type Seconds } from "../units.ts";
import type { Trouble, WatchedChannel } from "./trouble.ts";

/** Quantities whose sensors may come in pairs under one name, with how far apart two of them must be to matter. */
const WATCHED_QUANTITIES: Readonly<
  Partial<Record<QuantityName, { channel: WatchedChannel; isAngle: boolean; apart: number }>>
> = {
  apparentWindAngle: { channel: "awa", isAngle: true, apart: radians(2) },
  apparentWindSpeed: { channel: "aws", isAngle: false, apart: metresPerSecond(0.5) },
  speedThroughWater: { channel: "stw", isAngle: false, apart: metresPerSecond(0.2) },
  headingMagnetic: { channel: "heading", isAngle: true, apart: radians(2) },
  headingTrue: { channel: "heading", isAngle: true, apart: radians(2) },
};

/** Readings are judged by the minute; fewer of them tell nothing. */
const WINDOW: Seconds = 60;
const FEWEST = 30;

/** Standard errors from which on the two are apart; waves that happen to alternate with the readings fall out of step within the minute. */
const STANDS_OUT = 8;

/** Minutes in a row without which it is chance, and minutes of pause within a spell. */
const [FEWEST_MINUTES, PAUSE] = [2, 3] as const;

/** A minute in which two sensors were told apart, and by how much. */
interface MixedMinute {
  readonly minute: number;
  readonly apart: number;
}

/** What one log holds of sources in which two sensors talk: plain values that add up over the logs of a season. */
export type MixedPart = readonly { readonly source: Source; readonly minutes: readonly MixedMinute[] }[];

/** One source's minute. */
class Alternation {
  readonly #wrap: (difference: number) => number;
  readonly #apart: number;
  readonly minutes: MixedMinute[] = [];
  #minute = Number.NaN;
  #last = Number.NaN;
  #sign = 1;
  #count = 0;
  #sum = 0;
  #squares = 0;

  constructor({ isAngle, apart }: NonNullable<(typeof WATCHED_QUANTITIES)[QuantityName]>) {
    this.#wrap = isAngle ? wrapAngle : (difference) => difference;
    this.#apart = apart;
  }

  add(time: Seconds, value: number): void {
    const minute = Math.floor(time / WINDOW);
    if (minute !== this.#minute) this.#begin(minute);
    else {
      const step = this.#sign * this.#wrap(value - this.#last);
      this.#sign = -this.#sign;
      this.#count += 1;
      this.#sum += step;
      this.#squares += step * step;
    }
    this.#last = value;
  }

  #begin(minute: number): void {
    this.close();
    this.#minute = minute;
    this.#sign = 1;
    this.#count = this.#sum = this.#squares = 0;
  }

  /** Judges the minute that is open. */
  close(): void {
    const apart = Math.abs(this.#sum) / this.#count;
    const error = Math.sqrt((this.#squares / this.#count - apart ** 2) / this.#count);
    if (this.#count >= FEWEST && apart >= this.#apart && apart > STANDS_OUT * error)
      this.minutes.push({ minute: this.#minute, apart });
    this.#count = 0;
  }
}

/**
 * M96. Watches each source for two sensors that talk in turn under one name: the steps from each reading to the next, every
 * other one with its sign changed, have a mean that stands far out of its error. Never throws.
 */
export class MixedStreams {
  readonly #watched = new Map<number, { readonly source: Source; readonly alternation: Alternation }>();

  /** @param sources of the recording, as far as they are known */
  add({ length, time, source, value }: Readings, sources: readonly Source[]): void {
    for (let index = 0; index < length; index++) {
      if (Number.isNaN(time[index]!)) continue;
      const place = source[index]!;
      const traits = WATCHED_QUANTITIES[sources[place]!.quantity];
      if (traits === undefined) continue;
      let watched = this.#watched.get(place);
      if (watched === undefined) {
        watched = { source: sources[place]!, alternation: new Alternation(traits) };
        this.#watched.set(place, watched);
      }
      watched.alternation.add(time[index]!, value[index]!);
    }
  }

  /** Ends the log: the minutes in which two sensors talked, by source. */
  finish(): MixedPart {
    return [...this.#watched.values()].map(({ source, alternation }) => {
      alternation.close();
      return { source, minutes: alternation.minutes };
    });
  }
}

/**
 * M96. Spells in which two sensors talked under one name, of some sources, over the logs of a recording.
 *
 * @param chosen the sources that were chosen
 * @returns never throws
 */
export function mixedTroubles(parts: readonly MixedPart[], chosen: readonly Source[]): readonly Trouble[] {
  return chosen.flatMap(({ quantity, name }) => {
    const traits = WATCHED_QUANTITIES[quantity];
    const minutes = parts
      .flat()
      .filter(({ source }) => source.quantity === quantity && source.name === name)
      .flatMap((one) => one.minutes);
    return traits === undefined ? [] : spellsOf(traits.channel, minutes);
  });
}

function spellsOf(channel: WatchedChannel, minutes: readonly MixedMinute[]): readonly Trouble[] {
  const sorted = [...minutes].sort((one, other) => one.minute - other.minute);
  const starts = sorted.flatMap(({ minute }, place) =>
    place === 0 || minute - sorted[place - 1]!.minute > PAUSE ? [place] : [],
  );
  return starts.flatMap((from, index) => {
    const spell = sorted.slice(from, starts[index + 1] ?? sorted.length);
    if (spell.length < FEWEST_MINUTES) return [];
    // what came before the first full minute, or after the last, may be mixed too
    const [start, end] = [(spell[0]!.minute - 1) * WINDOW, (spell.at(-1)!.minute + 2) * WINDOW];
    const size = spell.reduce((sum, { apart }) => sum + apart, 0) / spell.length;
    return [{ kind: "mixed", channel, start, end, size, remedy: "rows left out" }];
  });
}
