import type { QuantityName, Readings, Source } from "../recording/readings.ts";
import { type MetresPerSecond, radians, type Seconds } from "../units.ts";

/** Readings this far apart are of one moment. */
const SAME_MOMENT: Seconds = 2;

/** Slower than this the two winds hardly differ. */
const LEAST_SPEED: MetresPerSecond = 1.5;

/** Near the bow and near the stern both winds agree. */
const [NARROWEST, WIDEST] = [radians(20), radians(150)] as const;

/** Noise and damping part the two by less than this. */
const MARGIN = radians(5);

/** So many moments must tell, and so large a share of them the wrong way. */
const [FEWEST, MOST] = [300, 0.8] as const;

/** What one log tells of an apparent wind angle beside a true one: plain values that add up over the logs of a season. */
export interface WindOrderPart {
  /** Names of the sources of apparent and of true wind angle. */
  readonly apparent: string;
  readonly onboardTrue: string;
  readonly compared: number;
  /** Moments in which the apparent wind came from further aft than the true wind. */
  readonly wider: number;
}

/** Places of sources are below this. */
const MOST_PLACES = 1 << 16;

interface Counted {
  readonly apparent: string;
  readonly onboardTrue: string;
  compared: number;
  wider: number;
}

interface Told {
  readonly name: string;
  readonly time: Seconds;
  readonly value: number;
}

const SPEEDS: ReadonlySet<QuantityName> = new Set<QuantityName>(["speedThroughWater", "speedOverGround"]);

/**
 * M162. Watches whether the wind called apparent comes from further ahead than the one called true, as it must on a boat that moves
 * ahead: from readings as they come. Never throws.
 */
export class WindOrder {
  readonly #true = new Map<number, Told>();
  /** By the places of both sources. */
  readonly #counts = new Map<number, Counted>();
  #speed = { time: Number.NaN, value: 0 };

  /** @param sources of the log, as far as they are known */
  add({ length, time, source, value }: Readings, sources: readonly Source[]): void {
    for (let row = 0; row < length; row++) {
      const { quantity, name } = sources[source[row]!]!;
      const [now, reading] = [time[row]!, value[row]!];
      if (quantity === "onboardTrueWindAngle")
        this.#true.set(source[row]!, { name, time: now, value: reading });
      else if (SPEEDS.has(quantity)) this.#speed = { time: now, value: reading };
      else if (quantity === "apparentWindAngle" && this.#true.size > 0)
        this.#compare(name, source[row]!, now, reading);
    }
  }

  /** Ends the log. */
  finish(): readonly WindOrderPart[] {
    return [...this.#counts.values()];
  }

  #compare(apparent: string, place: number, now: Seconds, angle: number): void {
    const moves = now - this.#speed.time <= SAME_MOMENT && this.#speed.value > LEAST_SPEED;
    const size = Math.abs(angle);
    if (!moves || size < NARROWEST || size > WIDEST) return;
    for (const [other, { name, time, value }] of this.#true) {
      if (!(now - time <= SAME_MOMENT) || Math.abs(Math.abs(value) - size) < MARGIN) continue;
      const counted = this.#countedOf(place * MOST_PLACES + other, apparent, name);
      counted.compared += 1;
      if (size > Math.abs(value)) counted.wider += 1;
    }
  }

  #countedOf(key: number, apparent: string, onboardTrue: string): Counted {
    const known = this.#counts.get(key);
    if (known) return known;
    const counted = { apparent, onboardTrue, compared: 0, wider: 0 };
    this.#counts.set(key, counted);
    return counted;
  }
}

/** A wind called apparent that is the true one by its angle. */
export interface SwappedWind {
  readonly apparent: string;
  readonly onboardTrue: string;
  /** Share of the moments in which it came from further aft. */
  readonly share: number;
}

/** M162. Winds that bear each other's names, over the logs of a recording. Never throws. */
export function swappedWinds(parts: readonly (readonly WindOrderPart[])[]): readonly SwappedWind[] {
  const all = new Map<string, WindOrderPart>();
  for (const part of parts.flat()) {
    const key = JSON.stringify([part.apparent, part.onboardTrue]);
    const known = all.get(key);
    all.set(key, {
      ...part,
      compared: part.compared + (known?.compared ?? 0),
      wider: part.wider + (known?.wider ?? 0),
    });
  }
  return [...all.values()]
    .filter(({ compared, wider }) => compared >= FEWEST && wider >= MOST * compared)
    .map(({ apparent, onboardTrue, compared, wider }) => ({
      apparent,
      onboardTrue,
      share: wider / compared,
    }));
}
