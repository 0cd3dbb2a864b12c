import { type MeasuredRun, metresPerSecond } from "@bothtacks/core";

/** Runs over a mile in an invented tide. */
export interface TidalTrial {
  /** Through the water, kn. */
  readonly speed: number;
  /** The tide's greatest stream, kn, along the course. */
  readonly stream: number;
  /** When the first run starts, hours after the stream turned to run along with it. */
  readonly after: number;
  readonly count: number;
  /** From the end of a run to the start of the next, minutes. */
  readonly turning: number;
}

/** A tide of half a day, s. */
const PERIOD = 12.42 * 3600;
const TURN = (2 * Math.PI) / PERIOD;
export const MILE = 1852;

/** The stream along the course, kn, so many seconds after the first start. Never throws. */
export const streamAt = ({ stream, after }: TidalTrial, time: number): number =>
  stream * Math.sin(TURN * (time + 3600 * after));

/** How far the stream carries the water along between two times, m. */
const carried = (trial: TidalTrial, from: number, to: number): number => {
  const phase = (time: number): number => Math.cos(TURN * (time + 3600 * trial.after));
  return (metresPerSecond(trial.stream) * (phase(from) - phase(to))) / TURN;
};

/** When a run that starts then has covered the mile: the only root, since the boat is faster than the stream. */
function arrival(trial: TidalTrial, start: number, way: 1 | -1): number {
  const speed = metresPerSecond(trial.speed);
  const slowest = MILE / (speed - metresPerSecond(trial.stream));
  let [early, late] = [start, start + slowest + 1];
  while (late - early > 1e-6) {
    const middle = (early + late) / 2;
    const covered = speed * (middle - start) + way * carried(trial, start, middle);
    if (covered < MILE) early = middle;
    else late = middle;
  }
  return (early + late) / 2;
}

/**
 * The runs, there and back in turn, each over a mile, timed without error.
 *
 * @throws RangeError where the stream is as fast as the boat, who then does not come back
 */
export function tidalRuns(trial: TidalTrial): readonly MeasuredRun[] {
  if (!(trial.speed > Math.abs(trial.stream)))
    throw new RangeError(
      `tidalRuns: speed must exceed the stream, got ${trial.speed} and ${trial.stream} kn`,
    );
  const runs: MeasuredRun[] = [];
  for (let start = 0; runs.length < trial.count; ) {
    const way = runs.length % 2 === 0 ? 1 : -1;
    const end = arrival(trial, start, way);
    runs.push({ start, end, distance: MILE, way });
    start = end + 60 * trial.turning;
  }
  return runs;
}
