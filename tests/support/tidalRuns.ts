import type { LoggedRun } from "../../packages/core/src/fit/speedFromRuns.ts";
import { METRES_PER_SECOND_IN_A_KNOT as KNOT } from "../../packages/core/src/units.ts";

const TIDE = (2 * Math.PI) / (12.42 * 3600);

/** A boat whose speed sensor and tide are known. */
export interface TidalBoat {
  /** M20, m/s. */
  readonly intercept: number;
  readonly gain: number;
  /** Strongest stream, m/s, and where in the tide the runs begin, rad. */
  readonly stream: number;
  readonly phase: number;
  /** Error of one run's mean speed, m/s. */
  readonly error: () => number;
  /** Speed through the water from what it has nominally; the same by default. */
  readonly reading?: (speed: number) => number;
}

/** Runs of ten minutes at these speeds (kn), there and back in turn, three minutes to turn, in a stream that goes with the sine of half a day. */
export function runsIn(boat: TidalBoat, speeds: readonly number[]): readonly LoggedRun[] {
  const { intercept, gain, stream, phase, error } = boat;
  const readingOf = boat.reading ?? ((speed: number) => (speed - intercept) / gain);
  return speeds.map((kn, index) => {
    const [speed, start] = [kn * KNOT, index * 780];
    const way = index % 2 === 0 ? 1 : -1;
    const cosine = (time: number): number => Math.cos(TIDE * time + phase);
    const carried = (stream * (cosine(start) - cosine(start + 600))) / TIDE;
    const distance = 600 * (speed + error()) + way * carried;
    return { start, end: start + 600, distance, way, reading: readingOf(speed) };
  });
}
