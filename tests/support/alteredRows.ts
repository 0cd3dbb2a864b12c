import { wrapDirection } from "../../packages/core/src/angles.ts";
import { type LegRow, MOMENT_CHANNELS, type MomentChannel } from "../../packages/core/src/sailing/legRow.ts";

const CHANNELS = MOMENT_CHANNELS.length;

/** The row as it would be without some of its channels. */
export function withoutChannels(row: LegRow, missing: readonly MomentChannel[]): LegRow {
  const mean = { ...row.mean };
  for (const channel of missing) mean[channel] = Number.NaN;
  const isMissing = (place: number): boolean => missing.includes(MOMENT_CHANNELS[place]!);
  const covariance = row.covariance.map((value, index) =>
    isMissing(Math.floor(index / CHANNELS)) || isMissing(index % CHANNELS) ? Number.NaN : value,
  );
  return { ...row, mean, covariance };
}

/** Covariances once some channels have changed their sign. */
const withSigns = (covariance: Float64Array, signs: readonly number[]): Float64Array =>
  covariance.map((value, index) => value * signs[Math.floor(index / CHANNELS)]! * signs[index % CHANNELS]!);

/** The same sail seen in a mirror that stands north and south: port is starboard, east is west. */
export function mirrored(row: LegRow): LegRow {
  const odd: readonly MomentChannel[] = ["awa", "heading", "heel", "east"];
  const { mean } = row;
  return {
    ...row,
    tack: row.tack === "starboard" ? "port" : "starboard",
    mean: {
      ...mean,
      awa: -mean.awa,
      heading: wrapDirection(-mean.heading),
      heel: -mean.heel,
      east: -mean.east,
    },
    covariance: withSigns(
      row.covariance,
      MOMENT_CHANNELS.map((channel) => (odd.includes(channel) ? -1 : 1)),
    ),
    variation: -row.variation,
  };
}

/** The same sail with everything turned a quarter clockwise: what was north is east, what was east is south. */
export function turnedAQuarter(row: LegRow): LegRow {
  const { mean } = row;
  const [east, north] = [MOMENT_CHANNELS.indexOf("east"), MOMENT_CHANNELS.indexOf("north")];
  const swapped = (place: number): number => (place === east ? north : place === north ? east : place);
  const covariance = row.covariance.map(
    (_, index) =>
      row.covariance[swapped(Math.floor(index / CHANNELS)) * CHANNELS + swapped(index % CHANNELS)]!,
  );
  return {
    ...row,
    mean: {
      ...mean,
      heading: wrapDirection(mean.heading + Math.PI / 2),
      east: mean.north,
      north: -mean.east,
    },
    covariance: withSigns(
      covariance,
      MOMENT_CHANNELS.map((channel) => (channel === "north" ? -1 : 1)),
    ),
  };
}
