import type { LegRow } from "../sailing/legRow.ts";
import type { Sailing } from "../sailing/sailing.ts";
import type { Remedy, Trouble, WatchedChannel } from "../sailing/trouble.ts";
import { sailingWithout } from "../sailing/troubleCure.ts";
import type { Seconds } from "../units.ts";
import { fouledScan, thrownScan } from "./troubleMotion.ts";
import { type Scan, type ScannedStep, strongestStep } from "./troubleScan.ts";
import { headingOf } from "./troubleSeries.ts";
import { heelScan, vaneScan } from "./troubleTurned.ts";

/** What may have happened to a sensor, and the gain from which on it is believed. */
interface Question {
  readonly kind: "fouled" | "turned";
  readonly channel: WatchedChannel;
  readonly scan: (rows: readonly LegRow[], sailing: Sailing) => Scan;
  /** Rows are left out unless told; a heel sensor's amount is known well enough to set its readings right. */
  readonly remedy?: Remedy;
  /** Well above the highest of some hundred healthy simulated sails, all stretches of rows looked at (M94). */
  readonly believed: number;
}

const QUESTIONS: readonly Question[] = [
  { kind: "fouled", channel: "stw", scan: fouledScan, believed: 70 },
  { kind: "turned", channel: "heading", scan: thrownScan, believed: 110 },
  { kind: "turned", channel: "heel", scan: heelScan, remedy: "set right", believed: 55 },
  { kind: "turned", channel: "awa", scan: vaneScan, believed: 10 },
];

/** Rows that are scanned together at most: some three hours of steady sailing. Work grows with the cube. */
const MOST_ROWS = 400;

/** After so long a silence rows are another outing. */
const ANOTHER_OUTING: Seconds = 7200;

/** So many troubles of one outing are looked for. */
const MOST_TROUBLES = 6;

/** Half a row: when a trouble begins or ends within a row, the neighbour may hold some of it. */
const MARGIN: Seconds = 15;

const endOf = ({ start, duration }: LegRow): Seconds => start + duration;

/** Rows in pieces of nearly equal length, a new one at least after every long silence. */
function piecesOf(rows: readonly LegRow[]): readonly (readonly LegRow[])[] {
  const outings: LegRow[][] = [];
  for (const row of rows) {
    const last = outings.at(-1)?.at(-1);
    if (last === undefined || row.start - endOf(last) > ANOTHER_OUTING) outings.push([]);
    outings.at(-1)!.push(row);
  }
  return outings.flatMap((outing) => {
    const pieces = Math.ceil(outing.length / MOST_ROWS);
    const length = Math.ceil(outing.length / pieces);
    return Array.from({ length: pieces }, (_, piece) => outing.slice(piece * length, (piece + 1) * length));
  });
}

/** A stretch of rows, from one up to and without another. */
interface Stretch {
  readonly first: number;
  readonly end: number;
  readonly size: number;
}

/** Rows next to a stretch that tell nothing either way, so that they may belong to it. */
function widened({ series }: Scan, { first, end, size }: Stretch): Stretch {
  const rows = series[0]!.times.length;
  const isSilent = (row: number): boolean =>
    series.every(({ variances }) => variances[row] === Number.POSITIVE_INFINITY);
  let [from, to] = [first, end];
  while (from > 0 && isSilent(from - 1)) from--;
  while (to < rows && isSilent(to)) to++;
  return { first: from, end: to, size };
}

const lengthOf = (stretches: readonly Stretch[]): number =>
  stretches.reduce((sum, { first, end }) => sum + end - first, 0);

/** What is to be left out: the stretch, or, of a sensor that was turned, the rest if that is shorter. */
function shorterSide(scan: Scan, { kind, remedy }: Question, step: ScannedStep): readonly Stretch[] {
  const rows = scan.series[0]!.times.length;
  const { first, end, size } = step;
  const whole = (stretch: Stretch): Stretch => (remedy === "set right" ? stretch : widened(scan, stretch));
  const inside = [whole(step)];
  if (kind === "fouled") return inside;
  const outside = [
    { first: 0, end: first, size: -size },
    { first: end, end: rows, size: -size },
  ].flatMap((side) => (side.end > side.first ? [whole(side)] : []));
  return lengthOf(inside) <= lengthOf(outside) ? inside : outside;
}

