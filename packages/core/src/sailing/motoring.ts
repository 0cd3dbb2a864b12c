import { type MetresPerSecond, type Radians, radians, type Seconds } from "../units.ts";
import type { CandidateLeg } from "./candidates.ts";
import { type HeelUnderSail, heelingLoad, heelUnderSail } from "./heelUnderSail.ts";
import type { RowKind } from "./legRow.ts";
import { type RowOfSeconds, speedOfRow } from "./rows.ts";

/** What a leg is evidence of; doubtful ones are of neither. */
export type LegKind = RowKind | "doubtful";

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

/** Legs that follow each other within this time, at speeds this near each other, may be of one passage under power. */
const NEXT: Seconds = 240;
const SAME_SPEED = 0.1;

/** Close-hauled, in winds this near each other (logarithm), a boat that beats the usual speed by this much has help. */
const CLOSE_HAULED: Radians = radians(60);
const SAME_WIND = 0.25;
const HELPED = 0.22;
const LEAST_COMPANY = 3;

/** Plain vector sum of a row's means: true wind angle, its speed, and the ratio of boat speed to true wind speed. */
function plainWind(row: RowOfSeconds) {
  const [speed, { awa, aws }] = [speedOfRow(row), row.mean];
  const [ahead, abeam] = [aws * Math.cos(awa) - speed, aws * Math.sin(awa)];
  const wind = Math.hypot(ahead, abeam);
  return { speed, angle: Math.abs(Math.atan2(abeam, ahead)), wind, ratio: speed / wind };
}

const shareOf = <Item>(items: readonly Item[], holds: (item: Item) => boolean): number =>
  items.filter(holds).length / items.length;

const meanSpeed = ({ rows }: CandidateLeg): MetresPerSecond =>
  rows.reduce((sum, row) => sum + speedOfRow(row), 0) / rows.length;

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
function kindByHeel(kind: LegKind, share: number): LegKind {
  if (kind === "motoring") return share >= HEELED ? "doubtful" : kind;
  if (share <= UPRIGHT) return "motoring";
  return share < HEELED ? "doubtful" : kind;
}

/** Close-hauled legs by their mean speed and true wind speed; undefined for the others. */
function closeHauled({ rows }: CandidateLeg): { speed: MetresPerSecond; wind: MetresPerSecond } | undefined {
  const winds = rows.map(plainWind);
  const meanOf = (value: (wind: ReturnType<typeof plainWind>) => number) =>
    winds.reduce((sum, wind) => sum + value(wind), 0) / winds.length;
  return meanOf(({ angle }) => angle) < CLOSE_HAULED
    ? { speed: meanOf(({ speed }) => speed), wind: meanOf(({ wind }) => wind) }
    : undefined;
}

/** M38. Legs under sail that are much faster close-hauled than the log's others in the same wind: the engine helps. */
function helpedLegs(legs: readonly CandidateLeg[], kinds: readonly LegKind[]): readonly boolean[] {
  const beats = legs.map((leg, index) => (kinds[index] === "sailing" ? closeHauled(leg) : undefined));
  return beats.map((beat) => {
    if (beat === undefined) return false;
    const others = beats.flatMap((other) => (other === undefined || other === beat ? [] : [other]));
    const speeds = others
      .filter(({ wind }) => Math.abs(Math.log(wind / beat.wind)) < SAME_WIND)
      .map(({ speed }) => speed)
      .sort((a, b) => a - b);
    return speeds.length >= LEAST_COMPANY && Math.log(beat.speed / speeds[speeds.length >> 1]!) > HELPED;
  });
}

/** Whether one leg comes straight after another at the same speed, as with one engine setting. */
function goesOn(before: CandidateLeg | undefined, after: CandidateLeg | undefined): boolean {
  if (before === undefined || after === undefined) return false;
  const last = before.rows.at(-1)!;
  const pause = after.rows[0]!.start - last.start - last.duration;
  return pause <= NEXT && Math.abs(Math.log(meanSpeed(after) / meanSpeed(before))) <= SAME_SPEED;
}

/**
 * M38. What drove the boat on each leg: wind and speed first, then the heel where the log shows how she heels under sail,
 * then the company: a beat
 * much faster than the others in its wind is doubtful; a leg between two under power at the same speed is taken for one too, beside one for doubtful,
 * unless her heel shows the sails.
 *
 * @param legs in time order
 * @returns one for each leg. Never throws.
 */
export function kindsOfLegs(legs: readonly CandidateLeg[]): readonly LegKind[] {
  const byWind = legs.map(kindByWind);
  const heel = heelUnderSail(legs.flatMap((leg, index) => (byWind[index] === "sailing" ? leg.rows : [])));
  const shares = legs.map((leg) => (heel === undefined ? Number.NaN : shareOfHeel(leg, heel)));
  const alone = byWind.map((kind, index) => kindByHeel(kind, shares[index]!));
  const helped = helpedLegs(legs, alone);
  return alone.map((kind, index) => {
    if (helped[index]!) return "doubtful";
    if (kind === "motoring" || shares[index]! >= HEELED) return kind;
    const before = alone[index - 1] === "motoring" && goesOn(legs[index - 1], legs[index]);
    const after = alone[index + 1] === "motoring" && goesOn(legs[index], legs[index + 1]);
    return before && after ? "motoring" : before || after ? "doubtful" : kind;
  });
}
