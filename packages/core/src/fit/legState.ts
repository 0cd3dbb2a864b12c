import { wrapAngle } from "../angles.ts";
import { type LegRow, MOMENT_CHANNELS } from "../sailing/legRow.ts";
import { FOLLOWS_THE_WIND, meanAngle, meanOf, measuredValues } from "./nominalState.ts";

/** Rows of each leg under sail. */
function rowsByLeg(rows: readonly LegRow[]): readonly (readonly number[])[] {
  const legs = new Map<number, number[]>();
  rows.forEach(({ leg, kind }, index) => {
    if (kind === "motoring") return;
    const members = legs.get(leg);
    if (members) members.push(index);
    else legs.set(leg, [index]);
  });
  return [...legs.values()];
}

/**
 * M48. What is usual on each row's own leg: the means of awa, aws, stw and heel over its rows; heading and velocity over ground stay the
 * row's own. Under power, where a leg may be a circle, it is what is usual for the spell. The current knows nothing of the wind's fluctuation, so that what a leg has of it does no harm to a fit of her motion; and
 * the mean of a leg has little of the wheel's noise, which would.
 *
 * @param nominal what is usual for the rows' points of sailing
 * @returns one array for each row, in the order of MOMENT_CHANNELS. Never throws.
 */
export function legStates(
  rows: readonly LegRow[],
  nominal: readonly Float64Array[],
): readonly Float64Array[] {
  const states = rows.map((row, index) => (row.kind === "motoring" ? nominal[index]! : measuredValues(row)));
  for (const leg of rowsByLeg(rows)) {
    const members = leg.map((index) => rows[index]!);
    const angle = meanAngle(members[0]!.mean.awa, members);
    for (const channel of FOLLOWS_THE_WIND) {
      const place = MOMENT_CHANNELS.indexOf(channel);
      const mean = channel === "awa" ? wrapAngle(angle) : meanOf(members, (row) => row.mean[channel]);
      for (const index of leg) states[index]![place] = mean;
    }
  }
  return states;
}
