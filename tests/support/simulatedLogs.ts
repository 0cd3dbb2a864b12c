import { variationAt } from "../../packages/core/src/physics/variation.ts";
import { Nmea0183Reader } from "../../packages/core/src/recording/nmea0183Reader.ts";
import type { LineCount, Problem, QuantityName } from "../../packages/core/src/recording/readings.ts";
import { SourceList } from "../../packages/core/src/recording/sourceList.ts";
import { SecondsAligner } from "../../packages/core/src/sailing/clock.ts";
import { CHANNELS, type Channel, type SecondsBlock } from "../../packages/core/src/sailing/series.ts";

/** What reader and clock make of a log held in memory. */
export interface ReadLog {
  readonly blocks: readonly SecondsBlock[];
  readonly lines: LineCount;
  readonly problems: readonly Problem[];
  readonly quantities: ReadonlySet<QuantityName>;
}

/** Reads a log whole; each quantity from the only source that it has. */
export function readLog(bytes: Uint8Array): ReadLog {
  const reader = new Nmea0183Reader({ file: "simulated.nmea", sources: new SourceList() });
  const batches = [...reader.push(bytes), ...reader.finish()];
  const chosen = Object.fromEntries(reader.sources.map(({ quantity }, index) => [quantity, index]));
  const aligner = new SecondsAligner({ chosen, variationAt });
  const blocks = [...batches.flatMap((batch) => aligner.push(batch)), ...aligner.finish()];
  const quantities = new Set(reader.sources.map(({ quantity }) => quantity));
  return { blocks, lines: reader.lines, problems: reader.problems, quantities };
}

/** The rows of some blocks by their second. */
export function rowsBySecond(blocks: readonly SecondsBlock[]): ReadonlyMap<number, Record<Channel, number>> {
  const rows = new Map<number, Record<Channel, number>>();
  for (const { length, time, columns } of blocks)
    for (let index = 0; index < length; index++) {
      const entries = CHANNELS.map((channel) => [channel, columns[channel][index]!] as const);
      rows.set(time[index]!, Object.fromEntries(entries) as Record<Channel, number>);
    }
  return rows;
}
