import { wrapDirection } from "../angles.ts";
import type { Radians } from "../units.ts";
import { increasingRoot } from "./increasingRoot.ts";
import type { CompassParameters } from "./parameters.ts";

/**
 * M21. Deviation, to be added to the compass heading c, east positive:
 * a + b sin c + c cos c + d sin 2c + e cos 2c + heelingError · heel · cos c.
 *
 * @param compassHeading rad, as the compass shows it
 * @param heel rad, positive to starboard; not needed by a compass without heeling error
 * @returns rad; NaN where the heading is, or the heel that is needed. Never throws.
 * @see National Geospatial-Intelligence Agency, 2004: Handbook of Magnetic Compass Adjustment, chapter V
 * @example
 * const series = { a: radians(1), b: 0, c: radians(2), d: 0, e: 0, heelingError: 0 };
 * degrees(deviation(0, 0, series)).toFixed(6) // "3.000000"
 */
export function deviation(compassHeading: Radians, heel: Radians, parameters: CompassParameters): Radians {
  const { a, b, c, d, e, heelingError } = parameters;
  const sine = Math.sin(compassHeading);
  const cosine = Math.cos(compassHeading);
  const tilt = heelingError === 0 ? 0 : heelingError * heel;
  return a + b * sine + (c + tilt) * cosine + 2 * d * sine * cosine + e * (cosine * cosine - sine * sine);
}

/** M21. How fast deviation changes with the compass heading, rad/rad. */
function deviationSlope(compassHeading: Radians, heel: Radians, parameters: CompassParameters): number {
  const { b, c, d, e, heelingError } = parameters;
  const sine = Math.sin(compassHeading);
  const cosine = Math.cos(compassHeading);
  const tilt = heelingError === 0 ? 0 : heelingError * heel;
  return b * cosine - (c + tilt) * sine + 2 * d * (cosine * cosine - sine * sine) - 4 * e * sine * cosine;
}

/**
 * M21. Heading from the compass heading, both from the same north (a log that holds true headings holds the compass's
 * plus the variation): reading + deviation.
 *
 * @returns rad, [0, 2π); NaN where the reading is, or the heel that is needed. Never throws.
 * @example
 * const series = { ...noCorrections.compass, a: radians(3) };
 * degrees(headingFromReading(radians(358), 0, series)).toFixed(6) // "1.000000"
 */
export const headingFromReading = (reading: Radians, heel: Radians, parameters: CompassParameters): Radians =>
  wrapDirection(reading + deviation(reading, heel, parameters));

/**
 * M21. What the compass shows on a heading: the inverse of `headingFromReading`, by Newton's method. It exists where
 * deviation changes by less than a degree a degree, |b, c| + 2 |d, e| < 1 rad: some 50° of deviation.
 *
 * @returns rad, [0, 2π), exact to rounding; NaN where the heading is, the heel that is needed, or where deviation is so
 *   steep that several readings answer. Never throws.
 * @example
 * const series = { ...noCorrections.compass, a: radians(3) };
 * degrees(headingReadingOf(radians(1), 0, series)).toFixed(6) // "358.000000"
 */
export function headingReadingOf(heading: Radians, heel: Radians, parameters: CompassParameters): Radians {
  const { a, b, c, d, e, heelingError } = parameters;
  const tilt = heelingError === 0 ? 0 : heelingError * heel;
  const [once, twice] = [Math.hypot(b, c + tilt), Math.hypot(d, e)];
  if (!(once + 2 * twice < 1)) return Number.NaN;
  const wanted = wrapDirection(heading);
  const reading = increasingRoot(
    (compassHeading) => compassHeading + deviation(compassHeading, heel, parameters) - wanted,
    (compassHeading) => 1 + deviationSlope(compassHeading, heel, parameters),
    wanted - a - once - twice,
    wanted - a + once + twice,
  );
  return wrapDirection(reading);
}
