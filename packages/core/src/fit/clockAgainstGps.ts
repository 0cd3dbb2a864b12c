import type { StampedTime } from "../recording/stampsAgainstGps.ts";
import type { Seconds } from "../units.ts";
import { correlatedMean } from "./correlatedMean.ts";

/** A logger's clock beside GPS time. */
export interface ClockAgainstGps {
  readonly status: "solved";
  /** The whole quarters of an hour by which the stamps' time zone differs from UTC; 0 where they are UTC. */
  readonly zone: Seconds;
  /** How far the clock is ahead beside that, in the middle of the log. */
  readonly ahead: Seconds;
  /** Half the 95 % interval, with what a receiver takes to send its time. */
  readonly half: Seconds;
  /** Seconds that it gains in a day; NaN where the log is shorter than an hour. */
  readonly gainsADay: number;
  readonly lines: number;
}

/** Why lines cannot answer. */
export interface UnsolvedClock {
  readonly status: "unsolved";
  readonly reason: "no stamp beside a GPS time" | "too few lines";
}

/** Time zones are whole quarters of an hour. */
const QUARTER: Seconds = 900;

/**
 * A receiver sends its time up to a second late, and loggers stamp what has arrived: half a second is taken off, and any other lateness within that second is
 * in the interval, uniform, of which the middle 95 % count. Judgement.
 */
const LATE: Seconds = 0.5;
const LATE_HALF: Seconds = 0.95 * LATE;

const FEWEST = 10;
const AN_HOUR: Seconds = 3600;
const A_DAY: Seconds = 86_400;

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** Slope of the least squares line, a second. */
function slope(times: readonly StampedTime[]): number {
  const mean = times.reduce((sum, { gps }) => sum + gps, 0) / times.length;
  const level = times.reduce((sum, { ahead }) => sum + ahead, 0) / times.length;
  const [up, down] = times.reduce(
    ([product, square], { gps, ahead }) => [
      product + (gps - mean) * (ahead - level),
      square + (gps - mean) ** 2,
    ],
    [0, 0],
  );
  return up / down;
}

/**
 * M129. How far the clock that stamped a log's lines is ahead of GPS time: the median over the lines, its nearest whole quarter of an
 * hour being the time zone where the stamps do not say that they are UTC, less half a second that a receiver is late.
 *
 * @returns `unsolved` with fewer than ten lines that have both. Never throws.
 *
 * @example
 * const times = Array.from({ length: 20 }, (_, at) => ({ gps: 1.9e9 + at, ahead: 3, isUtc: true }));
 * clockAgainstGps(times).ahead // 2.5
 */
export function clockAgainstGps(times: readonly StampedTime[]): ClockAgainstGps | UnsolvedClock {
  if (times.length === 0) return { status: "unsolved", reason: "no stamp beside a GPS time" };
  if (times.length < FEWEST) return { status: "unsolved", reason: "too few lines" };
  const middle = median(times.map(({ ahead }) => ahead));
  const zone = times.every(({ isUtc }) => isUtc) ? 0 : QUARTER * Math.round(middle / QUARTER);
  const span = times.at(-1)!.gps - times[0]!.gps;
  const { deviation } = correlatedMean(
    times.map(({ ahead }) => ahead),
    1,
  );
  return {
    status: "solved",
    zone,
    ahead: middle - zone - LATE,
    half: Math.hypot(1.96 * deviation, LATE_HALF),
    gainsADay: span >= AN_HOUR ? A_DAY * slope(times) : Number.NaN,
    lines: times.length,
  };
}
