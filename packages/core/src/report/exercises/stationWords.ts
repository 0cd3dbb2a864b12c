import type { StationDoubt } from "../../fit/stationDoubt.ts";
import type { Metres, Seconds } from "../../units.ts";
import { counted, duration, plain } from "../format.ts";

const moment = (time: Seconds): string =>
  `${new Date(1000 * time).toISOString().slice(0, 16).replace("T", " ")} UTC`;

/** That a station's log tells of no wind. Never throws. */
export const noWindWords = (name: string): string =>
  `${name} holds no wind speed that its headers tell (such as tws_kn): "bothtacks columns" begins a mapping file to fill in, for --reference-columns`;

/** That two logs have no time in common. Never throws. */
export const noOverlapWords = (
  boat: readonly [Seconds, Seconds],
  station: readonly [Seconds, Seconds],
): string =>
  `the logs have no time in common: the boat's runs from ${moment(boat[0])} to ${moment(boat[1])}, the station's from ${moment(station[0])} to ${moment(station[1])}`;

/** That a station's clock is probably in another zone. Never throws. */
export const clockHint = (hours: number): string =>
  `the two go together far better with the station's clock moved ${hours > 0 ? "on" : "back"} by ${counted(Math.abs(hours), "hour")}: see to its time zone (utc_offset of its mapping file)`;

/** What an answer against a station rests on. */
export interface StationTold {
  readonly intervals: number;
  readonly worth: number;
  readonly mean: Seconds;
  readonly moving: Seconds;
  readonly heights: readonly [Metres, Metres];
  readonly doubt: StationDoubt;
  /** Half the 95 % interval of truth over reading, all in all, as a share. */
  readonly half: number;
  readonly hint?: string;
}

const percent = (share: number): string => `${plain(100 * share, 1)} %`;

const HALF = 1.96;

/** What it rests on, in sentences: how much was compared, the heights, and what no length of log averages out. Never throws. */
export function stationWords({
  intervals,
  worth,
  mean,
  moving,
  heights,
  doubt,
  half,
  hint,
}: StationTold): readonly string[] {
  const [height, sensor] = heights;
  const own = Math.sqrt(Math.max(0, half ** 2 - (HALF * doubt.all) ** 2));
  const factor =
    height === sensor
      ? `Both at ${plain(sensor, 1)} m above the water.`
      : `The station's wind was brought from ${plain(height, 1)} m above the water to the masthead's ${plain(sensor, 1)} m: times ${plain(doubt.factor, 3)}, the profile of open water.`;
  const moved = moving > 0 ? ` ${duration(moving)} in which she moved over the ground were left out.` : "";
  return [
    `From ${counted(intervals, "mean")} of ${duration(mean)}, worth ${worth} that do not hang together.${moved}`,
    factor,
    `At the mean speed the wind is known to ± ${percent(half)}. Of that ± ${percent(HALF * doubt.all)} is the station's and stays however long the log is: its own anemometer ${percent(doubt.own)}, the height ${percent(doubt.profile)}, the other place ${percent(doubt.place)} (one standard deviation each, as given or taken). What was logged leaves ± ${percent(own)}.`,
    ...(hint === undefined ? [] : [`Take care: ${hint}.`]),
  ];
}
