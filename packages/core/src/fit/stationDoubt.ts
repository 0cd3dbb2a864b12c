import {
  logarithmicWindSpeed,
  powerLawWindSpeed,
  SEA_EXPONENT,
  SEA_ROUGHNESS,
} from "../physics/windProfile.ts";
import type { Metres } from "../units.ts";

/** Where a station measures the wind, and how well. */
export interface StationPlace {
  /** Of its anemometer above the water. */
  readonly height: Metres;
  /** From the boat. */
  readonly distance: Metres;
  /** How well its own anemometer is known, one standard deviation of its gain. */
  readonly own: number;
  /** How far the wind at its place is, on average over days, from that at the boat's, as a share, one standard deviation; unless told, by the distance. */
  readonly place?: number;
}

/** What no length of log averages out, as shares of the wind speed, one standard deviation each. */
export interface StationDoubt {
  readonly own: number;
  readonly profile: number;
  readonly place: number;
  /** All of them. */
  readonly all: number;
  /** Wind at the boat's sensor over wind at the station's, by height. */
  readonly factor: number;
}

/** Places a nautical mile apart differ by this share, one standard deviation, and others by the root of their distance. Judgement. */
const A_MILE_APART = 0.03;
const MILE: Metres = 1852;

/** Beyond this share places are not one wind. Judgement. */
const MOST_APART = 0.2;

/**
 * M188. What a station's wind is worth at the boat's masthead: brought to its height by the logarithmic profile of open water (M15), and the doubt that
 * stays however long the log is. The profile's is half of what the 1/7 power law (M16) would add, as air that is heated or cooled from
 * below, or land near by, may well make it; the place's 3 % at a mile's distance, with its root.
 *
 * @param sensorHeight of the boat's anemometer above the water
 * @throws RangeError where a height is not above the water's roughness
 *
 * @example
 * stationDoubt({ height: 10, distance: 0, own: 0.02 }, 10).all // 0.02
 * stationDoubt({ height: 10, distance: 1852, own: 0 }, 10).place // 0.03
 */
export function stationDoubt(
  {
    height,
    distance,
    own,
    place = Math.min(MOST_APART, A_MILE_APART * Math.sqrt(distance / MILE)),
  }: StationPlace,
  sensorHeight: Metres,
): StationDoubt {
  const factor = logarithmicWindSpeed(1, height, sensorHeight, SEA_ROUGHNESS);
  const profile = Math.abs(powerLawWindSpeed(1, height, sensorHeight, SEA_EXPONENT) - 1) / 2;
  return { own, profile, place, all: Math.hypot(own, profile, place), factor };
}
