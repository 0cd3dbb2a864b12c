import { type MetresPerSecond, metresPerSecond, radians, type Seconds } from "../units.ts";
import type { SecondsWindow } from "./secondsWindow.ts";
import type { Turning } from "./turnDetector.ts";

/** A second is judged with this much of the future known. */
export const FORESIGHT: Seconds = 75;

/** Half the width over which steadiness is judged, and over which a boat's usual speed is taken. */
const REACH: Seconds = 10;
const SPEED_REACH: Seconds = 60;

/** Standard deviations beyond which a boat is not on a course, or the wind angle says nothing. */
const HEADING_SPREAD = radians(9);
const WIND_ANGLE_SPREAD = radians(28);

/** Left out before a turn; after it, at least and at most, till the speed is back. */
const BEFORE_TURN: Seconds = 5;
const SETTLING = { least: 15, most: 45 } as const;
const SPEED_REGAINED = 0.92;

/** A boat slower than this share of its usual speed has stopped sailing for the moment. */
const COLLAPSED = 0.6;

/** Lying still: slower than a knot through the water and over ground; or over ground alone, with a stream past the hull. */
const STILL: MetresPerSecond = metresPerSecond(1);
const ANCHORED: MetresPerSecond = metresPerSecond(0.4);

/** Slower than this share of the apparent wind, sails luff and the boat drifts. */
const ADRIFT = 0.12;

/** A boat whose speed changes by this much (logarithm) from 15 to 6 s before to as long after gathers or loses way. */
const SPEED_CHANGE = 0.3;
const CHANGE = { from: 6, to: 15 } as const;

/** Below this a vane does not point. */
const WEAKEST_WIND: MetresPerSecond = 0.8;

export const JUDGEMENTS = ["steady", "turning", "settling", "still", "unsteady", "missing"] as const;
export type Judgement = (typeof JUDGEMENTS)[number];

/** Mean of what a function gives over some seconds; NaN without any. */
function meanOver(value: (second: number) => number, from: number, to: number): number {
  let [sum, count] = [0, 0];
  for (let second = from; second <= to; second++) {
    const here = value(second);
    if (Number.isNaN(here)) continue;
    sum += here;
    count += 1;
  }
  return sum / count;
}

/** Circular standard deviation, √(−2 ln R), of angles; NaN without any. */
function circularSpread(value: (second: number) => number, from: number, to: number): number {
  const sine = meanOver((second) => Math.sin(value(second)), from, to);
  const cosine = meanOver((second) => Math.cos(value(second)), from, to);
  return Math.sqrt(-2 * Math.log(Math.min(1, Math.hypot(sine, cosine))));
}

/** Judges seconds one by one, in order. */
export class SteadinessJudge {
  readonly #window: SecondsWindow;
  readonly #turnings: readonly Turning[];
  readonly #speeds = new Float64Array(2 * SPEED_REACH + 1);
  #usual = { second: Number.NaN, speed: Number.NaN };
  /** End of the last turn, and whether the boat has settled since. */
  #turnEnd = Number.NEGATIVE_INFINITY;
  #settled = true;

  constructor(window: SecondsWindow, turnings: readonly Turning[]) {
    this.#window = window;
    this.#turnings = turnings;
  }

  /** The turning that a second belongs to. Never throws. */
  turningAt(second: number): Turning | undefined {
    return this.#turnings.find(({ start, end, ended }) => start <= second && (second <= end || !ended));
  }

  /** M37. What the boat was doing in a second; call once for each, in order. Never throws. */
  judge(second: number): Judgement {
    this.#noteTurns(second);
    const window = this.#window;
    if (this.turningAt(second) !== undefined || this.#turnsSoon(second)) return "turning";
    if (Number.isNaN(window.at("awa", second) + window.at("aws", second))) return "missing";
    if (this.#isStill(second)) return "still";
    if (!this.#hasSettled(second)) return "settling";
    return this.#isUnsteady(second) ? "unsteady" : "steady";
  }

  #noteTurns(second: number): void {
    for (const { end, ended, turn } of this.#turnings) {
      if (!ended || turn === undefined || end >= second || end <= this.#turnEnd) continue;
      this.#turnEnd = end;
      this.#settled = false;
    }
  }

  #turnsSoon(second: number): boolean {
    return this.#turnings.some(({ start }) => second < start && start - second <= BEFORE_TURN);
  }

  #isStill(second: number): boolean {
    const window = this.#window;
    const [from, to] = [second - SPEED_REACH / 2, second + SPEED_REACH / 2];
    const over = meanOver((at) => window.speedOverGround(at), from, to);
    const through = meanOver((at) => window.at("stw", at), from, to);
    if (over < ANCHORED) return true;
    return !(over >= STILL) && !(through >= STILL);
  }

  #hasSettled(second: number): boolean {
    if (this.#settled) return true;
    const since = second - this.#turnEnd;
    if (since < SETTLING.least) return false;
    const now = meanOver((at) => this.#window.speed(at), second - 2, second + 2);
    this.#settled = since >= SETTLING.most || !(now < SPEED_REGAINED * this.#usualSpeed(second, second + 40));
    return this.#settled;
  }

  #isUnsteady(second: number): boolean {
    const window = this.#window;
    const [from, to] = [second - REACH, second + REACH];
    const [wind, speed] = [
      meanOver((at) => window.at("aws", at), from, to),
      meanOver((at) => window.speed(at), from, to),
    ];
    if (wind < WEAKEST_WIND || speed < ADRIFT * wind) return true;
    if (circularSpread((at) => window.at("heading", at), from, to) > HEADING_SPREAD) return true;
    if (circularSpread((at) => window.at("awa", at), from, to) > WIND_ANGLE_SPREAD) return true;
    const before = meanOver((at) => window.speed(at), second - CHANGE.to, second - CHANGE.from);
    const after = meanOver((at) => window.speed(at), second + CHANGE.from, second + CHANGE.to);
    if (Math.abs(Math.log(after / before)) > SPEED_CHANGE) return true;
    const now = meanOver((at) => window.speed(at), second - 2, second + 2);
    return now < COLLAPSED * this.#usualSpeedAbout(second);
  }

  /** The usual speed about a second, worked out anew every 10 s. */
  #usualSpeedAbout(second: number): MetresPerSecond {
    if (!(second - this.#usual.second < REACH)) {
      const speed = this.#usualSpeed(second - SPEED_REACH, second + SPEED_REACH);
      this.#usual = { second, speed };
    }
    return this.#usual.speed;
  }

  /** Median speed over the seconds outside turns; NaN without any. */
  #usualSpeed(from: number, to: number): MetresPerSecond {
    let count = 0;
    for (let second = from; second <= to; second++) {
      const speed = this.#window.speed(second);
      if (Number.isNaN(speed) || this.turningAt(second) !== undefined) continue;
      this.#speeds[count++] = speed;
    }
    return count > 0 ? this.#speeds.subarray(0, count).sort()[(count - 1) >> 1]! : Number.NaN;
  }
}
