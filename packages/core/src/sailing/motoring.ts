import { type MetresPerSecond, type Radians, radians } from "../units.ts";
import type { CandidateLeg } from "./candidates.ts";
import { kindsByCompany, type LegKind } from "./company.ts";
import { type HeelUnderSail, heelingLoad, heelUnderSail } from "./heelUnderSail.ts";
import { meanSpeed, plainWind } from "./plainWind.ts";
import type { RowOfSeconds } from "./rows.ts";

/**
 * True wind angles (plain vector sum) that no boat sails close to, and that few do: the sensors' own faults, 4° of offset
 * and some percent of speed, are allowed for.
 */
const NO_SAIL: Radians = radians(22);
const PINCHING: Radians = radians(26);

/** Boat speed over true wind speed that no displacement boat reaches, and that few do. */
const TOO_FAST = 1.7;
const VERY_FAST = 1.35;

/** Boats under power move: slower, and the angles are those of a boat in irons or adrift. */
const UNDER_WAY: MetresPerSecond = 1;

/** Heel tells where sails would heel the boat by this much: below the first share of it she has none up, above the second she has. */
const TELLING_HEEL: Radians = radians(5);
const UPRIGHT = 0.3;
const HEELED = 0.6;

const shareOf = <Item>(items: readonly Item[], holds: (item: Item) => boolean): number =>
  items.filter(holds).length / items.length;

/** M38. Whether a row by itself shows an engine: closer to the wind or faster than sails would take her. */
export function showsEngine(row: RowOfSeconds): boolean {
  const { speed, angle, ratio } = plainWind(row);
  return speed > UNDER_WAY && (angle < NO_SAIL || (ratio > TOO_FAST && speed > 2 * UNDER_WAY));
}

/** M38. What a leg's wind and speed alone show. */
function kindByWind({ circling, rows }: CandidateLeg): LegKind {
  if (circling) return "motoring";
  const engine = shareOf(rows, showsEngine);
  if (engine > 0.7) return "motoring";
  const doubtful = shareOf(rows.map(plainWind), ({ angle, ratio }) => angle < PINCHING || ratio > VERY_FAST);
  return engine > 0.3 || doubtful > 0.5 ? "doubtful" : "sailing";
}

/** M38. Share of the heel under sail that a leg's rows show in their median; NaN where sails would not heel her enough to tell. */
function shareOfHeel({ rows }: CandidateLeg, { zero, slope }: HeelUnderSail): number {
  const shares = rows
    .filter((row) => Math.abs(slope * heelingLoad(row)) >= TELLING_HEEL && !Number.isNaN(row.mean.heel))
    .map((row) => (row.mean.heel - zero) / (slope * heelingLoad(row)))
    .sort((a, b) => a - b);
  return 2 * shares.length >= rows.length ? shares[shares.length >> 1]! : Number.NaN;
}

/** A leg under power heels little, one under sail enough; what contradicts itself is evidence of nothing. */
function kindByHeel(kind: LegKind, share: number, speed: MetresPerSecond): LegKind {
  if (kind === "motoring") return share >= HEELED ? "doubtful" : kind;
  if (share <= UPRIGHT) return speed > UNDER_WAY ? "motoring" : "doubtful";
  return share < HEELED ? "doubtful" : kind;
}

/**
 * M38. What drove the boat on each leg: wind and speed first, then the heel where the log shows how she heels under sail,
 * then the company that the leg is in.
 *
 * @param legs in time order
 * @returns one for each leg. Never throws.
 */
export function kindsOfLegs(legs: readonly CandidateLeg[]): readonly LegKind[] {
  const byWind = legs.map(kindByWind);
  const heel = heelUnderSail(legs.flatMap((leg, index) => (byWind[index] === "sailing" ? leg.rows : [])));
  const shares = legs.map((leg) => (heel === undefined ? Number.NaN : shareOfHeel(leg, heel)));
  const alone = byWind.map((kind, index) => kindByHeel(kind, shares[index]!, meanSpeed(legs[index]!)));
  return kindsByCompany(
    legs,
    alone,
    shares.map((share) => share >= HEELED),
  );
}
