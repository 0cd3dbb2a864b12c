import { angleBetween, wrapDirection } from "../angles.ts";
import type { LegRow } from "../sailing/legRow.ts";
import { type MetresPerSecond, type Radians, radians, type Seconds } from "../units.ts";
import type { LoggedRun } from "./speedFromRuns.ts";

/** Legs whose headings differ by less than this from the axis, or from its other end, are runs along it: 1.5 % at most. */
const ALONG: Radians = radians(15);

/** A leg whose rows' headings leave their mean by more than this is a circle or a bend. */
const STRAIGHT: Radians = radians(8);

/** A run of less than this is a turn's end. */
const SHORTEST_RUN = 60;

/** A run found in a log. */
export interface RunInLog extends LoggedRun {
  /** Speed of the apparent wind, as the anemometer read it, weighed by the cosine of its angle; NaN where there was none. */
  readonly wind: MetresPerSecond;
  /** Mean cosine of the apparent wind's angle, a share: 1 right ahead. */
  readonly ahead: number;
}

/** A piece of a leg: a row of M39, or as much of one as a run needs. */
export type RunPiece = Pick<
  LegRow,
  "leg" | "start" | "duration" | "count" | "headingIsTrue" | "variation"
> & {
  readonly mean: Pick<LegRow["mean"], "heading" | "stw" | "east" | "north" | "awa" | "aws">;
};

/** A leg as a run: its mean heading and its means over the pieces. */
interface Leg {
  readonly heading: Radians;
  readonly rows: readonly RunPiece[];
}

const mean = (rows: readonly RunPiece[], of: (row: RunPiece) => number): number =>
  rows.reduce((sum, row) => sum + row.count * of(row), 0) / rows.reduce((sum, { count }) => sum + count, 0);

const trueHeading = ({ mean: { heading }, headingIsTrue, variation }: RunPiece): Radians =>
  headingIsTrue ? heading : heading + variation;

function legsOf(rows: readonly RunPiece[]): readonly Leg[] {
  const byLeg = new Map<number, RunPiece[]>();
  for (const row of rows) {
    const { stw, east, north } = row.mean;
    if (!Number.isFinite(stw + east + north + trueHeading(row)) || !(stw > 0)) continue;
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
    }))
    .filter(({ rows: own, heading }) =>
      own.every((row) => Math.abs(angleBetween(trueHeading(row), heading)) <= STRAIGHT),
    );
}

/** 1 along the axis, −1 against it, 0 neither. */
function wayOf(heading: Radians, axis: Radians): 1 | -1 | 0 {
  if (Math.abs(angleBetween(heading, axis)) <= ALONG) return 1;
  return Math.abs(angleBetween(heading, axis + Math.PI)) <= ALONG ? -1 : 0;
}

/** Legs that lie further apart than this are of different outings: no one current is known through it. */
const OUTING: Seconds = 2 * 3600;

const startOf = ({ rows }: Leg): Seconds => rows[0]!.start;

/** Legs sorted into outings. */
function outingsOf(legs: readonly Leg[]): readonly (readonly Leg[])[] {
  const outings: Leg[][] = [];
  for (const leg of [...legs].sort((one, other) => startOf(one) - startOf(other))) {
    const last = outings.at(-1);
    if (last && startOf(leg) - startOf(last.at(-1)!) <= OUTING) last.push(leg);
    else outings.push([leg]);
  }
  return outings;
}

const secondsOf = ({ rows }: Leg): Seconds => rows.reduce((sum, { duration }) => sum + duration, 0);

/** How long she motored along a line, the shorter of both ways. */
function worthOf(legs: readonly Leg[], axis: Radians): Seconds {
  const on = (way: 1 | -1): Seconds =>
    legs.filter(({ heading }) => wayOf(heading, axis) === way).reduce((sum, leg) => sum + secondsOf(leg), 0);
  return Math.min(on(1), on(-1));
}

/** A leg along a line as a run; none where it is not along it, or was not made good over the ground. */
function runOf({ heading, rows }: Leg, axis: Radians): readonly RunInLog[] {
  const way = wayOf(heading, axis);
  if (way === 0) return [];
  const last = rows.at(-1)!;
  const [start, end] = [rows[0]!.start, last.start + last.duration];
  const along = mean(rows, (row) => row.mean.east * Math.sin(heading) + row.mean.north * Math.cos(heading));
  const reading = mean(rows, (row) => row.mean.stw);
  const ahead = mean(rows, (row) => Math.cos(row.mean.awa));
  const wind = mean(rows, (row) => row.mean.aws * Math.cos(row.mean.awa)) / ahead;
  return along > 0 ? [{ start, end, distance: along * (end - start), way, reading, wind, ahead }] : [];
}

/** The line that was run longest both ways, with the legs of its outing. */
function bestLine(legs: readonly Leg[]) {
  const lines = outingsOf(legs).flatMap((outing) =>
    outing.map(({ heading: axis }) => ({ legs: outing, axis, worth: worthOf(outing, axis) })),
  );
  const [best] = lines.sort((one, other) => other.worth - one.worth);
  return best && best.worth > 0 ? best : undefined;
}

/** Legs along the line that was run longest both ways, as runs. */
const runsAmong = (legs: readonly Leg[]): readonly RunInLog[] => {
  const best = bestLine(legs);
  return best ? best.legs.flatMap((leg) => runOf(leg, best.axis)) : [];
};

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
export const runsInLog = (rows: readonly LegRow[]): readonly RunInLog[] =>
  runsAmong(legsOf(rows.filter(({ kind }) => kind === "motoring")));

/** A log of which this share of the straight sailing was run along one line, both ways, is of runs. Judgement. */
const OF_RUNS = 2 / 3;

/**
 * M134. The runs in a log that was made for them, whatever the wind: of straight legs of a minute and more two thirds must lie along one line.
 *
 * @param pieces of all that was sailed straight
 * @returns as `runsInLog`. Never throws.
 */
export function runsAmongPieces(pieces: readonly RunPiece[]): readonly RunInLog[] {
  const legs = legsOf(pieces);
  const runs = runsAmong(legs);
  const run = runs.reduce((sum, { start, end }) => sum + end - start, 0);
  return run >= OF_RUNS * legs.reduce((sum, leg) => sum + secondsOf(leg), 0) ? runs : [];
}
