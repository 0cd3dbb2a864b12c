import { type Radians, radians } from "../units.ts";
import type { RowOfSeconds } from "./rows.ts";

/** How this boat heels under sail: heel = zero + slope · load. */
export interface HeelUnderSail {
  readonly zero: Radians;
  readonly slope: Radians;
}

/** Wind speed (m/s) at which the load is half of its most (M25). */
const HALF_LOAD = 10;

/** A log shows how its boat heels if it does so by this much, with this correlation, in so many rows. */
const LEAST_HEEL: Radians = radians(6);
const LEAST_CORRELATION = 0.7;
const LEAST_ROWS = 10;

/** M38. What heels a boat under sail, to a constant: sign(a) q / (1 + q), q = (speed / 10 m/s)² cos²(a / 2), as in M25. */
export function heelingLoad({ mean: { awa, aws } }: Pick<RowOfSeconds, "mean">): number {
  const pressure = (aws / HALF_LOAD) ** 2 * Math.cos(awa / 2) ** 2;
  return (Math.sign(awa) * pressure) / (1 + pressure);
}

interface Point {
  readonly load: number;
  readonly heel: Radians;
}

/** Straight line through points by least squares, with its correlation. */
function lineThrough(points: readonly Point[]): HeelUnderSail & { readonly correlation: number } {
  const mean = (value: (point: Point) => number) =>
    points.reduce((sum, point) => sum + value(point), 0) / points.length;
  const [load, heel] = [mean((point) => point.load), mean((point) => point.heel)];
  const covariance = mean((point) => (point.load - load) * (point.heel - heel));
  const [loads, heels] = [
    mean((point) => (point.load - load) ** 2),
    mean((point) => (point.heel - heel) ** 2),
  ];
  const slope = covariance / loads;
  return { zero: heel - slope * load, slope, correlation: Math.abs(covariance) / Math.sqrt(loads * heels) };
}

/**
 * M38. How the boat of a log heels under sail, from rows most of which are under sail: a straight line of heel over load,
 * drawn again without the rows that heel less than half of what it says.
 *
 * @returns undefined where there is no heel sensor, or the log does not show it. Never throws.
 */
export function heelUnderSail(rows: readonly RowOfSeconds[]): HeelUnderSail | undefined {
  const points = rows
    .map((row) => ({ load: heelingLoad(row), heel: row.mean.heel }))
    .filter(({ load, heel }) => Number.isFinite(load + heel));
  const first = lineThrough(points);
  const heeling = points.filter(
    ({ load, heel }) => Math.abs(heel - first.zero - first.slope * load) <= Math.abs(first.slope * load) / 2,
  );
  if (heeling.length < LEAST_ROWS) return undefined;
  const line = lineThrough(heeling);
  const loads = heeling.map(({ load }) => load);
  const range = Math.abs(line.slope) * (Math.max(...loads) - Math.min(...loads));
  return range >= LEAST_HEEL && line.correlation >= LEAST_CORRELATION ? line : undefined;
}
