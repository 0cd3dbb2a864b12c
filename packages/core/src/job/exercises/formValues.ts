import * as z from "zod";
import { SECONDS_IN_A_DAY } from "../../recording/calendar.ts";

/** "10:02:30" as seconds of the day. */
export const timeOfDay = z
  .string()
  .regex(/^\d{1,2}:[0-5]\d(?::[0-5]\d(?:\.\d+)?)?$/, "a time such as 10:02:30")
  .transform((text) => {
    const [hours = 0, minutes = 0, seconds = 0] = text.split(":").map(Number);
    return 3600 * hours + 60 * minutes + seconds;
  });

/** "2031-06-14" as the start of that day, s since 1970 UTC. */
export const day = z.iso
  .date("a day such as 2031-06-14")
  .transform((text) => Date.parse(`${text}T00:00:00Z`) / 1000);

/** One of some words, in capitals or not. */
export const oneOf = <const Words extends readonly [string, ...string[]]>(...words: Words) =>
  z.preprocess((value) => (typeof value === "string" ? value.toLowerCase() : value), z.enum(words));

const PARTS =
  /^(\d+(?:\.\d+)?)\s*°?\s*(?:(\d+(?:\.\d+)?)\s*['′]?\s*)?(?:(\d+(?:\.\d+)?)\s*["″]?\s*)?([NSEW])$/;

/** "54°07.4' N" in degrees, north or east positive; NaN for anything else. Never throws. */
function degreesWritten(text: string, hemispheres: string): number {
  const [, whole, minutes = "0", seconds = "0", hemisphere = ""] =
    PARTS.exec(text.trim().toUpperCase().replaceAll(",", ".")) ?? [];
  if (
    whole === undefined ||
    !hemispheres.includes(hemisphere) ||
    Number(minutes) >= 60 ||
    Number(seconds) >= 60
  )
    return Number.NaN;
  const size = Number(whole) + Number(minutes) / 60 + Number(seconds) / 3600;
  return "SW".includes(hemisphere) ? -size : size;
}

/** Degrees as a number, or as charts and receivers write them, with a letter for the sign. */
const degreesOf = (hemispheres: "NS" | "EW", most: number, example: string) =>
  z.union([z.number(), z.string()]).transform((value, context) => {
    const written = typeof value === "number" ? value : degreesWritten(value, hemispheres);
    if (Math.abs(written) <= most) return written;
    context.addIssue({ code: "custom", message: `degrees up to ${most}, such as ${example}`, input: value });
    return z.NEVER;
  });

/** A latitude: degrees, north positive, or "54°07.4' N". */
export const latitude = degreesOf("NS", 90, "54.1234, or 54 07.404 N");

/** A longitude: degrees, east positive, or "10°34.1' E". */
export const longitude = degreesOf("EW", 180, "10.5678, or 10 34.068 E");

/** A variation: degrees, east positive, or "3°30' W". */
export const variationDegrees = degreesOf("EW", 180, "-3.5, or 3.5 W, or 3 30 W");

/** Times of day that follow each other, made to go on past midnight. Never throws. */
export function onward(times: readonly number[]): readonly number[] {
  let last = -Infinity;
  return times.map((time) => {
    let at = time;
    while (at < last) at += SECONDS_IN_A_DAY;
    last = at;
    return at;
  });
}
