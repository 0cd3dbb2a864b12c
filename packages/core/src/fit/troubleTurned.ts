import { heelingLoad } from "../sailing/heelUnderSail.ts";
import type { LegRow } from "../sailing/legRow.ts";
import type { Sailing } from "../sailing/sailing.ts";
import { type Radians, radians, type Seconds } from "../units.ts";
import type { Scan } from "./troubleScan.ts";
import { type LastingFault, type SeriesOfRows, seriesOfRows, sideOf, wanderOf } from "./troubleSeries.ts";

const LEAST_ROWS = 3;

const scanOf = (
  rows: readonly LegRow[],
  faults: readonly LastingFault[],
  made: Pick<SeriesOfRows, "value" | "error" | "model">,
  leastSize: Radians,
): Scan => ({
  series: [
    seriesOfRows(rows, {
      ...made,
      faults: faults.map(({ shows }) => shows),
      trouble: (row) => (sideOf(row) > 0 ? 1 : 0),
      onOtherTack: (row) => (sideOf(row) < 0 ? 1 : 0),
    }),
  ],
  faultSds: faults.map(({ sd }) => sd),
  leastRows: LEAST_ROWS,
  leastSize,
});

/** How a boat heels under sail: a line over the load, bent, apart on the tacks, other off the wind. */
const HEELING: readonly LastingFault[] = [
  { sd: radians(10), shows: () => 1 },
  { sd: radians(60), shows: heelingLoad },
  { sd: radians(30), shows: sideOf },
  { sd: radians(60), shows: (row) => heelingLoad(row) * Math.abs(heelingLoad(row)) },
  { sd: radians(30), shows: ({ mean }) => Math.sin(mean.awa) },
];

/** Further off the wind than this she heels little, to either side, and a vane's offset may change the tack. */
const HEELS: Radians = radians(110);

/**
 * M95. A heel sensor knocked, by how the boat heels under sail: size is by how much more it reads to starboard, rad. More or less
 * sail makes her heel otherwise to opposite sides. Never throws.
 */
export const heelScan = (rows: readonly LegRow[]): Scan =>
  scanOf(
    rows,
    HEELING,
    {
      value: ({ kind, mean }) => (kind === "sailing" && Math.abs(mean.awa) < HEELS ? mean.heel : Number.NaN),
      error: radians(0.5),
      model: wanderOf(radians(1), radians(1.5)),
    },
    radians(2.5),
  );

/** A tack so near to a leg's beginning or end is the one that it was sailed from or to. */
const NEAR: Seconds = 120;

/** Wind angles of two legs about a tack: below this in the mean, and so near to the usual mean, they are close-hauled. */
const CLOSE: Radians = radians(60);
const LIKE_THE_OTHERS: Radians = radians(5.5);

/** The legs about each tack, with half the angle between them: whatever a vane is turned by drops out of it. */
function tackedLegs({ legs, turns }: Pick<Sailing, "legs" | "turns">) {
  const sailed = legs.filter(({ kind }) => kind === "sailing");
  return turns
    .filter(({ kind }) => kind === "tack")
    .flatMap((tack) => {
      const before = sailed.findLast(({ end }) => end <= tack.end && tack.start - end < NEAR);
      const after = sailed.find(({ start }) => start >= tack.start && start - tack.end < NEAR);
      if (!before || !after || before.tack === after.tack) return [];
      const half = (Math.abs(before.meanAwa) + Math.abs(after.meanAwa)) / 2;
      return half < CLOSE ? [{ numbers: [before.number, after.number], half }] : [];
    });
}

/** Numbers of the legs that are sailed close-hauled, as told by tacks, so that a knocked vane does not change them. */
function closeHauled(sailing: Pick<Sailing, "legs" | "turns">): ReadonlySet<number> {
  const pairs = tackedLegs(sailing);
  const halves = pairs.map(({ half }) => half).sort((a, b) => a - b);
  const usual = halves[halves.length >> 1] ?? Number.NaN;
  return new Set(
    pairs.filter(({ half }) => Math.abs(half - usual) < LIKE_THE_OTHERS).flatMap(({ numbers }) => numbers),
  );
}

/** The angle to which she is sailed close-hauled: a vane's offset, apart on the tacks, closer in more wind. */
const POINTING: readonly LastingFault[] = [
  { sd: radians(10), shows: () => 1 },
  { sd: radians(60), shows: sideOf },
  { sd: radians(30), shows: (row) => sideOf(row) * Math.log(row.mean.aws) },
];

/**
 * M95. A vane knocked, by the angles that she is sailed to close-hauled: size is by how much more it reads, rad. Sails
 * trimmed otherwise change the tacks in opposite directions. Never throws.
 */
export function vaneScan(rows: readonly LegRow[], sailing: Pick<Sailing, "legs" | "turns">): Scan {
  const hauled = closeHauled(sailing);
  return scanOf(
    rows,
    POINTING,
    {
      value: ({ leg, kind, mean }) =>
        kind === "sailing" && hauled.has(leg) && mean.aws > 0 ? mean.awa : Number.NaN,
      error: radians(0.5),
      model: wanderOf(radians(0.5), radians(2.5)),
    },
    radians(2),
  );
}
