/**
 * From the bytes of a log to readings, sources and seconds. No fits, no schemas.
 *
 * @module @bothtacks/core/readers
 */

export * from "../recording/index.ts";
export { type AlignmentCounts, SecondsAligner, type SecondsAlignerOptions } from "../sailing/clock.ts";
export { byChannel, CHANNELS, type Channel, type SecondsBlock } from "../sailing/series.ts";
export * from "../units.ts";
