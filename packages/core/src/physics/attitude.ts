import type { Metres, MetresPerSecond, Radians, RadiansPerSecond } from "../units.ts";
import type { ApparentWind } from "./windTriangle.ts";

/**
 * The mast's own plane (square to the mast: what a vane and cups at the masthead see) and the level plane, both counted
 * from the bow. Heel is positive to starboard, pitch bow up; level axes: ahead and to starboard, horizontal.
 */

/** Past this no boat still sails, and the tangent has no answer. */
const onHerSide = (angle: Radians): boolean => Math.abs(angle) >= Math.PI / 2;

/**
 * M11. Level component ahead, of a horizontal wind, from what the mast's plane holds: ahead / cos(pitch).
 *
 * @returns m/s; NaN at 90° of pitch and beyond. Never throws.
 * @example
 * levelAhead(5, 0) // 5
 */
export const levelAhead = (ahead: MetresPerSecond, pitch: Radians): MetresPerSecond =>
  onHerSide(pitch) ? Number.NaN : ahead / Math.cos(pitch);

/**
 * M11. Level component athwart: (athwart − ahead · tan(pitch) · sin(heel)) / cos(heel).
 *
 * @returns m/s, positive from starboard; NaN at 90° of heel or pitch and beyond. Never throws.
 * @example
 * levelAthwart(0, 3, radians(60), 0).toFixed(6) // "6.000000"
 */
export const levelAthwart = (
  ahead: MetresPerSecond,
  athwart: MetresPerSecond,
  heel: Radians,
  pitch: Radians,
): MetresPerSecond =>
  onHerSide(heel) || onHerSide(pitch)
    ? Number.NaN
    : (pitch === 0 ? athwart : athwart - ahead * Math.tan(pitch) * Math.sin(heel)) / Math.cos(heel);

const polar = (ahead: MetresPerSecond, athwart: MetresPerSecond): ApparentWind => ({
  angle: Math.atan2(athwart, ahead),
  speed: Math.sqrt(ahead * ahead + athwart * athwart),
});

/**
 * M11. The apparent wind in the level frame, from what the mast's plane holds: without pitch
 * tan(level angle) = tan(angle in the mast plane) / cos(heel), and the speed is that of the levelled vector.
 *
 * @param inMastPlane what a faultless vane and anemometer at the masthead show
 * @returns NaN where anything is NaN or the boat lies on her side. Never throws.
 * @example
 * const { angle } = levelWind({ angle: radians(30), speed: 8 }, radians(-25), 0);
 * (Math.tan(angle) * Math.cos(radians(25))).toFixed(6) === Math.tan(radians(30)).toFixed(6) // true
 */
export function levelWind(inMastPlane: ApparentWind, heel: Radians, pitch: Radians): ApparentWind {
  const ahead = inMastPlane.speed * Math.cos(inMastPlane.angle);
  const athwart = inMastPlane.speed * Math.sin(inMastPlane.angle);
  return polar(levelAhead(ahead, pitch), levelAthwart(ahead, athwart, heel, pitch));
}

/**
 * M11. The wind in the mast's own plane: the inverse of `levelWind`. Horizontal wind (x ahead, y to starboard) has the
 * components x cos(pitch) ahead and y cos(heel) + x sin(heel) sin(pitch) athwart.
 *
 * @returns NaN where anything is NaN or the boat lies on her side. Never throws.
 * @example
 * const level = levelWind({ angle: radians(30), speed: 8 }, radians(-25), radians(2));
 * windInMastPlane(level, radians(-25), radians(2)).speed.toFixed(6) // "8.000000"
 */
export function windInMastPlane(level: ApparentWind, heel: Radians, pitch: Radians): ApparentWind {
  if (onHerSide(heel) || onHerSide(pitch)) return { angle: Number.NaN, speed: Number.NaN };
  const ahead = level.speed * Math.cos(level.angle);
  const athwart = level.speed * Math.sin(level.angle);
  return polar(ahead * Math.cos(pitch), athwart * Math.cos(heel) + ahead * Math.sin(heel) * Math.sin(pitch));
}

/**
 * M13. The masthead's own motion ahead, in the mast's plane: −height · pitch rate, since a bow that rises throws the
 * masthead back. What a vane feels is wind plus this motion: take it off before levelling.
 *
 * @param height of the sensor above the axis that the boat pitches about
 * @param pitchRate rad/s, bow rising positive
 * @returns m/s. Never throws; NaN in, NaN out.
 * @example
 * mastheadMotionAhead(20, 0.1) // -2
 */
export const mastheadMotionAhead = (height: Metres, pitchRate: RadiansPerSecond): MetresPerSecond =>
  -height * pitchRate;

/**
 * M13. The masthead's own motion to starboard, in the mast's plane: height · heel rate + forward · rate of turn.
 *
 * @param height of the sensor above the axis that the boat rolls about
 * @param heelRate rad/s, heeling over to starboard positive
 * @param forward place of the sensor ahead of the axis that the boat turns about
 * @param rateOfTurn rad/s, to starboard positive
 * @returns m/s. Never throws; NaN in, NaN out.
 * @example
 * mastheadMotionAthwart(20, 0.1, 5, 0.2) // 3
 */
export const mastheadMotionAthwart = (
  height: Metres,
  heelRate: RadiansPerSecond,
  forward: Metres,
  rateOfTurn: RadiansPerSecond,
): MetresPerSecond => height * heelRate + forward * rateOfTurn;
