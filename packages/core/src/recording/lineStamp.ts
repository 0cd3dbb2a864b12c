import type { Seconds } from "../units.ts";
import type { StampKind } from "./logClock.ts";
import { clockSeconds, epochSeconds, isDigit, isoTime, TimeText } from "./timeText.ts";

const COLON = 0x3a;

/** Brackets, quotes and the like that may stand before the time. */
const MOST_BEFORE = 4;

export interface LineStamp {
  readonly kind: StampKind;
  readonly seconds: Seconds;
}

/** A date and time by ISO 8601; undefined if it is none. */
function isoStamp(text: TimeText): LineStamp | undefined {
  const told = isoTime(text);
  if (told === undefined) return undefined;
  const { seconds, zone } = told;
  return Number.isNaN(zone) ? { kind: "local", seconds } : { kind: "utc", seconds: seconds - zone };
}

/**
 * The first time of day in the text. A date before it is not read, since 04/05 is a day in April or in May, and the
 * sentences tell it anyway.
 */
function timeOfDayStamp(text: TimeText): LineStamp | undefined {
  const { bytes, to } = text;
  for (let at = text.at; at + 2 < to; at++) {
    if (!isDigit(bytes[at]) || isDigit(bytes[at - 1])) continue;
    if (bytes[at + 1] !== COLON && bytes[at + 2] !== COLON) continue;
    const seconds = clockSeconds(new TimeText(bytes, at, to));
    if (!Number.isNaN(seconds)) return { kind: "localTimeOfDay", seconds };
  }
  return undefined;
}

/**
 * The time that stands before a sentence in its line: epoch (s, ms, µs or ns), ISO 8601, or a time of day HH:MM:SS
 * (AM and PM too), with or without a date before it. What follows the time does not matter.
 *
 * @param from where the line starts
 * @param to where the sentence starts
 * @returns undefined where no such time stands there. Never throws.
 */
export function lineStamp(bytes: Uint8Array, from: number, to: number): LineStamp | undefined {
  let start = from;
  while (start < to && start < from + MOST_BEFORE && !isDigit(bytes[start])) start++;
  const epoch = epochSeconds(new TimeText(bytes, start, to));
  if (epoch !== undefined) return { kind: "utc", seconds: epoch };
  return isoStamp(new TimeText(bytes, start, to)) ?? timeOfDayStamp(new TimeText(bytes, start, to));
}
