import { type Radians, radians, type Seconds } from "../units.ts";

/** The variation that a chart's compass rose gives: for a year, with its change a year. */
export interface ChartVariation {
  /** East positive. */
  readonly variation: Radians;
  /** The year that it is given for, such as 2024; the middle of that year counts. */
  readonly year: number;
  /** rad a year, east positive. */
  readonly annualChange: Radians;
}

const YEAR: Seconds = 365.25 * 86400;

/** The middle of a year, s since 1970 UTC. */
const middleOf = (year: number): Seconds => (Date.UTC(year, 0, 1) + Date.UTC(year + 1, 0, 1)) / 2000;

/** A rose is printed to quarters of a degree and drawn for the chart's middle. Judgement. */
const ROSE: Radians = radians(0.25);

/** The annual change itself changes by some 1' in ten years and more. Judgement: 0.5' a year for each year of the rose's age. */
const CHANGE_A_YEAR: Radians = radians(0.5 / 60);

/**
 * M124. Variation at a time from a chart's rose, carried on by the annual change, with a standard deviation that grows with the rose's age.
 *
 * @returns rad, east positive; NaN in, NaN out. Never throws.
 *
 * @example
 * const rose = { variation: radians(-3), year: 2020, annualChange: radians(9 / 60) };
 * degrees(variationFromChart(rose, Date.UTC(2030, 6, 2) / 1000).variation).toFixed(2) // "-1.50"
 */
export function variationFromChart(
  { variation, year, annualChange }: ChartVariation,
  time: Seconds,
): { readonly variation: Radians; readonly deviation: Radians } {
  const age = (time - middleOf(year)) / YEAR;
  return {
    variation: variation + age * annualChange,
    deviation: Math.hypot(ROSE, CHANGE_A_YEAR * age),
  };
}
