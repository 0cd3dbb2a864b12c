import { angleBetween } from "../angles.ts";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import { deviation } from "../sensors/compass.ts";
import type { CompassParameters, SensorSettings } from "../sensors/parameters.ts";
import { type Radians, radians } from "../units.ts";
import type { TableRow } from "./cells.ts";
import { type Estimate, estimateOf } from "./estimate.ts";
import { LEARNT } from "./format.ts";

/** A line of the deviation card. */
export interface DeviationEntry {
  /** As the compass reads, rad. */
  readonly heading: Radians;
  /** Added to the heading once the alignment (A) is set, upright, rad. */
  readonly estimate: Estimate;
  /** What was added there while the log was recorded, rad. */
  readonly present: Radians;
  /** Whether a heading near this one was held at all: elsewhere only the curve's shape speaks. */
  readonly sailed: boolean;
}

const STEP_DEGREES = 15;

/** A heading held within this bears on an entry: one step and a half. */
const NEAR = radians(1.5 * STEP_DEGREES);

/** Whether a compass heading was held near this one. Never throws. */
export const wasSailed = (heading: Radians, rows: readonly TableRow[]): boolean =>
  rows.some(({ mean }) => Math.abs(angleBetween(mean.heading, heading)) <= NEAR);

/** Whether the data tell the entry: sailed near it, and more from the data than from what is usual. Never throws. */
export const isTold = ({ estimate, sailed }: DeviationEntry): boolean =>
  sailed && estimate.informed >= LEARNT;

/** Deviation upright and without the alignment (M21). Never throws; NaN in, NaN out. */
export const deviationBesideA = (heading: Radians, compass: CompassParameters): Radians =>
  deviation(heading, 0, { ...compass, a: 0 });

/** Deviation every 15° of compass heading, upright and without the alignment (A). Never throws. */
export const deviationCard = (
  fit: SolvedBoatFit,
  active: SensorSettings,
  rows: readonly TableRow[],
): readonly DeviationEntry[] =>
  Array.from({ length: 360 / STEP_DEGREES }, (_, index) => {
    const heading = radians(index * STEP_DEGREES);
    return {
      heading,
      estimate: estimateOf(({ compass }) => deviationBesideA(heading, compass), fit),
      present: deviationBesideA(heading, active.compass),
      sailed: wasSailed(heading, rows),
    };
  });
