import type { Finding } from "../../calibration/findings.ts";
import type { ClockAgainstGps } from "../../fit/clockAgainstGps.ts";
import type { PositionOffset } from "../../fit/positionAtBerth.ts";
import { degrees, type Metres, type Radians } from "../../units.ts";
import { capital, duration, plain, signed } from "../format.ts";

/** What a stay alongside tells of heel and pitch. @param active the zero that stands in the instruments. Never throws. */
export const dockWords = (findings: readonly Finding[], active: Radians): readonly string[] =>
  findings.map(({ name, value, half }) => {
    const sensor = name.startsWith("heel") ? "heel" : "pitch";
    const change = sensor === "heel" ? value - active : value;
    const side =
      sensor === "heel" ? (change > 0 ? "to starboard" : "to port") : change > 0 ? "bow up" : "bow down";
    const size = `${plain(Math.abs(degrees(change)), 1)}° ± ${plain(degrees(half), 1)}° ${side}`;
    return Math.abs(change) <= half
      ? `Leave the ${sensor} zero alone: level, it shows ${size}, no more than its doubt.`
      : `${capital(sensor)}: level, it shows ${size}; add ${signed(-degrees(change), 1)}° to the reading.`;
  });

/** What a stay at a known berth tells. Never throws. */
export function berthWords(found: PositionOffset): readonly string[] {
  const { east, north, distance, half } = found;
  const way = `${plain(Math.abs(north), 1)} m ${north < 0 ? "south" : "north"} and ${plain(Math.abs(east), 1)} m ${east < 0 ? "west" : "east"}`;
  const isRight = Math.abs(east) <= half && Math.abs(north) <= half;
  const verdict = isRight
    ? `Positions agree with the berth: ${plain(distance, 1)} m off, ± ${plain(half, 1)} m in each direction.`
    : `Positions lie ${way} of the berth, ± ${plain(half, 1)} m in each direction: look at the chart's datum and the place of the antenna before anything else.`;
  const long = found.isLong
    ? []
    : [
        `Positions hang together over ${duration(found.correlation)} and more, and the stay was too short to average that out: its own scatter of ${plain(found.spread, 1)} m says little.`,
      ];
  return [
    verdict,
    ...long,
    "Errors of the satellites' orbits and of the air's delay last for a day: another day may differ by 2 to 3 m.",
  ];
}

/** A boat alongside or at a mooring does not move more than this, one standard deviation; nor is any receiver so far off. Judgement. */
const ALONGSIDE: Metres = 50;
const FAR_OFF: Metres = 10_000;

/** Why positions are not those of a stay at a berth, in the words of a sentence; undefined where they may be. Never throws. */
export function noBerthWords({ spread, distance }: PositionOffset): string | undefined {
  if (spread > ALONGSIDE)
    return `the positions spread by ${plain(spread, 0)} m: she was not alongside, so give a log of the stay alone`;
  if (distance > FAR_OFF)
    return `the positions lie ${plain(distance / 1852, 0)} nm from the place given: see to its signs, and that degrees and minutes are not mixed`;
  return undefined;
}

/** What a log tells of the clock that stamped it. Never throws. */
export function clockWords({ zone, ahead, half, gainsADay, lines }: ClockAgainstGps): readonly string[] {
  const size = `${plain(Math.abs(ahead), 1)} s ± ${plain(half, 1)} s`;
  const verdict =
    Math.abs(ahead) <= half
      ? `The clock agrees with GPS within ± ${plain(half, 1)} s.`
      : `The clock is ${size} ${ahead > 0 ? "ahead of" : "behind"} GPS time; add ${signed(-ahead, 1)} s to its stamps.`;
  const told =
    zone === 0
      ? []
      : [
          `Its stamps are in a time zone ${plain(Math.abs(zone) / 3600, 2)} h ${zone > 0 ? "ahead of" : "behind"} UTC: that is no error, and data stay in UTC.`,
        ];
  const rate = Number.isNaN(gainsADay) ? [] : [`Over the log it gained ${signed(gainsADay, 1)} s a day.`];
  return [verdict, ...told, ...rate, `From ${lines} lines that hold both times.`];
}
