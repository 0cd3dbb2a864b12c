import { wrapAngle } from "../angles.ts";
import { type MetresPerSecond, radians, type Seconds } from "../units.ts";
import { type Lag, LagCorrelation, type LagSums, LONGEST_LAG } from "./lagCorrelation.ts";
import type { SecondsBlock } from "./series.ts";

/**
 * Channels that come from one sensor and share its lag: wind (awa, aws), course (east, north), heel (pitch too), speed.
 *
 * @example
 * LAGGED.includes("wind") // true
 */
export const LAGGED = ["wind", "course", "heel", "speed"] as const;
/** One of LAGGED. */
export type Lagged = (typeof LAGGED)[number];

/** Lags behind the heading; where there is no compass, behind the course over ground. */
export type Lags = Readonly<Record<Lagged, Lag>>;

/** Only quick changes tell, and beyond some rate they are no boat's: of heading (rad/s), of speed over ground (m/s²). */
const TURNING = { least: radians(2.5), most: radians(20) } as const;
const GATHERING_WAY = { least: 0.06, most: 0.5 } as const;

/** Below this a course over ground is noise. */
const SLOWEST_COURSE: MetresPerSecond = 1.2;

/** Seconds held; a power of two above twice the longest lag. */
const HELD = 32;

/** A longer hole in the recording begins anew. */
const SILENCE: Seconds = 5;

const RATES = ["heading", "course", "wind", "load", "heel", "overGround", "throughWater"] as const;
type Rate = (typeof RATES)[number];

/** What wind pressure heels a boat, but for a constant (M25): its rise and fall is the heel's. */
const windLoad = (awa: number, aws: number): number => aws * aws * Math.sin(awa) * Math.cos(awa / 2) ** 2;

/** The quantities of a second of which rates are taken; the wind's angle turned round, to move as the heading does. */
function stateOf({ columns }: SecondsBlock, index: number): Readonly<Record<Rate, number>> {
  const [awa, east, north] = [columns.awa[index]!, columns.east[index]!, columns.north[index]!];
  const overGround = Math.hypot(east, north);
  return {
    heading: columns.heading[index]!,
    course: overGround > SLOWEST_COURSE ? Math.atan2(east, north) : Number.NaN,
    wind: -awa,
    load: windLoad(awa, columns.aws[index]!),
    heel: columns.heel[index]!,
    overGround,
    throughWater: columns.stw[index]!,
  };
}

const IS_DIRECTION: Readonly<Record<Rate, boolean>> = {
  heading: true,
  course: true,
  wind: true,
  load: false,
  heel: false,
  overGround: false,
  throughWater: false,
};

const PAIRS = ["courseToHeading", "windToHeading", "windToCourse", "heelToWind", "speedToCourse"] as const;
type Pair = (typeof PAIRS)[number];

/** The heel sensor's sign is not known. */
const ANY_SIGN: Pair = "heelToWind";

const correlations = (): Readonly<Record<Pair, LagCorrelation>> => {
  const of = (pair: Pair): LagCorrelation => new LagCorrelation(pair === ANY_SIGN);
  return {
    courseToHeading: of("courseToHeading"),
    windToHeading: of("windToHeading"),
    windToCourse: of("windToCourse"),
    heelToWind: of("heelToWind"),
    speedToCourse: of("speedToCourse"),
  };
};

/** What one log tells of the lags: plain values that add up over the logs of a season. */
export interface LagPart {
  readonly hasCompass: boolean;
  readonly pairs: Readonly<Record<Pair, LagSums>>;
}

const together = (parts: readonly LagPart[]): ReturnType<typeof correlations> => {
  const pairs = correlations();
  for (const part of parts) for (const pair of PAIRS) pairs[pair].take(part.pairs[pair]);
  return pairs;
};

/**
 * M162. Whether the wind angle turns with the boat's turns where it must turn against them: port and starboard are swapped. Never
 * throws.
 */
export function windIsMirrored(parts: readonly LagPart[]): boolean {
  const { windToHeading, windToCourse } = together(parts);
  return (parts.some((part) => part.hasCompass) ? windToHeading : windToCourse).isOpposite;
}

