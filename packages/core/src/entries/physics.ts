// biome-ignore-all assist/source/organizeImports: in the order of the method manual

/**
 * Units, angles, wind triangle, the sensors' faults, live true wind. No files, no fits, no schemas.
 *
 * @module @bothtacks/core/physics
 */

export * from "../units.ts";
export * from "../angles.ts";
export * from "../circular.ts";
export * from "../physics/vectors.ts";
export * from "../physics/windTriangle.ts";
export * from "../physics/trueWindColumns.ts";
export * from "../physics/attitude.ts";
export * from "../physics/leeway.ts";
export * from "../physics/current.ts";
export * from "../physics/windProfile.ts";
export * from "../physics/variation.ts";
export * from "../physics/meanOfMeans.ts";
export type * from "../sensors/parameters.ts";
export { noCorrections } from "../sensors/noCorrections.ts";
export * from "../sensors/speedSensor.ts";
export * from "../sensors/compass.ts";
export * from "../sensors/heelSensor.ts";
export * from "../sensors/vane.ts";
export * from "../sensors/anemometer.ts";
export * from "../sensors/heelModel.ts";
export * from "../sensors/boatState.ts";
export * from "../sensors/boatReadings.ts";
export { readingsWithActive, readingsWithoutActive } from "../calibration/activeReadings.ts";
export type { CorrectedSecond } from "../sailing/correctedSeconds.ts";
export * from "../live/damping.ts";
export * from "../live/attitudeRate.ts";
export * from "../live/liveArrays.ts";
export * from "../live/liveState.ts";
export * from "../live/liveWind.ts";
export * from "../live/liveColumns.ts";
