import type { FoundDeviation } from "../fit/circleFromBearings.ts";
import { type Radians, radians } from "../units.ts";
import { chiSquareTail } from "./chiSquare.ts";

/** Whether a deviation series stands for what a compass does. */
export interface CircleMisfit {
  /** Chance that headings with the deviation stated scatter as much; NaN where none is to spare. */
  readonly chance: number;
  /** Beyond the series: third harmonics, a compass that tilts or sticks, iron that moved, wrong bearings. */
  readonly beyondSeries: boolean;
  /** Coefficients larger than the approximate series allows. */
  readonly tooLarge: boolean;
  readonly largest: Radians;
}

/** The chance below which the misfit is told. */
const SELDOM = 0.01;

/**
 * The approximate series is good to about 20°: at 7° of deviation it errs by 10', at 21° by 1° 30'.
 *
 * @see an older edition of the Handbook of Magnetic Compass Adjustment, second-hand through an excerpt
 */
const SERIES_HOLDS: Radians = radians(20);

/** M125. What a circle shows that the series cannot. Never throws. */
export function circleMisfit({ series, residuals, spare, scatter }: FoundDeviation): CircleMisfit {
  const freedom = Math.round(spare);
  const chance = freedom > 0 ? chiSquareTail(freedom * scatter ** 2, freedom) : Number.NaN;
  const size = Math.hypot(series.b, series.c) + Math.hypot(series.d, series.e);
  return {
    chance,
    beyondSeries: chance < SELDOM,
    tooLarge: size > SERIES_HOLDS,
    largest: residuals.reduce((most, residual) => Math.max(most, Math.abs(residual)), 0),
  };
}
