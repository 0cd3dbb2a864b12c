import { wrapAngle } from "../angles.ts";
import type { Metres, Radians, Seconds } from "../units.ts";
import { correlatedMean } from "./correlatedMean.ts";

/** A place on the earth. */
export interface Place {
  readonly latitude: Radians;
  readonly longitude: Radians;
}

/** How far positions lie from a place that is known. */
export interface PositionOffset {
  /** East and north of the known place. */
  readonly east: Metres;
  readonly north: Metres;
  readonly distance: Metres;
  /** Half the 95 % interval in each direction. */
  readonly half: Metres;
  /** Over how long a position tells of the next, as far as the stay shows. */
  readonly correlation: Seconds;
  /** Spread of single positions, the larger of both directions. */
  readonly spread: Metres;
  /** Whether the stay is long enough to show its own correlation. */
  readonly isLong: boolean;
}

/** Mean radius of the earth: good to 0.3 % in the short distances here. */
const EARTH: Metres = 6_371_000;

/**
 * What a stay of hours does not average out: errors of orbits and of the air's delay go on for a day and more. Judgement: 1.5 m one standard
 * deviation in each direction for a receiver under open sky without a service of corrections.
 */
const SLOW: Metres = 1.5;

/**
 * M130. How far the mean position lies from a known one, with what the place itself, the slow errors of satellites and the stay's own scatter
 * leave: √(place² + 1.5² + scatter of the mean²).
 *
 * @param positions at equal steps
 * @param place where the antenna is, by chart or survey
 * @param placeDeviation how well that is known, m
 * @returns NaN where fewer than three positions are there. Never throws.
 *
 * @example
 * const place = { latitude: radians(54), longitude: radians(10) };
 * positionAtBerth([place, place, place], 1, place, 2).distance // 0
 */
export function positionAtBerth(
  positions: readonly Place[],
  step: Seconds,
  place: Place,
  placeDeviation: Metres,
): PositionOffset {
  const north = correlatedMean(
    positions.map(({ latitude }) => EARTH * (latitude - place.latitude)),
    step,
  );
  const narrowing = EARTH * Math.cos(place.latitude);
  const east = correlatedMean(
    positions.map(({ longitude }) => narrowing * wrapAngle(longitude - place.longitude)),
    step,
  );
  const own = Math.max(east.deviation, north.deviation);
  return {
    east: east.mean,
    north: north.mean,
    distance: Math.hypot(east.mean, north.mean),
    half: 1.96 * Math.hypot(own, SLOW, placeDeviation),
    correlation: Math.max(east.correlation, north.correlation),
    spread: Math.max(east.spread, north.spread),
    isLong: east.isLong && north.isLong,
  };
}
