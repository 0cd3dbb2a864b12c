import { type Radians, radians } from "../units.ts";
import type { CandidateLeg } from "./candidates.ts";
import type { RowKind } from "./legRow.ts";
import type { RowOfSeconds } from "./rows.ts";

/**
 * True wind angles (plain vector sum) that no boat sails close to, and that few do: the sensors' own faults, 4° of offset
 * and some percent of speed, are allowed for.
 */
const NO_SAIL: Radians = radians(22);
const PINCHING: Radians = radians(29);

/** Boat speed over true wind speed that no displacement boat reaches, and that few do. */
const TOO_FAST = 1.7;
const VERY_FAST = 1.35;

/** Motoring boats move, m/s: slower and the angles are those of a boat in irons or adrift. */
const UNDER_WAY = 1;

/** Plain vector sum of a row's means: true wind angle and the ratio of boat speed to true wind speed. */
function plainWind({ mean }: RowOfSeconds) {
  const speed = Number.isNaN(mean.stw) ? Math.hypot(mean.east, mean.north) : mean.stw;
  const [ahead, abeam] = [mean.aws * Math.cos(mean.awa) - speed, mean.aws * Math.sin(mean.awa)];
  return { speed, angle: Math.abs(Math.atan2(abeam, ahead)), ratio: speed / Math.hypot(ahead, abeam) };
}

/** M38. What a leg by itself shows: engine, sails, or neither for certain. */
function kindOfLeg({ circling, rows }: CandidateLeg): RowKind | "doubtful" {
  if (circling) return "motoring";
  const winds = rows.map(plainWind);
  const share = (holds: (wind: ReturnType<typeof plainWind>) => boolean) =>
    winds.filter(holds).length / winds.length;
  const engine = share(
    ({ speed, angle, ratio }) =>
      speed > UNDER_WAY && (angle < NO_SAIL || (ratio > TOO_FAST && speed > 2 * UNDER_WAY)),
  );
  if (engine > 0.7) return "motoring";
  const doubtful = share(({ angle, ratio }) => angle < PINCHING || ratio > VERY_FAST);
  return engine > 0.3 || doubtful > 0.5 ? "doubtful" : "sailing";
}

/**
 * M38. What drove the boat on each leg.
 *
 * @param legs in time order
 * @returns one for each leg: sailing, motoring, or doubtful, which is evidence of neither. Never throws.
 */
export const kindsOfLegs = (legs: readonly CandidateLeg[]): readonly (RowKind | "doubtful")[] =>
  legs.map(kindOfLeg);
