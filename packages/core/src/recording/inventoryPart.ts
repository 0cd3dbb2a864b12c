import type { Seconds } from "../units.ts";
import { type Health, type HealthPart, healthOf } from "./healthPart.ts";
import { Likeness, type LikenessCount } from "./likeness.ts";
import { QUANTITY_TRAITS } from "./quantityTraits.ts";
import type { Source } from "./readings.ts";
import { between, NIGHT, outside, type Stretch, stretchTo, together, totalSeconds } from "./stretches.ts";

/** What a recording holds of one source. */
export interface SourceRow extends Health {
  readonly source: Source;
  /** Its place among the recording's sources. */
  readonly index: number;
  /** The earlier source of the same quantity that it repeats, value for value. */
  readonly repeats?: string;
  /** For a heading: the share of its changes that gave just the course over ground; NaN where it could not be compared. */
  readonly courseShare: number;
  /** Whether it is the course over ground under the name of a heading: no compass. */
  readonly isCourse: boolean;
}

/** What one log holds of one source: plain values that add up over the logs of a season. */
export interface SourcePart {
  readonly source: Source;
  readonly health: HealthPart;
  /** How often it was just the course over ground. */
  readonly course: LikenessCount;
  /** How often it repeated each earlier source of its quantity, by that source's name. */
  readonly rivals: readonly { readonly name: string; readonly count: LikenessCount }[];
}

/** What one log holds, source by source, in the order in which they turned up. */
export type InventoryPart = readonly SourcePart[];

const likenessOf = (counts: readonly LikenessCount[]): Likeness => {
  const likeness = new Likeness();
  for (const count of counts) likeness.take(count);
  return likeness;
};

/** The first of a source's rivals that it repeats. */
function repeatedBy(parts: readonly SourcePart[]): string | undefined {
  const counts = new Map<string, LikenessCount[]>();
  for (const { name, count } of parts.flatMap(({ rivals }) => rivals))
    counts.set(name, [...(counts.get(name) ?? []), count]);
  return [...counts].find(([, of]) => likenessOf(of).isCopy)?.[0];
}

/**
 * Pauses of a log: silences of all its sources together that part two days, or were made by a clock that was set.
 *
 * @returns in the order of time. Never throws.
 */
function pausesOf(part: InventoryPart): readonly Stretch[] {
  const heard = part
    .map(({ health }) => health)
    .filter(({ start }) => !Number.isNaN(start))
    .flatMap(({ start, end, gaps }) =>
      outside(
        stretchTo(start, end),
        gaps.filter(({ seconds }) => seconds >= NIGHT),
      ),
    );
  return between(heard, NIGHT);
}

/** What a log holds of a source, and when the log pauses. */
interface PausingPart extends SourcePart {
  readonly pauses: readonly Stretch[];
}

function rowOf(parts: readonly PausingPart[], index: number): SourceRow {
  const { source } = parts[0]!;
  const course = likenessOf(parts.map((part) => part.course));
  const repeats = repeatedBy(parts);
  return {
    source,
    index,
    ...healthOf(
      parts.map(({ health }) => health),
      parts.map(({ pauses }) => pauses),
      QUANTITY_TRAITS[source.quantity],
    ),
    ...(repeats === undefined ? {} : { repeats }),
    courseShare: course.share,
    isCourse: course.isCopy,
  };
}

/**
 * M34. What is in a recording, source by source, from what its logs hold.
 *
 * @param parts one for each log, in an order that stays
 * @returns a row for each source, in the order in which they turned up. Never throws.
 */
export function inventoryRows(parts: readonly InventoryPart[]): readonly SourceRow[] {
  const bySource = new Map<string, PausingPart[]>();
  const pausing = parts.flatMap((part) => {
    const pauses = pausesOf(part);
    return part.map((source): PausingPart => ({ ...source, pauses }));
  });
  for (const part of pausing) {
    const key = `${part.source.quantity} ${part.source.name}`;
    const known = bySource.get(key);
    if (known) known.push(part);
    else bySource.set(key, [part]);
  }
  return [...bySource.values()].map(rowOf);
}

/** First and last time that a log told; NaN where it told none. Never throws. */
export function spanOfPart(part: InventoryPart): readonly [start: Seconds, end: Seconds] {
  const timed = part.map(({ health }) => health).filter(({ start }) => !Number.isNaN(start));
  if (timed.length === 0) return [Number.NaN, Number.NaN];
  return [
    timed.reduce((first, { start }) => Math.min(first, start), Number.POSITIVE_INFINITY),
    timed.reduce((last, { end }) => Math.max(last, end), Number.NEGATIVE_INFINITY),
  ];
}

/** How much time some logs cover, their pauses left out: what two of them cover counts once. Never throws. */
export const secondsCovered = (parts: readonly InventoryPart[]): Seconds =>
  totalSeconds(
    together(
      parts.flatMap((part) => {
        const [start, end] = spanOfPart(part);
        return Number.isNaN(start) ? [] : outside(stretchTo(start, end), pausesOf(part));
      }),
    ),
  );
