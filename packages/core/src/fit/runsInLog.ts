import { angleBetween, wrapDirection } from "../angles.ts";
import type { LegRow } from "../sailing/legRow.ts";
import { type Radians, radians } from "../units.ts";
import type { LoggedRun } from "./speedFromRuns.ts";

/** Legs whose headings differ by less than this from the axis, or from its other end, are runs along it: 1.5 % at most. */
const ALONG: Radians = radians(15);

/** A run of less than this is a turn's end. */
const SHORTEST_RUN = 60;

/** A leg under power as a run: its mean heading and its means over the rows. */
interface Leg {
  readonly heading: Radians;
  readonly rows: readonly LegRow[];
}

const mean = (rows: readonly LegRow[], of: (row: LegRow) => number): number =>
  rows.reduce((sum, row) => sum + row.count * of(row), 0) / rows.reduce((sum, { count }) => sum + count, 0);

const trueHeading = ({ mean: { heading }, headingIsTrue, variation }: LegRow): Radians =>
  headingIsTrue ? heading : heading + variation;

function legsUnderPower(rows: readonly LegRow[]): readonly Leg[] {
  const byLeg = new Map<number, LegRow[]>();
  for (const row of rows) {
    const { stw, east, north } = row.mean;
    if (row.kind !== "motoring" || !Number.isFinite(stw + east + north + trueHeading(row))) continue;
    if (!(stw > 0)) continue;
    byLeg.set(row.leg, [...(byLeg.get(row.leg) ?? []), row]);
  }
  return [...byLeg.values()]
    .filter((one) => one.reduce((sum, { duration }) => sum + duration, 0) >= SHORTEST_RUN)
    .map((one) => ({
      rows: one,
      heading: wrapDirection(
        Math.atan2(
          mean(one, (row) => Math.sin(trueHeading(row))),
          mean(one, (row) => Math.cos(trueHeading(row))),
        ),
      ),
    }));
}

/** 1 along the axis, −1 against it, 0 neither. */
function wayOf(heading: Radians, axis: Radians): 1 | -1 | 0 {
  if (Math.abs(angleBetween(heading, axis)) <= ALONG) return 1;
  return Math.abs(angleBetween(heading, axis + Math.PI)) <= ALONG ? -1 : 0;
}

/**
 * M134. Straight runs under power on reciprocal headings in a log, as runs over a measured distance (M57): along the line on which she motored
 * longest both ways, each leg with the distance over the ground along her heading by GPS and the log's mean reading.
 *
 * @param rows of the log, its readings uncorrected
 * @returns in the order of time; empty where no line was motored both ways. Never throws.
 *
 * @example
 * runsInLog(rows).length // 0
 */
export function runsInLog(rows: readonly LegRow[]): readonly LoggedRun[] {
  const legs = legsUnderPower(rows);
  const secondsOn = (axis: Radians, way: 1 | -1): number =>
    legs
      .filter(({ heading }) => wayOf(heading, axis) === way)
      .reduce((sum, leg) => sum + leg.rows.reduce((part, { duration }) => part + duration, 0), 0);
  const worth = (axis: Radians): number => Math.min(secondsOn(axis, 1), secondsOn(axis, -1));
  const [axis] = legs.map(({ heading }) => heading).sort((one, other) => worth(other) - worth(one));
  if (axis === undefined || !(worth(axis) > 0)) return [];
  return legs.flatMap(({ heading, rows: own }): readonly LoggedRun[] => {
    const way = wayOf(heading, axis);
    if (way === 0) return [];
    const [first, last] = [own[0]!, own.at(-1)!];
    const [start, end] = [first.start, last.start + last.duration];
    const along = mean(own, (row) => row.mean.east * Math.sin(heading) + row.mean.north * Math.cos(heading));
    return along > 0
      ? [{ start, end, distance: along * (end - start), way, reading: mean(own, (row) => row.mean.stw) }]
      : [];
  });
}
