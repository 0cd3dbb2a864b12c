import type { Seconds } from "../units.ts";
import { dayNumber, fullYear, SECONDS_IN_A_DAY } from "./calendar.ts";
import { lineStamp } from "./lineStamp.ts";
import { nmea0183Checksum } from "./nmea0183Checksum.ts";

/** The time at the head of a line beside the GPS time in it. */
export interface StampedTime {
  /** By the GPS sentence, s since 1970 UTC. */
  readonly gps: Seconds;
  /** The line's own time less that. */
  readonly ahead: Seconds;
  /** Whether the line's own time says that it is UTC. */
  readonly isUtc: boolean;
}

const SENTENCE = /\$([A-Z]{2})(RMC|ZDA),([^*\r\n]*)\*([0-9A-Fa-f]{2})/;

const DAY_TIME = /^(\d{2})(\d{2})(\d{2}(?:\.\d+)?)$/;

function timeOfDay(field: string | undefined): Seconds {
  const [, hours, minutes, seconds] = DAY_TIME.exec(field ?? "") ?? [];
  return 3600 * Number(hours ?? Number.NaN) + 60 * Number(minutes) + Number(seconds);
}

/** The time that RMC or ZDA tells; NaN where they tell none. */
function gpsTime(kind: string, fields: readonly string[]): Seconds {
  const [day, month, year] =
    kind === "ZDA"
      ? [Number(fields[1]), Number(fields[2]), Number(fields[3])]
      : [0, 2, 4].map((at) => Number((fields[8] ?? "").slice(at, at + 2) || Number.NaN));
  const whole = kind === "ZDA" ? year! : fullYear(year!);
  return SECONDS_IN_A_DAY * dayNumber(whole, month!, day!) + timeOfDay(fields[0]);
}

const encoder = new TextEncoder();

/**
 * M129. What the time at the head of a line is ahead of the GPS time in its RMC or ZDA sentence.
 *
 * @returns undefined where the line has not both, the fix is void, or the checksum does not match. Never throws.
 *
 * @example
 * stampAgainstGps(`2031-06-14T12:00:03Z ${nmea0183Sentence("GPZDA,120000,14,06,2031,,")}`).ahead // 3
 */
export function stampAgainstGps(line: string): StampedTime | undefined {
  const [whole, talker, kind, body, sum] = SENTENCE.exec(line) ?? [];
  if (whole === undefined || kind === undefined || body === undefined || sum === undefined) return undefined;
  if (nmea0183Checksum(`${talker}${kind},${body}`) !== Number.parseInt(sum, 16)) return undefined;
  const fields = body.split(",");
  if (kind === "RMC" && fields[1] !== "A") return undefined;
  const gps = gpsTime(kind, fields);
  const head = encoder.encode(line.slice(0, line.indexOf("$")));
  const stamp = lineStamp(head, 0, head.length);
  if (!stamp || Number.isNaN(gps)) return undefined;
  const isOfDay = stamp.kind === "utcTimeOfDay" || stamp.kind === "localTimeOfDay";
  const ahead = isOfDay ? withinHalfADay(stamp.seconds - gps) : stamp.seconds - gps;
  return { gps, ahead, isUtc: stamp.kind === "utc" || stamp.kind === "utcTimeOfDay" };
}

/** The same time of day, within twelve hours. */
const withinHalfADay = (seconds: Seconds): Seconds =>
  seconds - SECONDS_IN_A_DAY * Math.round(seconds / SECONDS_IN_A_DAY);
