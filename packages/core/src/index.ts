export { nmea0183Checksum, nmea0183Sentence } from "./recording/nmea0183Checksum.ts";
export * from "./recording/nmea0183Writer.ts";
export type { LineCount, Problem, QuantityName, Readings, Source } from "./recording/readings.ts";
export { PROBLEM_KINDS, QUANTITIES } from "./recording/readings.ts";
export * from "./units.ts";
