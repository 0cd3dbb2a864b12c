import { wrapAngle } from "../angles.ts";
import { type LegRow, MOMENT_CHANNELS, type MomentChannel } from "../sailing/legRow.ts";
import { radians, type Seconds } from "../units.ts";

/** Legs whose mean apparent wind angles share a sector of this width count as one point of sailing. */
const SECTOR = radians(30);

/** Rows further apart than this lend each other little: the wind speed of the hour, not of the day. */
const NEIGHBOURHOOD: Seconds = 5400;

/** Channels that follow the wind's own fluctuation, and are therefore replaced by what is usual. */
const FOLLOWS_THE_WIND: readonly MomentChannel[] = ["awa", "aws", "stw", "heel"];

/** The measured means of a row in the order of MOMENT_CHANNELS. */
export const measuredValues = (row: LegRow): Float64Array =>
  Float64Array.from(MOMENT_CHANNELS, (channel) => row.mean[channel]);

/** The legs' mean apparent wind angles by leg number, averaged from their rows. */
function meanAngleOfLegs(rows: readonly LegRow[]): ReadonlyMap<number, number> {
  const sums = new Map<number, { sine: number; cosine: number }>();
  for (const { leg, mean } of rows) {
    const sum = sums.get(leg) ?? { sine: 0, cosine: 0 };
    sums.set(leg, { sine: sum.sine + Math.sin(mean.awa), cosine: sum.cosine + Math.cos(mean.awa) });
  }
  return new Map([...sums].map(([leg, { sine, cosine }]) => [leg, Math.atan2(sine, cosine)]));
}

/** Rows by kind, tack and point of sailing of their leg. */
function rowsByPointOfSailing(rows: readonly LegRow[]): readonly (readonly number[])[] {
  const angles = meanAngleOfLegs(rows);
  const groups = new Map<string, number[]>();
  rows.forEach((row, index) => {
    const sector = Math.floor(Math.abs(angles.get(row.leg) ?? Number.NaN) / SECTOR);
    const key = `${row.kind} ${row.tack} ${sector}`;
    groups.set(key, [...(groups.get(key) ?? []), index]);
  });
  return [...groups.values()];
}

/** Weighted mean of a channel about a reference value, so that angles average the short way. */
function weightedMean(
  channel: MomentChannel,
  reference: number,
  members: readonly LegRow[],
  weights: ArrayLike<number>,
) {
  let sum = 0;
  let total = 0;
  members.forEach((member, index) => {
    const value = member.mean[channel];
    const weight = weights[index] ?? 0;
    if (Number.isNaN(value)) return;
    sum += weight * (channel === "awa" ? wrapAngle(value - reference) : value - reference);
    total += weight;
  });
  return total > 0 ? reference + sum / total : Number.NaN;
}

/**
 * M48. What is usual for each row's tack and point of sailing at that hour: the means of awa, aws, stw and heel over the
 * rows of its kind, weighted by exp(−|Δt| / 20 min); heading and velocity over ground stay the row's own.
 *
 * The fit takes its derivatives there. Taken at the row's own values they would follow the wind's fluctuation, which is
 * the very thing that the residuals hold: that correlation is what biases upwash by about a degree.
 *
 * @param rows leg rows in time order
 * @returns one array for each row, in the order of MOMENT_CHANNELS. Never throws.
 */
export function nominalStates(rows: readonly LegRow[]): readonly Float64Array[] {
  const states = rows.map(measuredValues);
  for (const group of rowsByPointOfSailing(rows)) {
    const members = group.map((index) => rows[index]!);
    for (const index of group) {
      const row = rows[index]!;
      const weights = members.map((member) => Math.exp(-Math.abs(member.start - row.start) / NEIGHBOURHOOD));
      for (const channel of FOLLOWS_THE_WIND) {
        const mean = weightedMean(channel, row.mean[channel], members, weights);
        states[index]![MOMENT_CHANNELS.indexOf(channel)] = channel === "awa" ? wrapAngle(mean) : mean;
      }
    }
  }
  return states;
}
