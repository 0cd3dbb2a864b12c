import type { LegRow } from "../sailing/legRow.ts";
import { type MetresPerSecond, metresPerSecond, radians } from "../units.ts";
import type { Scan } from "./troubleScan.ts";
import { headingOf, isStraight, type OfRow, seriesOfRows, sideOf, wanderOf } from "./troubleSeries.ts";

const AXES = ["east", "north"] as const;
type Axis = (typeof AXES)[number];
type OnAxis = (row: LegRow, axis: Axis) => number;

/** A unit ahead, and one to starboard. */
const ahead: OnAxis = (row, axis) => (axis === "east" ? Math.sin(headingOf(row)) : Math.cos(headingOf(row)));
const abeam: OnAxis = (row, axis) => (axis === "east" ? Math.cos(headingOf(row)) : -Math.sin(headingOf(row)));

/** A compass that reads more shows her going so far to port of where she heads. */
const turnedBy =
  (angle: OfRow): OnAxis =>
  (row, axis) =>
    -row.mean.stw * angle(row) * abeam(row, axis);

const harmonic = (of: (heading: number) => number): OnAxis => turnedBy((row) => of(headingOf(row)));

/** What boat speed, compass and leeway may be wrong by all the time, with standard deviations far wider than M46. */
const FAULTS: readonly (readonly [number, OnAxis])[] = [
  [0.1, (row, axis) => row.mean.stw * ahead(row, axis)],
  [0.3, ahead],
  [0.05, (row, axis) => sideOf(row) * row.mean.stw * ahead(row, axis)],
  [radians(20), turnedBy(() => 1)],
  [radians(6), harmonic(Math.sin)],
  [radians(6), harmonic(Math.cos)],
  [radians(6), harmonic((heading) => Math.sin(2 * heading))],
  [radians(6), harmonic((heading) => Math.cos(2 * heading))],
  [radians(5), turnedBy(sideOf)],
  [radians(5), turnedBy(({ mean }) => Math.sin(mean.awa))],
];

/** As for the current in M51 and M52. */
const CURRENT = wanderOf(metresPerSecond(0.2), 0.06);
const CURRENT_ERROR: MetresPerSecond = 0.03;

function motionScan(rows: readonly LegRow[], trouble: OnAxis) {
  const current: OnAxis = (row, axis) =>
    isStraight(row) ? row.mean[axis] - row.mean.stw * ahead(row, axis) : Number.NaN;
  return {
    series: AXES.map((axis) =>
      seriesOfRows(rows, {
        value: (row) => current(row, axis),
        error: CURRENT_ERROR,
        model: CURRENT,
        faults: FAULTS.map(
          ([, shows]) =>
            (row) =>
              shows(row, axis),
        ),
        trouble: (row) => trouble(row, axis),
      }),
    ),
    faultSds: FAULTS.map(([sd]) => sd),
    leastRows: 3,
  };
}

/** M95. A fouled wheel: size is by which share of what it shows the boat is faster. Never throws. */
export const fouledScan = (rows: readonly LegRow[]): Scan => ({
  ...motionScan(rows, (row, axis) => row.mean.stw * ahead(row, axis)),
  leastSize: 0.05,
  sign: 1,
});

/** M95. A compass thrown: size is by how much more it reads, rad. Never throws. */
export const thrownScan = (rows: readonly LegRow[]): Scan => ({
  ...motionScan(
    rows,
    turnedBy(() => 1),
  ),
  leastSize: radians(2),
});
