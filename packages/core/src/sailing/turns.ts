import { type Radians, type RadiansPerSecond, radians, type Seconds } from "../units.ts";
import type { Turn } from "./legRow.ts";
import { type SecondsWindow, TRACKS, type Track } from "./secondsWindow.ts";

/** Half the width of the line whose slope is the rate of turn. */
const RATE_REACH: Seconds = 5;

/** How long before and after a turn directions and wind angles are averaged, and how far off they are looked for. */
const BEFORE_AND_AFTER: Seconds = 8;
export const LOOKED_FOR_WITHIN: Seconds = 50;

/** Course changes from here on count as turns; less does where the wind changes sides. */
const TURN: Radians = radians(30);
const SMALLEST_TURN: Radians = radians(12);

/** Beyond this the boat has gone round, and where the wind was before and after does not say which way it passed. */
const WHIRL: Radians = radians(300);

/** Wind angles nearer to the bow or the stern tell no side. */
const NO_SIDE: Radians = radians(6);

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

/** The first values known within 50 s, 8 at most, going from a second one way. */
function knownFrom(value: (second: number) => number, first: number, step: 1 | -1): readonly number[] {
  const known: number[] = [];
  for (let away = 0; away < LOOKED_FOR_WITHIN && known.length < BEFORE_AND_AFTER; away++) {
    const here = value(first + step * away);
    if (!Number.isNaN(here)) known.push(here);
  }
  return known;
}

/** Mean of a track's first 8 s known within 50 s, going from a second one way; NaN without any. Never throws. */
export function directionFrom(window: SecondsWindow, track: Track, first: number, step: 1 | -1): Radians {
  const known = knownFrom((second) => window.track(track, second), first, step);
  return known.reduce((sum, direction) => sum + direction, 0) / known.length;
}

/** Direction of the mean vector of the wind angles likewise; NaN without any. Never throws. */
export function windAngleFrom(window: SecondsWindow, first: number, step: 1 | -1): Radians {
  const known = knownFrom((second) => window.at("awa", second), first, step);
  const sine = known.reduce((sum, angle) => sum + Math.sin(angle), 0);
  const cosine = known.reduce((sum, angle) => sum + Math.cos(angle), 0);
  return known.length > 0 ? Math.atan2(sine, cosine) : Number.NaN;
}

const hasSide = (angle: Radians): boolean =>
  Math.abs(angle) >= NO_SIDE && Math.abs(angle) <= Math.PI - NO_SIDE;

/**
 * M37. What a change of direction was, by the wind angles before and after it: towards the side that the wind came from
 * and through it, a tack; away from it and through, a gybe; else another turn if it is 30° and more.
 *
 * @returns undefined where it was no turn. Never throws; NaN makes none.
 */
export function kindOfTurn(change: Radians, before: Radians, after: Radians): Turn["kind"] | undefined {
  const sidesChange = hasSide(before) && hasSide(after) && before * after < 0 && Math.abs(change) < WHIRL;
  if (sidesChange && Math.abs(change) >= SMALLEST_TURN) return before * change > 0 ? "tack" : "gybe";
  return Math.abs(change) >= TURN ? "other" : undefined;
}
