/**
 * NMEA 2000 frames: what they tell, and when (M101, M102).
 *
 * SOURCE: canboat/canboatjs, test; field layout canboat/canboat, docs/canboat.json; commits in
 *   datasets/published/nmea2000Frames.json.
 * STATUS: read in the repositories; second-hand for the standard, which is not public.
 * INPUTS: each frame alone in a log, in each of the three forms that a line may have; lines of a bus as they are published.
 * MARGIN: half a unit of the last digit printed; what is printed whole is exact up to the rounding of a conversion.
 */
import { describe, expect } from "vitest";
import data from "../../datasets/published/nmea2000Frames.json" with { type: "json" };
import { Nmea2000Reader } from "../../packages/core/src/recording/nmea2000Reader.ts";
import { QUANTITIES } from "../../packages/core/src/recording/readings.ts";
import { radians } from "../../packages/core/src/units.ts";
import { candumpLine, fastPacket, listedLine, packedLine, type TestFrame } from "../support/canLines.ts";
import { agrees, published } from "../support/published.ts";
import { readWhole, type WholeLog } from "../support/wholeLog.ts";

const decimals = (value: number): number => String(value).split(".")[1]?.length ?? 0;

const read = (lines: readonly string[]) =>
  readWhole(new Nmea2000Reader({ file: "log" }), `${lines.join("\n")}\n`);

type Tells = Readonly<Record<string, readonly (number | string)[] | undefined>>;

/** Expects just the values that are told, to half a unit of the last digit printed. */
function expectTold(log: WholeLog<Nmea2000Reader>, tells: Tells): void {
  expect(log.reader.lines.problems).toBe(0);
  expect(log.value).toHaveLength(Object.keys(tells).length);
  for (const [name, [printed, unit] = []] of Object.entries(tells)) {
    const value = Number(printed);
    const quantity = QUANTITIES.find((one) => one === name)!;
    const [actual, ...more] = log.valuesOf(quantity);
    expect(more).toEqual([]);
    const [inSi, half] = [value, 0.5 * 10 ** -decimals(value)].map(unit === "deg" ? radians : (one) => one);
    agrees(actual!, inSi!, half! * 1.000001, "half a unit of the last digit printed");
  }
}

/** A frame as lines of a bus, which has no more than 8 bytes in one. */
const onBus =
  (lineOf: typeof packedLine) =>
  (frame: TestFrame, time: number): readonly string[] =>
    (frame.data.length > 8 ? fastPacket(frame) : [frame]).map((part) => lineOf(part, time));

describe.each([
  ["packed", onBus(packedLine)],
  ["spaced", onBus(candumpLine)],
  ["listed", (frame: TestFrame, time: number) => [listedLine(frame, time)]],
])("a frame in a line, %s", (_, linesOf) => {
  for (const { pgn, bytes, tells } of data.frames)
    published(`PGN ${pgn}: ${bytes}`, data.source, () => {
      const frame = { pgn, source: 42, data: bytes.split(",").map((byte) => Number.parseInt(byte, 16)) };
      expectTold(read(linesOf(frame, 1_500_000_000)), tells);
    });
});

/** A frame without a time, of a sensor that tells no date. */
const SPEED = ",2,128259,7,255,8,ff,00,01,ff,ff,00,ff,ff";

describe("the time that frames tell", () => {
  const timed = data.frames.flatMap(({ pgn, bytes, time }) =>
    time === undefined ? [] : [{ time, lines: [`,3,${pgn},42,255,${bytes.split(",").length},${bytes}`] }],
  );
  const logs = data.logs.flatMap(({ time, lines }) => (time === undefined ? [] : [{ time, lines }]));
  for (const { time, lines } of [...timed, ...logs])
    published(`${lines[0]} at ${time}`, data.source, () => {
      const { timesOf } = read([...lines, SPEED]);
      const [told] = timesOf("speedThroughWater");
      agrees(told! - Date.parse(time) / 1000, 0.5, 0.5, "the next frame comes within the second after");
    });
});

describe("lines of a bus", () => {
  for (const { lines, name, tells } of data.logs)
    published(lines[0]!, data.source, () => {
      const log = read(lines);
      expectTold(log, tells);
      for (const source of log.reader.sources) expect(source.name).toBe(name);
    });
});

describe("listed frames with any time before them, and with spaces", () => {
  for (const line of data.stamped.lines)
    published(line, data.source, () => expectTold(read([line]), data.stamped.tells));
});
