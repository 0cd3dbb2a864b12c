import geomagnetism from "geomagnetism";
import { degrees, type Metres, type Radians, radians, type Seconds } from "../units.ts";

/**
 * The span of the World Magnetic Models that the package carries (2015, 2015 version 2, 2020 and 2025; of those that
 * hold at a date it takes the newest), in seconds since 1970 UTC.
 *
 * @example
 * variationAt(0, 0, OLDEST_VARIATION - 1) // NaN
 */
export const OLDEST_VARIATION: Seconds = Date.UTC(2014, 11, 15, 7) / 1000;
/**
 * The end of that span, s since 1970 UTC.
 *
 * @example
 * variationAt(0, 0, NEWEST_VARIATION + 1) // NaN
 */
export const NEWEST_VARIATION: Seconds = Date.UTC(2029, 10, 13, 3) / 1000;

/**
 * M17. Magnetic variation (declination) by the World Magnetic Model: what to add to a magnetic direction to have the true
 * one. The model's own error is about 0.3° to 0.5° at middle latitudes (1σ), more near the magnetic poles; iron in rocks
 * and works near by is in no model.
 *
 * @param latitude rad, north positive, geodetic (WGS 84)
 * @param longitude rad, east positive
 * @param time s since 1970 UTC
 * @param height m above the ellipsoid
 * @returns rad, east positive; NaN where an argument is, and before 2014-12-15 and after 2029-11-13, for which there is no
 *   model here: a log's own variation is then the better one
 * @throws RangeError where the latitude lies past a pole (degrees given for radians)
 * @see National Centers for Environmental Information, British Geological Survey, 2024: The US/UK World Magnetic Model
 *   for 2025–2030; computed by the package geomagnetism
 * @example
 * // the World Magnetic Model's test values for 2025.0: 14° N, 143° E, 66 km up: −0.19°
 * degrees(variationAt(radians(14), radians(143), Date.UTC(2025, 0, 1) / 1000, 66_000)).toFixed(2) // "-0.19"
 */
export function variationAt(
  latitude: Radians,
  longitude: Radians,
  time: Seconds,
  height: Metres = 0,
): Radians {
  if (Math.abs(latitude) > Math.PI / 2)
    throw new RangeError(`variationAt: latitude must lie within ±π/2 rad, got ${latitude}`);
  if (!(time >= OLDEST_VARIATION && time <= NEWEST_VARIATION)) return Number.NaN;
  if (!Number.isFinite(longitude + latitude + height)) return Number.NaN;
  const place = [degrees(latitude), degrees(longitude), height / 1000];
  return radians(geomagnetism.model(new Date(time * 1000)).point(place).decl);
}
