import { directionOf, speedOf } from "../physics/vectors.ts";
import type { MetresPerSecond, Radians } from "../units.ts";
import type { CorrectedSecond } from "./correctedSeconds.ts";
import type { SecondsBlock } from "./series.ts";

/** A second with the faults undone, and what the log held of it that no calibration changes; NaN where it holds nothing. */
export interface LoggedSecond extends CorrectedSecond {
  readonly latitude: Radians;
  readonly longitude: Radians;
  /** Over the ground: course, from true north, and speed. */
  readonly cog: Radians;
  readonly sog: MetresPerSecond;
  /** East positive. */
  readonly variation: Radians;
}

/** A corrected second with what the log held of it. Never throws. */
export function loggedSecond(
  corrected: CorrectedSecond,
  { columns }: SecondsBlock,
  index: number,
): LoggedSecond {
  const [east, north] = [columns.east[index]!, columns.north[index]!];
  return {
    ...corrected,
    latitude: columns.latitude[index]!,
    longitude: columns.longitude[index]!,
    cog: directionOf(east, north),
    sog: speedOf(east, north),
    variation: columns.variation[index]!,
  };
}
