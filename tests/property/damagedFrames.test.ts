/** Damaged NMEA 2000 and Signal K logs; `FUZZ_COUNT` asks for more of them than the tests do. */
import { readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import { describe, it } from "vitest";
import { Nmea2000Reader } from "../../packages/core/src/recording/nmea2000Reader.ts";
import { RecognisedReader } from "../../packages/core/src/recording/recognisedReader.ts";
import { SignalKReader } from "../../packages/core/src/recording/signalKReader.ts";
import { candumpLine, fastPacket, packedLine, type TestFrame } from "../support/canLines.ts";
import { delta } from "../support/deltas.ts";
import { expectToBear } from "../support/mutations.ts";

/** So many take seconds, or minutes where more are asked for. */
const timeout = 3_600_000;

const count = Number(process.env.FUZZ_COUNT ?? 2000);

/** Some lines of an open recording, which is of frames and of fast packets put together. */
const listed = gunzipSync(
  readFileSync(new URL("../../datasets/recorded/ocean-26s-many-sensors.n2k.gz", import.meta.url)),
)
  .toString("latin1")
  .split("\n")
  .slice(0, 40)
  .join("\n");

/** The same frames as lines of a bus: what is longer than a frame in fast packets. */
const frames: readonly TestFrame[] = listed
  .split("\n")
  .map((line) => line.split(","))
  .filter((fields) => fields.length > 6)
  .flatMap(([, , pgn, source, , , ...data]) => {
    const frame = {
      pgn: Number(pgn),
      source: Number(source),
      data: data.map((byte) => Number.parseInt(byte, 16)),
    };
    return frame.data.length > 8 ? fastPacket(frame) : [frame];
  });

const asLines = (lineOf: typeof packedLine): string =>
  frames.map((frame, index) => lineOf(frame, 1_900_000_000 + index / 50)).join("\n");

const deltas = Array.from({ length: 12 }, (_, second) =>
  delta(
    {
      "environment.wind.angleApparent": 0.5 + second / 100,
      "environment.wind.speedApparent": 7.25,
      "navigation.attitude": { roll: 0.3, pitch: null, yaw: 1 },
      "navigation.position": { latitude: 50.1, longitude: -1.2 },
      "environment.water.temperature": 288.15,
    },
    { time: new Date(Date.UTC(2031, 5, 14, 12, 0, second)).toISOString(), source: `can.${second % 3}` },
  ),
).join("\n");

describe(`${count} damaged logs for each reader are borne, of`, { timeout }, () => {
  it.each([
    ["frames and messages in lists", listed, 2000],
    ["frames, packed", asLines(packedLine), 2001],
    ["frames, spaced", asLines(candumpLine), 2002],
  ])("%s", (_, sample, seed) => {
    expectToBear(() => new Nmea2000Reader({ file: "log" }), sample, {
      count: Math.ceil(count / 3),
      seed,
      isBounded: true,
    });
  });

  it("deltas", () => {
    expectToBear(() => new SignalKReader({ file: "log" }), deltas, { count, seed: 2003, isBounded: true });
  });

  it.each([
    ["frames", listed, 2004],
    ["deltas", deltas, 2005],
  ])("%s whose format must be found first", (_, sample, seed) => {
    expectToBear(() => new RecognisedReader({ file: "log" }), sample, { count: Math.ceil(count / 10), seed });
  });
});
