/**
 * The parameters of a boat's corrections, in the order that fits, covariances and calibration files share; SI and
 * radians, gains by their logarithms.
 *
 * @example
 * PARAMETER_NAMES.includes("vane.mastheadOffset") // true
 */
export const PARAMETER_NAMES = [
  "speed.intercept", // m/s
  "speed.gain", // mean of both tacks' gains, natural logarithm
  "speed.gainDifference", // ln gain on starboard less ln gain on port
  "compass.a", // rad, as are b to e
  "compass.b",
  "compass.c",
  "compass.d",
  "compass.e",
  "compass.heelingError", // rad/rad
  "heel.zero", // rad
  "heelModel.fullHeel", // rad
  "leeway.coefficient", // m²/s²
  "vane.mastheadOffset", // rad
  "vane.upwash", // rad
  "vane.upwashSlope", // rad
  "vane.upwashBroad", // rad
  "anemometer.threshold", // m/s
  "anemometer.gain", // natural logarithm
  "anemometer.speedUp", // 1
] as const;

/** One of PARAMETER_NAMES. */
export type ParameterName = (typeof PARAMETER_NAMES)[number];
