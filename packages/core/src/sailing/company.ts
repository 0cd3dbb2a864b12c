import { type MetresPerSecond, type Radians, radians, type Seconds } from "../units.ts";
import type { CandidateLeg } from "./candidates.ts";
import type { RowKind } from "./legRow.ts";
import { meanSpeed, plainWind } from "./plainWind.ts";

/** What a leg is evidence of; doubtful ones are of neither. */
export type LegKind = RowKind | "doubtful";

/** Legs that follow each other within this time may be of one passage under power: at speeds this near, the next and further ones. */
const NEXT: Seconds = 240;
const SAME_SPEED = { next: 0.1, further: 0.06 } as const;

/** Close-hauled, in winds this near each other, speeds further from the usual than this (logarithms) are not the sails' alone. */
const CLOSE_HAULED: Radians = radians(60);
const SAME_WIND = 0.25;
const UNUSUAL = 0.25;
const LEAST_COMPANY = 3;

/** Close-hauled legs by their mean speed and true wind speed; undefined for the others. */
function closeHauled({ rows }: CandidateLeg): { speed: MetresPerSecond; wind: MetresPerSecond } | undefined {
  const winds = rows.map(plainWind);
  const meanOf = (value: (wind: ReturnType<typeof plainWind>) => number) =>
    winds.reduce((sum, wind) => sum + value(wind), 0) / winds.length;
  return meanOf(({ angle }) => angle) < CLOSE_HAULED
    ? { speed: meanOf(({ speed }) => speed), wind: meanOf(({ wind }) => wind) }
    : undefined;
}

/** M38. Legs that are much faster or slower close-hauled than the log's others in the same wind: an engine helps, or drives. */
function unusualBeats(legs: readonly CandidateLeg[], kinds: readonly LegKind[]): readonly boolean[] {
  const beats = legs.map((leg, index) => (kinds[index] === "sailing" ? closeHauled(leg) : undefined));
  return beats.map((beat) => {
    if (beat === undefined) return false;
    const others = beats.flatMap((other) => (other === undefined || other === beat ? [] : [other]));
    const speeds = others
      .filter(({ wind }) => Math.abs(Math.log(wind / beat.wind)) < SAME_WIND)
      .map(({ speed }) => speed)
      .sort((a, b) => a - b);
    return (
      speeds.length >= LEAST_COMPANY && Math.abs(Math.log(beat.speed / speeds[speeds.length >> 1]!)) > UNUSUAL
    );
  });
}

/** Time between two legs. */
const pauseBetween = (before: CandidateLeg, after: CandidateLeg): Seconds => {
  const last = before.rows.at(-1)!;
  return after.rows[0]!.start - last.start - last.duration;
};

/** Legs that an engine seen on a later (or an earlier) leg may have driven too: one after another at its speed. */
function reachedFrom(
  legs: readonly CandidateLeg[],
  kinds: readonly LegKind[],
  underSail: readonly boolean[],
  step: 1 | -1,
): ReadonlySet<number> {
  const reached = new Set<number>();
  legs.forEach((engine, from) => {
    if (kinds[from] !== "motoring") return;
    for (let index = from + step; index >= 0 && index < legs.length; index += step) {
      const [leg, beside] = [legs[index]!, legs[index - step]!];
      const pause = step > 0 ? pauseBetween(beside, leg) : pauseBetween(leg, beside);
      const change = Math.abs(Math.log(meanSpeed(leg) / meanSpeed(engine)));
      const near = index === from + step ? SAME_SPEED.next : SAME_SPEED.further;
      if (kinds[index] === "motoring" || underSail[index] || pause > NEXT || !(change <= near)) return;
      reached.add(index);
    }
  });
  return reached;
}

/**
 * M38. What drove the boat, seen from the legs around: a leg between two under power, or more of them, all one after another at
 * one speed, is taken for one too; on one side of such, for doubtful, unless her heel shows the sails; and so is a beat much
 * faster or slower than the log's others in its wind.
 *
 * @param legs in time order
 * @param kinds what each shows by itself
 * @param underSail where the heel shows the sails
 * @returns one for each leg. Never throws.
 */
export function kindsByCompany(
  legs: readonly CandidateLeg[],
  kinds: readonly LegKind[],
  underSail: readonly boolean[],
): readonly LegKind[] {
  const unusual = unusualBeats(legs, kinds);
  const [after, before] = [reachedFrom(legs, kinds, underSail, 1), reachedFrom(legs, kinds, underSail, -1)];
  return kinds.map((kind, index) => {
    if (after.has(index) && before.has(index)) return "motoring";
    return unusual[index]! || after.has(index) || before.has(index) ? "doubtful" : kind;
  });
}
