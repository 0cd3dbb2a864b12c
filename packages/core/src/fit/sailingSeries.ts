import { wrapAngle } from "../angles.ts";
import { metresPerSecond, radians, type Seconds } from "../units.ts";
import type { ImpliedStates } from "./impliedState.ts";
import type { WanderPrior } from "./stateSpace.ts";

/** The quantities whose wandering the fit judges, each read off the implied states of the rows (M51). */
export const SERIES_NAMES = [
  "direction",
  "logSpeed",
  "currentEast",
  "currentNorth",
  "calmEast",
  "calmNorth",
] as const;
export type SeriesName = (typeof SERIES_NAMES)[number];

/** Whether a series is of her motion through the water and over the ground, in which the wind has no part. */
export const isOfMotion = (name: SeriesName): boolean => name === "currentEast" || name === "currentNorth";

const HALF_AN_HOUR = Math.sqrt(1800);

/** Turbulence is held for 20 to 30 s long; the rows, some 30 s each, could not tell its time scale apart. */
const TURBULENCE_SECONDS: Seconds = 25;

/** Scales may well be twice or half what is expected. */
const SPREAD = 0.7;

const wanderPrior = (inHalfAnHour: number, turbulence: number): WanderPrior => ({
  slow: { median: inHalfAnHour / HALF_AN_HOUR, logSd: SPREAD },
  fast: { median: turbulence, logSd: SPREAD },
  fastSeconds: [TURBULENCE_SECONDS],
});

/**
 * M51. Common practice, no source: in half an hour the wind shifts by some 4° and 8 %, gusts by as much about it, a tidal
 * stream changes by 0.2 kn; a motoring boat in a calm meets 0.4 m/s of air now and then.
 */
export const WANDER_PRIORS: Readonly<Record<SeriesName, WanderPrior>> = {
  direction: wanderPrior(radians(4), radians(4)),
  logSpeed: wanderPrior(0.08, 0.08),
  currentEast: wanderPrior(metresPerSecond(0.2), 0.06),
  currentNorth: wanderPrior(metresPerSecond(0.2), 0.06),
  calmEast: wanderPrior(0.4, 0.4),
  calmNorth: wanderPrior(0.4, 0.4),
};

/** Wind speed, m/s. */
export const windSpeedOf = ({ windEast, windNorth }: ImpliedStates, row: number): number =>
  Math.hypot(windEast[row]!, windNorth[row]!);

/** One quantity of one row (M51), directions in (−π, π]. Never throws. */
export function seriesValue(name: SeriesName, states: ImpliedStates, row: number): number {
  switch (name) {
    case "direction":
      return Math.atan2(states.windEast[row]!, states.windNorth[row]!);
    case "logSpeed":
      return Math.log(windSpeedOf(states, row));
    case "currentEast":
      return states.currentEast[row]!;
    case "currentNorth":
      return states.currentNorth[row]!;
    case "calmEast":
      return states.windEast[row]!;
    case "calmNorth":
      return states.windNorth[row]!;
  }
}

/** How fast what a row implies changes with a parameter (M193), and the wind that it implies. */
export interface ImpliedSlopes {
  /** The wind itself, as a vector of its speed, m/s. */
  atEast: number;
  atNorth: number;
  windEast: number;
  windNorth: number;
  currentEast: number;
  currentNorth: number;
  apparentAngle: number;
  heel: number;
}

/** How fast one quantity of one row changes (M193). Never throws. */
export function seriesSlope(name: SeriesName, slopes: Readonly<ImpliedSlopes>): number {
  const { atEast, atNorth, windEast, windNorth } = slopes;
  switch (name) {
    case "direction":
      return (atNorth * windEast - atEast * windNorth) / (atEast * atEast + atNorth * atNorth);
    case "logSpeed":
      return (atEast * windEast + atNorth * windNorth) / (atEast * atEast + atNorth * atNorth);
    case "currentEast":
      return slopes.currentEast;
    case "currentNorth":
      return slopes.currentNorth;
    case "calmEast":
      return windEast;
    case "calmNorth":
      return windNorth;
  }
}

/** Difference of two values of a quantity: directions the short way. */
export const seriesDifference = (name: SeriesName, value: number, from: number): number =>
  name === "direction" ? wrapAngle(value - from) : value - from;

/** Unwraps a series of directions in place, each against the last that is known. */
export function unwrapDirections(values: Float64Array): void {
  let last = Number.NaN;
  values.forEach((value, index) => {
    if (Number.isNaN(value)) return;
    if (!Number.isNaN(last)) values[index] = last + wrapAngle(value - last);
    last = values[index]!;
  });
}
