export { nmea0183Checksum, nmea0183Sentence } from "./recording/nmea0183Checksum.ts";
export * from "./recording/nmea0183Writer.ts";
export type { LineCount, Problem, QuantityName, Readings, Source } from "./recording/readings.ts";
export { PROBLEM_KINDS, QUANTITIES } from "./recording/readings.ts";
export { type AlignmentCounts, SecondsAligner, type SecondsAlignerOptions } from "./sailing/clock.ts";
export type { Lag } from "./sailing/lagCorrelation.ts";
export { LagShifter } from "./sailing/lagShifter.ts";
export { LAGGED, LagEstimator, type Lagged, type Lags } from "./sailing/lags.ts";
export * from "./sailing/legRow.ts";
export { mergedSailing, type Sailing, type SailingPart } from "./sailing/sailing.ts";
export { byChannel, CHANNELS, type Channel, type SecondsBlock } from "./sailing/series.ts";
export {
  type SailingOptions,
  SailingSummary,
  summariseSailing,
} from "./sailing/summary.ts";
export * from "./units.ts";
