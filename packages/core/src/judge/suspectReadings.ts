/** Readings that scatter more than this beyond what was stated are looked into. */
const SCATTERED = 2;

/** How much less the others must scatter without a reading for it to be suspect. Judgement. */
const QUIETER = 2;

/** More suspects than this are none. */
const MOST = 2;

/**
 * M185. The readings of which one was probably noted wrongly: without it the others scatter less than half as much. Two may be alike in
 * that, such as two runs the same way at one speed; where three are and more, none stands out.
 *
 * @param readings in the order in which they were noted
 * @param scatterOf what a fit to some of them leaves: scatter over the deviation stated, NaN where none is to spare
 * @returns up to two places from 0, the likelier first; none where all agree within twice what was stated. Throws what `scatterOf` throws.
 *
 * @example
 * const scatterOf = (values) => (Math.max(...values) - Math.min(...values)) / 0.1;
 * suspectReadings([1.0, 1.1, 5.0, 1.05], scatterOf) // [2]
 */
export function suspectReadings<Reading>(
  readings: readonly Reading[],
  scatterOf: (readings: readonly Reading[]) => number,
): readonly number[] {
  const withAll = scatterOf(readings);
  if (!(withAll > SCATTERED)) return [];
  const without = readings.map((_, at) => ({
    at,
    scatter: scatterOf(readings.filter((__, other) => other !== at)),
  }));
  // where one fewer leaves nothing to check the rest by, nothing is known of that one
  if (without.some(({ scatter }) => Number.isNaN(scatter))) return [];
  const suspects = without
    .filter(({ scatter }) => QUIETER * scatter < withAll)
    .sort((one, other) => one.scatter - other.scatter)
    .map(({ at }) => at);
  return suspects.length > MOST ? [] : suspects;
}
