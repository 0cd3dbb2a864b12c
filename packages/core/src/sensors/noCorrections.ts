import type { SensorSettings } from "./parameters.ts";

/**
 * The settings of faultless sensors on a boat that makes no leeway: every reading is taken as it stands.
 *
 * @example
 * const settings = { ...noCorrections, vane: { ...noCorrections.vane, mastheadOffset: radians(2) } };
 */
export const noCorrections: SensorSettings = {
  speed: { intercept: 0, gainStarboard: 1, gainPort: 1 },
  compass: { a: 0, b: 0, c: 0, d: 0, e: 0, heelingError: 0 },
  heel: { sign: 1, zero: 0 },
  heelModel: { fullHeel: 0 },
  vane: { mastheadOffset: 0, upwash: 0, upwashSlope: 0, upwashBroad: 0 },
  anemometer: { threshold: 0, gain: 1, speedUp: 0 },
  leeway: { coefficient: 0 },
};
