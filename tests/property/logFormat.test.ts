/** What format a log has is told by its first kilobytes (M103). */
import { readFileSync } from "node:fs";
import { gunzipSync, gzipSync } from "node:zlib";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readingsOfLog, UnusableLog } from "../../packages/core/src/job/readingsOfLog.ts";
import type { LogReader } from "../../packages/core/src/recording/logReader.ts";
import { Nmea0183Reader } from "../../packages/core/src/recording/nmea0183Reader.ts";
import { Nmea2000Reader } from "../../packages/core/src/recording/nmea2000Reader.ts";
import { RecognisedReader } from "../../packages/core/src/recording/recognisedReader.ts";
import { SignalKReader } from "../../packages/core/src/recording/signalKReader.ts";
import { SourceList } from "../../packages/core/src/recording/sourceList.ts";
import { chunkSizes } from "../support/arbitraryLog.ts";
import { candumpLine, listedLine, packedLine } from "../support/canLines.ts";
import { delta } from "../support/deltas.ts";
import { bytesOf, readWhole } from "../support/wholeLog.ts";

const recorded = (name: string): Buffer =>
  readFileSync(new URL(`../../datasets/recorded/${name}`, import.meta.url));

const frame = (index: number) => ({
  pgn: 128259,
  source: 35,
  data: [0, index, 1, 0xff, 0xff, 0, 0xff, 0xff],
});
const framesAs = (lineOf: typeof packedLine): string =>
  Array.from({ length: 300 }, (_, index) => `${lineOf(frame(index % 250), 1_900_000_000 + index)}\n`).join(
    "",
  );

const deltaAt = (second: number): string =>
  delta(
    { "navigation.speedThroughWater": second / 100 },
    { time: new Date(Date.UTC(2031, 5, 14) + second * 1000).toISOString() },
  );
const deltas = Array.from({ length: 200 }, (_, second) => deltaAt(second));
const spread = JSON.stringify(
  deltas.map((one) => JSON.parse(one)),
  null,
  2,
);

type ReaderOf = () => LogReader;
const nmea0183: ReaderOf = () => new Nmea0183Reader({ file: "log" });
const nmea2000: ReaderOf = () => new Nmea2000Reader({ file: "log" });
const signalK: ReaderOf = () => new SignalKReader({ file: "log" });

const LOGS: readonly (readonly [what: string, Buffer, record: string, ReaderOf])[] = [
  ["sentences", recorded("lake-evening-2018.nmea"), "NMEA 0183 sentence", nmea0183],
  ["sentences over a bad line", recorded("river-2016-corrupted.nmea"), "NMEA 0183 sentence", nmea0183],
  [
    "frames in lists",
    gunzipSync(recorded("upwind-leg-2014.n2k.gz")).subarray(0, 60_000),
    "NMEA 2000 frame",
    nmea2000,
  ],
  [
    "frames and messages",
    gunzipSync(recorded("ocean-26s-many-sensors.n2k.gz")).subarray(0, 60_000),
    "NMEA 2000 frame",
    nmea2000,
  ],
  ["frames, packed", Buffer.from(framesAs(packedLine)), "NMEA 2000 frame", nmea2000],
  ["frames, spaced", Buffer.from(framesAs(candumpLine)), "NMEA 2000 frame", nmea2000],
  ["frames, listed", Buffer.from(framesAs(listedLine)), "NMEA 2000 frame", nmea2000],
  ["deltas", Buffer.from(deltas.join("\n")), "Signal K delta", signalK],
  ["a list of deltas", Buffer.from(`[${deltas.join(",")}]`), "Signal K delta", signalK],
  ["a list of deltas, spread over lines", Buffer.from(spread), "Signal K delta", signalK],
];

const contents = (reader: LogReader, log: Uint8Array, sizes?: readonly number[]) => {
  const { time, value, source } = readWhole(reader, log, sizes);
  const { sources, lines, problems } = reader;
  return { time, value, source, sources, lines, problems };
};

describe.each(LOGS)("%s", (_, log, record, readerOf) => {
  const expected = contents(readerOf(), log);

  it("are known for what they are, and read as by their own reader", () => {
    const reader = new RecognisedReader({ file: "log" });
    expect(contents(reader, log)).toEqual(expected);
    expect(reader.format?.record).toBe(record);
    expect(expected.value.length).toBeGreaterThan(100);
  });

  it("so they are as gzip, in chunks of any size", () => {
    const packed = Uint8Array.from(gzipSync(log));
    fc.assert(
      fc.property(chunkSizes, (sizes) => {
        const read = contents(
          new RecognisedReader({ file: "log" }),
          packed,
          sizes.map((size) => size * 50),
        );
        expect(read).toEqual(expected);
      }),
      { numRuns: 2 },
    );
  });

  it("even where the log begins in mid-line, or with words", () => {
    for (const before of [log.subarray(17, 4000), Buffer.from("started\nall is well\n\n# a comment\n")]) {
      const reader = new RecognisedReader({ file: "log" });
      readWhole(reader, Uint8Array.from(Buffer.concat([before, log])));
      expect(reader.format?.record).toBe(record);
    }
  });
});

describe("a log of which nothing can be used", () => {
  const reasonAgainst = async (log: string): Promise<string> => {
    const source = {
      name: "some.log",
      chunks: (async function* () {
        yield bytesOf(log);
      })(),
    };
    try {
      for await (const _ of readingsOfLog(source, new SourceList())) expect.fail("no reading is to be had");
    } catch (error) {
      if (error instanceof UnusableLog) return error.reason;
      throw error;
    }
    return expect.fail("must be refused");
  };

  it("is told which formats are read, where it is of none", async () => {
    for (const log of ["all is well\n", "\u0000\u0001\u0002\u0003"])
      expect(await reasonAgainst(log)).toMatch(
        /^holds no NMEA 0183 sentence, NMEA 2000 frame, Signal K delta or CSV row that this program reads, in 1 line/,
      );
  });

  it("is told which format it has, where nothing of that is read", async () => {
    const ais = packedLine({ pgn: 129794, source: 43, data: [1, 2, 3, 4, 5, 6, 7, 8] }, 1_900_000_000);
    expect(await reasonAgainst(ais)).toBe("holds no NMEA 2000 frame that this program reads, in 1 line");
    expect(await reasonAgainst('{"updates":[]}')).toBe(
      "holds no Signal K delta that this program reads, in 1 line",
    );
    expect(await reasonAgainst(ais.slice(0, -1))).toBe(
      "holds no NMEA 2000 frame that this program reads, in 1 line; in line 1 (cut): expected up to 8 bytes of two hexadecimal digits, received " +
        ais.slice(0, -1),
    );
  });
});
