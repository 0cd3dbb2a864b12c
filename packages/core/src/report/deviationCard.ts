import type { SolvedBoatFit } from "../fit/boatFit.ts";
import { deviation } from "../sensors/compass.ts";
import type { CompassParameters, SensorSettings } from "../sensors/parameters.ts";
import { type Radians, radians } from "../units.ts";
import { type Estimate, estimateOf } from "./estimate.ts";

/** A line of the deviation card. */
export interface DeviationEntry {
  /** As the compass reads, rad. */
  readonly heading: Radians;
  /** Added to the heading once the alignment (A) is set, upright, rad. */
  readonly estimate: Estimate;
  /** What was added there while the log was recorded, rad. */
  readonly present: Radians;
}

const STEP_DEGREES = 15;

/** Deviation upright and without the alignment (M21). Never throws; NaN in, NaN out. */
export const deviationBesideA = (heading: Radians, compass: CompassParameters): Radians =>
  deviation(heading, 0, { ...compass, a: 0 });

/** Deviation every 15° of compass heading, upright and without the alignment (A). Never throws. */
export const deviationCard = (fit: SolvedBoatFit, active: SensorSettings): readonly DeviationEntry[] =>
  Array.from({ length: 360 / STEP_DEGREES }, (_, index) => {
    const heading = radians(index * STEP_DEGREES);
    return {
      heading,
      estimate: estimateOf(({ compass }) => deviationBesideA(heading, compass), fit),
      present: deviationBesideA(heading, active.compass),
    };
  });
