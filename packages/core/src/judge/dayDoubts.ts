import type { ParameterName } from "../sensors/parameterNames.ts";
import { METRES_PER_SECOND_IN_A_KNOT, radians } from "../units.ts";

/**
 * M63. How far what the data of one day point at lies from what undoes the boat's faults best on all days, besides the noise that
 * the fit knows of: standard deviations, SI and radians. Faults have other forms than the settings, so each course and each wind
 * finds other settings to be the best, and each day has its shear and its crew. Estimated by likelihood on 21 pairs of
 * simulated sails on which nothing moved, rounded up by half and more; checked on others (M81).
 */
export const DAY_DOUBTS: Readonly<Record<ParameterName, number>> = {
  "speed.intercept": 0.004,
  "speed.gain": 0.002,
  "speed.gainDifference": 0.001,
  "compass.a": radians(0.06),
  "compass.b": radians(0.35),
  "compass.c": radians(0.3),
  "compass.d": radians(0.08),
  "compass.e": radians(0.08),
  "compass.heelingError": 0.01,
  "heel.zero": radians(0.06),
  // how far she heels is her crew's and the day's sails', and no sensor's
  "heelModel.fullHeel": radians(12),
  "leeway.coefficient": 0.2 * METRES_PER_SECOND_IN_A_KNOT ** 2,
  "vane.mastheadOffset": radians(0.55),
  "vane.upwash": radians(0.35),
  "vane.upwashSlope": radians(0.3),
  "vane.upwashBroad": radians(0.1),
  "anemometer.threshold": 0.04,
  "anemometer.gain": 0.012,
  "anemometer.speedUp": 0.015,
};
