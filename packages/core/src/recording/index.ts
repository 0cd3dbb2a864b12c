// biome-ignore-all assist/source/organizeImports: from the line of text to the choice of sources

// What outsiders use of recordings: of `@bothtacks/core` and of `@bothtacks/core/readers` alike.

export { nmea0183Checksum, nmea0183Sentence } from "./nmea0183Checksum.ts";
export * from "./nmea0183Writer.ts";
export type { LineCount, Problem, QuantityName, Readings, Source } from "./readings.ts";
export { PROBLEM_KINDS, QUANTITIES } from "./readings.ts";
export type { LogReader, LogReaderOptions } from "./logReader.ts";
export type { LogFormat, LogHead } from "./logFormat.ts";
export { Nmea0183Reader } from "./nmea0183Reader.ts";
export { Nmea2000Reader } from "./nmea2000Reader.ts";
export { SignalKReader } from "./signalKReader.ts";
export { CsvReader } from "./csvReader.ts";
export type { ColumnMapping, DateOrder, MappedColumn, TimeFormat } from "./columnMapping.ts";
export type { ColumnUnit } from "./columnUnits.ts";
export { RecognisedReader } from "./recognisedReader.ts";
export { SourceList } from "./sourceList.ts";
export { RecordingInventory } from "./inventory.ts";
export type { SourceRow } from "./inventoryPart.ts";
export type { Health } from "./healthPart.ts";
export type { Stretch } from "./stretches.ts";
export {
  chooseSources,
  chosenIndices,
  type JudgedSource,
  type SourceChoice,
  type WantedSources,
} from "./chooseSources.ts";