/** M36. The lags over the logs of a recording, in the order in which they were read. Never throws. */
export function lagsOf(parts: readonly LagPart[]): Lags {
  const { courseToHeading, windToHeading, windToCourse, heelToWind, speedToCourse } = together(parts);
  const none: Lag = { seconds: 0, correlation: 1, turns: 0 };
  const hasCompass = parts.some((part) => part.hasCompass);
  const wind = hasCompass ? windToHeading.lag() : windToCourse.lag();
  const course = hasCompass ? courseToHeading.lag() : none;
  return { wind, course, heel: after(wind, heelToWind.lag()), speed: after(course, speedToCourse.lag()) };
}

/**
 * M36. How far the channels are behind each other, from the seconds as they come: in turns the course over ground and the
 * wind angle must follow the heading, the heel the wind's pressure; on gathering way the log must follow the speed over
 * ground. Each pair's rates of change are correlated over a range of lags.
 *
 * @example
 * const estimator = new LagEstimator();
 * estimator.push(block);
 * estimator.lags().course.turns >= 0 // true
 */
export class LagEstimator {
  readonly #rates = new Map(RATES.map((rate) => [rate, new Float64Array(HELD).fill(Number.NaN)]));
  readonly #pairs = correlations();
  #hasCompass = false;
  #second = Number.NaN;
  #states: (Readonly<Record<Rate, number>> | undefined)[] = [];
  #held = 0;

  /** Takes the next block of seconds. Never throws. */
  push(block: SecondsBlock): void {
    for (let index = 0; index < block.length; index++) {
      const second = block.time[index]!;
      if (!(second - this.#second <= SILENCE)) this.#beginAnew();
      else for (let hole = this.#second + 1; hole < second; hole++) this.#add(undefined);
      this.#second = second;
      if (!Number.isNaN(block.columns.heading[index]!)) this.#hasCompass = true;
      this.#add(stateOf(block, index));
    }
  }

  /** What was seen so far. */
  get part(): LagPart {
    const { courseToHeading, windToHeading, windToCourse, heelToWind, speedToCourse } = this.#pairs;
    return {
      hasCompass: this.#hasCompass,
      pairs: {
        courseToHeading: courseToHeading.sums,
        windToHeading: windToHeading.sums,
        windToCourse: windToCourse.sums,
        heelToWind: heelToWind.sums,
        speedToCourse: speedToCourse.sums,
      },
    };
  }

  /** The lags so far. Never throws. */
  lags(): Lags {
    return lagsOf([this.part]);
  }

  #beginAnew(): void {
    this.#states = [];
    this.#held = 0;
    for (const rates of this.#rates.values()) rates.fill(Number.NaN);
  }

  /** Adds a second's state: the rates of the second before it are known then, and those of LONGEST_LAG earlier tell. */
  #add(state: Readonly<Record<Rate, number>> | undefined): void {
    this.#states.push(state);
    if (this.#states.length > 3) this.#states.shift();
    const [before, , after] = this.#states;
    const slot = this.#held % HELD;
    for (const [rate, rates] of this.#rates) {
      const change = (after?.[rate] ?? Number.NaN) - (before?.[rate] ?? Number.NaN);
      rates[slot] = (IS_DIRECTION[rate] ? wrapAngle(change) : change) / 2;
    }
    this.#held += 1;
    if (this.#held > 2 * LONGEST_LAG) this.#correlate(this.#held - 1 - LONGEST_LAG);
  }

  #correlate(at: number): void {
    const rate = (name: Rate, lag = 0): number => this.#rates.get(name)![(at + lag) % HELD]!;
    const add = (pair: LagCorrelation, reference: Rate, other: Rate): void => {
      if (!Number.isNaN(rate(reference)))
        pair.add(this.#second + at - this.#held, rate(reference), (lag) => rate(other, lag));
    };
    const { courseToHeading, windToHeading, windToCourse, heelToWind, speedToCourse } = this.#pairs;
    const moves = (name: Rate, { least, most }: { least: number; most: number }): boolean =>
      Math.abs(rate(name)) > least && Math.abs(rate(name)) < most;
    if (moves("heading", TURNING)) {
      add(courseToHeading, "heading", "course");
      add(windToHeading, "heading", "wind");
    }
    if (moves("course", TURNING)) add(windToCourse, "course", "wind");
    if (moves("heading", TURNING) || moves("course", TURNING)) add(heelToWind, "load", "heel");
    if (moves("overGround", GATHERING_WAY)) add(speedToCourse, "overGround", "throughWater");
  }
}

/** A lag behind something that itself has a lag. */
const after = (first: Lag, second: Lag): Lag => ({ ...second, seconds: first.seconds + second.seconds });