const troubleOf = (
  { kind, channel, remedy = "rows left out" }: Question,
  rows: readonly LegRow[],
  stretch: Stretch,
): Trouble => {
  const { first, end, size } = stretch;
  return {
    kind,
    channel,
    start: rows[first]!.start - (first > 0 ? MARGIN : 0),
    end: endOf(rows[end - 1]!) + (end < rows.length ? MARGIN : 0),
    size: kind === "fouled" ? 1 / (1 + size) : size,
    remedy,
  };
};

/** Rows of one leg on each side of a beginning or end that are compared, at most and at least. */
const [BESIDE, FEWEST_BESIDE] = [3, 2] as const;

/** Rows further apart than this are not compared. */
const NEIGHBOURS: Seconds = 120;

/**
 * Whether at the beginning and end of a fouling it was the wheel that changed, rather than the speed over ground, as where a tide line is
 * crossed. Where no leg goes on across either, nothing speaks against the wheel.
 */
function isWheel(rows: readonly LegRow[], { first, end }: ScannedStep): boolean {
  let [wheel, ground] = [0, 0];
  for (const [edge, sign] of [
    [first, 1],
    [end, -1],
  ] as const) {
    const [before, after] = [rows.slice(Math.max(0, edge - BESIDE), edge), rows.slice(edge, edge + BESIDE)];
    const [last, next] = [before.at(-1), after[0]];
    if (!last || !next || last.leg !== next.leg || next.start - endOf(last) > NEIGHBOURS) continue;
    const [own, others] = [before, after].map((some) => some.filter(({ leg }) => leg === last.leg));
    if (own!.length < FEWEST_BESIDE || others!.length < FEWEST_BESIDE) continue;
    const change = (of: (row: LegRow) => number): number => meanOf(others!, of) - meanOf(own!, of);
    const [ofWheel, overGround] = [change(({ mean }) => mean.stw), change(speedAlong)];
    if (Number.isNaN(ofWheel + overGround)) continue;
    wheel -= sign * ofWheel;
    ground += sign * overGround;
  }
  return wheel >= ground;
}

/** Mean over the rows that tell; NaN where none does. */
function meanOf(rows: readonly LegRow[], of: (row: LegRow) => number): number {
  const known = rows.map(of).filter((value) => !Number.isNaN(value));
  return known.reduce((sum, value) => sum + value, 0) / known.length;
}

const speedAlong = (row: LegRow): number =>
  row.mean.east * Math.sin(headingOf(row)) + row.mean.north * Math.cos(headingOf(row));

/** The trouble of a piece that stands out most over what is believed; none where nothing does. */
function foremost(rows: readonly LegRow[], sailing: Sailing): readonly Trouble[] {
  const found = QUESTIONS.flatMap((question) => {
    const scan = question.scan(rows, sailing);
    const step = strongestStep(scan);
    return step && step.gain > question.believed && (question.kind !== "fouled" || isWheel(rows, step))
      ? [{ question, scan, step }]
      : [];
  }).sort((one, other) => other.step.gain / other.question.believed - one.step.gain / one.question.believed);
  return found
    .slice(0, 1)
    .flatMap(({ question, scan, step }) =>
      shorterSide(scan, question, step).map((stretch) => troubleOf(question, rows, stretch)),
    );
}

/**
 * M94, M95. Troubles of sensors that show only against the other sensors, over minutes: a fouled wheel, a compass thrown, a vane or
 * heel sensor knocked. One after the other, each looked for in the rows that the last has left.
 *
 * @param sailing of one boat; rows that troubles touched already are gone
 * @returns the very same sailing where nothing was found; else without the rows that they touch, and with the troubles listed.
 *   Never throws.
 */
export function sailingWithoutSteps(sailing: Sailing): Sailing {
  const troubles = piecesOf(sailing.rows).flatMap((piece) => {
    const found: Trouble[] = [];
    let rows = piece;
    for (let round = 0; round < MOST_TROUBLES; round++) {
      const more = foremost(rows, sailing);
      if (more.length === 0) break;
      found.push(...more);
      rows = rows.filter((row) => !more.some(({ start, end }) => row.start < end && endOf(row) > start));
    }
    return found;
  });
  return sailingWithout(sailing, troubles);
}
