import type { Metres, MetresPerSecond } from "../units.ts";

/**
 * Roughness length of open sea. A. G. Davenport's class 1, in R. Stull, 2000: Meteorology for Scientists and Engineers.
 *
 * @example
 * logarithmicWindSpeed(8, 10, 16, SEA_ROUGHNESS) > 8 // true
 */
export const SEA_ROUGHNESS: Metres = 0.0002;

/**
 * Exponent for the sea at 8 to 12 m. U.S. Army Corps of Engineers, 2002: Coastal Engineering Manual, EM 1110-2-1100, part II-2.
 *
 * @example
 * powerLawWindSpeed(8, 10, 20, SEA_EXPONENT).toFixed(2) // (8 * 2 ** (1 / 7)).toFixed(2)
 */
export const SEA_EXPONENT = 1 / 7;

function demandAbove(caller: string, argument: string, height: Metres, least: Metres): void {
  if (height <= least) throw new RangeError(`${caller}: ${argument} must be above ${least} m, got ${height}`);
}

/**
 * M15. Wind speed at another height by the logarithmic law: speed · ln((to − d)/z₀) / ln((from − d)/z₀). It holds for
 * air neither heated nor cooled from below; on days of shear no law holds. The inverse is itself with the heights
 * exchanged.
 *
 * @param speed at height `from`, m/s
 * @param roughness z₀, m, positive; SEA_ROUGHNESS on open water
 * @param displacement d, m, of the ground by what stands on it; 0 on water
 * @returns m/s; NaN where anything is NaN
 * @throws RangeError where the roughness is not positive, or a height not above displacement + roughness
 * @example
 * // published with windpowerlib: 7.74136523
 * logarithmicWindSpeed(5, 10, 100, 0.15).toFixed(6) // "7.741365"
 */
export function logarithmicWindSpeed(
  speed: MetresPerSecond,
  from: Metres,
  to: Metres,
  roughness: Metres,
  displacement: Metres = 0,
): MetresPerSecond {
  demandAbove("logarithmicWindSpeed", "roughness", roughness, 0);
  demandAbove("logarithmicWindSpeed", "from", from, displacement + roughness);
  demandAbove("logarithmicWindSpeed", "to", to, displacement + roughness);
  return (speed * Math.log((to - displacement) / roughness)) / Math.log((from - displacement) / roughness);
}

/**
 * M16. Wind speed at another height by the power law: speed · (to / from)^exponent. The inverse is itself with the
 * heights exchanged.
 *
 * @param speed at height `from`, m/s
 * @param exponent of the ratio of heights, no unit; SEA_EXPONENT on open water
 * @returns m/s; NaN where anything is NaN
 * @throws RangeError where a height is not above 0
 * @example
 * // published with windpowerlib: 7.92446596
 * powerLawWindSpeed(5, 10, 100, 0.2).toFixed(6) // "7.924466"
 */
export function powerLawWindSpeed(
  speed: MetresPerSecond,
  from: Metres,
  to: Metres,
  exponent: number,
): MetresPerSecond {
  demandAbove("powerLawWindSpeed", "from", from, 0);
  demandAbove("powerLawWindSpeed", "to", to, 0);
  return speed * (to / from) ** exponent;
}
