import type { CandidateLeg } from "./candidates.ts";
import { MOMENT_CHANNELS, type Turn } from "./legRow.ts";
import type { SailingPart } from "./mergedSailing.ts";

/** From, and up to but without, s since 1970. */
interface Stretch {
  readonly start: number;
  readonly end: number;
}

const overlap = (one: Stretch, other: Stretch): boolean => one.start < other.end && other.start < one.end;

/** How much a part tells: its rows, each by how many of its channels are known. */
const told = ({ legs }: SailingPart): number =>
  legs
    .flatMap(({ rows }) => rows)
    .reduce(
      (sum, { mean }) => sum + MOMENT_CHANNELS.filter((channel) => !Number.isNaN(mean[channel])).length,
      0,
    );

const stretchesOf = ({ legs, turns }: SailingPart): readonly Stretch[] => [
  ...legs.flatMap(({ rows }) => rows.map(({ start, duration }) => ({ start, end: start + duration }))),
  ...turns,
];

/** What of a part lies where none of some stretches does. */
function besides(part: SailingPart, taken: readonly Stretch[]): SailingPart {
  const sorted = [...taken].sort((one, other) => one.start - other.start);
  /** The latest end of all stretches up to one. */
  const ends = new Float64Array(sorted.length);
  sorted.forEach(({ end }, place) => {
    ends[place] = Math.max(end, place > 0 ? ends[place - 1]! : end);
  });
  const isFree = ({ start, end }: Stretch): boolean => {
    let [from, to] = [0, sorted.length];
    while (from < to) {
      const middle = (from + to) >> 1;
      if (sorted[middle]!.start < end) from = middle + 1;
      else to = middle;
    }
    return from === 0 || ends[from - 1]! <= start;
  };
  const legs = part.legs.flatMap((leg): readonly CandidateLeg[] => {
    const rows = leg.rows.filter(({ start, duration }) => isFree({ start, end: start + duration }));
    return rows.length === 0 ? [] : [{ ...leg, rows }];
  });
  return { ...part, legs, turns: part.turns.filter((turn: Turn) => isFree(turn)) };
}

/**
 * M163. Parts of one recording in which no moment counts twice: where two logs overlap, what the one that tells more holds stays, and the
 * other fills its gaps.
 *
 * @returns in the order given. Never throws.
 */
export function withoutOverlaps(parts: readonly SailingPart[]): readonly SailingPart[] {
  const overlapping = (part: SailingPart, others: readonly SailingPart[]): readonly SailingPart[] =>
    others.filter((other) => other !== part && overlap(part, other));
  if (parts.every((part) => overlapping(part, parts).length === 0)) return parts;
  const order = parts.map((part) => ({ part, told: told(part) })).sort((a, b) => b.told - a.told);
  const kept = new Map<SailingPart, SailingPart>();
  for (const { part } of order) {
    const taken = overlapping(part, [...kept.keys()]).flatMap((other) => stretchesOf(kept.get(other)!));
    kept.set(part, taken.length === 0 ? part : besides(part, taken));
  }
  return parts.map((part) => kept.get(part)!);
}
