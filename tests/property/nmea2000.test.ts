import fc from "fast-check";
import { describe, expect, it } from "vitest";
import layout from "../../datasets/published/nmea2000Fields.json" with { type: "json" };
import { Nmea2000Reader } from "../../packages/core/src/recording/nmea2000Reader.ts";
import { QUANTITY_BOUNDS } from "../../packages/core/src/recording/quantityBounds.ts";
import { QUANTITIES } from "../../packages/core/src/recording/readings.ts";
import { chunkSizes } from "../support/arbitraryLog.ts";
import { candumpLine, fastPacket, listedLine, packedLine, type TestFrame } from "../support/canLines.ts";
import { readWhole, type WholeLog } from "../support/wholeLog.ts";

const START = Date.UTC(2031, 5, 14, 12) / 1000;

type Log = WholeLog<Nmea2000Reader>;

const read = (text: string, sizes?: readonly number[]): Log =>
  readWhole(new Nmea2000Reader({ file: "log" }), text, sizes);

/** Frames as a log, 0.1 s apart. */
const logOf = (
  frames: readonly TestFrame[],
  lineOf: (frame: TestFrame, time: number) => string = packedLine,
) => frames.map((frame, index) => `${lineOf(frame, START + index / 10)}\n`).join("");

const contents = ({ reader, time, value, source }: Log) => ({
  time,
  value,
  source,
  sources: reader.sources,
  lines: reader.lines,
  problems: reader.problems,
  counts: reader.problemCounts,
});

const named = ({ reader }: Log) => reader.sources.map(({ quantity, name }) => `${quantity}: ${name}`);

/** A message of 0xff with some of its bits set: little endian, as the bus has it. */
function message(length: number, parts: readonly { firstBit: number; bits: number; holds: number }[]) {
  let bits = (1n << BigInt(8 * length)) - 1n;
  for (const { firstBit, bits: count, holds } of parts) {
    const mask = ((1n << BigInt(count)) - 1n) << BigInt(firstBit);
    bits = (bits & ~mask) | ((BigInt(holds) << BigInt(firstBit)) & mask);
  }
  return Array.from({ length }, (_, at) => Number((bits >> BigInt(8 * at)) & 0xffn));
}

const number = (at: number, bytes: number, holds: number) => ({ firstBit: 8 * at, bits: 8 * bytes, holds });

/** All fields of a parameter group that are read, not available. */
const notAvailable = (pgn: number) =>
  layout.fields
    .filter((field) => field.pgn === pgn)
    .map(({ firstBit, bits, notAvailable: holds }) => ({ firstBit, bits, holds }));

describe("a field, laid out as published, any count in it", () => {
  it.each(layout.fields)("PGN $pgn $field", (field) => {
    const { pgn, length, firstBit, bits, signed, resolution, unit, where, least, greatest, tells } = field;
    const bounds = QUANTITY_BOUNDS[QUANTITIES.find((quantity) => quantity === tells)!];
    const [lowest, highest] = signed ? [-(2 ** (bits - 1)), 2 ** (bits - 1) - 1] : [0, 2 ** bits - 1];
    const count = fc.oneof(
      fc.integer({ min: lowest, max: highest }),
      fc.integer({ min: highest - 4, max: highest }),
    );
    fc.assert(
      fc.property(count, (holds) => {
        const frame = {
          pgn,
          source: 7,
          data: message(length, [...notAvailable(pgn), ...where, { firstBit, bits, holds }]),
        };
        const { value, reader } = read(logOf(length > 8 ? fastPacket(frame) : [frame]));
        const told = holds * resolution;
        const inSi = unit === "K" ? told - 273.15 : told;
        const isBeyondField = told < least - resolution || told > greatest + resolution;
        const isImpossible = isBeyondField || inSi < bounds.least || inSi > bounds.greatest;
        if (holds > highest - 3) expect(value).toEqual([]);
        else if (isImpossible) expect(reader.problemCounts.field).toBe(1);
        else {
          expect(value).toHaveLength(1);
          // an angle of 2π is one of 0; the margin is that of two roundings of numbers this large
          const turns = Math.round((value[0]! - inSi) / (2 * Math.PI));
          expect(unit === "rad" ? Math.abs(turns) < 2 : turns === 0).toBe(true);
          expect(Math.abs(value[0]! - inSi - turns * 2 * Math.PI)).toBeLessThan(
            1e-15 * (1 + Math.abs(told)) * 4,
          );
        }
      }),
      { numRuns: 25 },
    );
  });
});

const WIND = ["trueNorth", "magnetic", "apparent", "boat", "water"];
const wind = (reference: number, source = 115): TestFrame => ({
  pgn: 130306,
  source,
  data: message(8, [number(1, 2, 700), number(3, 2, 7000), { firstBit: 40, bits: 3, holds: reference }]),
});

describe("wind", () => {
  it("computed on board is never taken for apparent: each reference has its own sources", () => {
    expect(named(read(logOf(WIND.map((_, reference) => wind(reference)))))).toEqual([
      "onboardTrueWindDirection: 115 PGN 130306 true north",
      "onboardTrueWindSpeed: 115 PGN 130306 true north",
      "onboardTrueWindDirectionMagnetic: 115 PGN 130306 magnetic north",
      "onboardTrueWindSpeed: 115 PGN 130306 magnetic north",
      "apparentWindAngle: 115 PGN 130306 apparent",
      "apparentWindSpeed: 115 PGN 130306 apparent",
      "onboardTrueWindAngle: 115 PGN 130306 true boat",
      "onboardTrueWindSpeed: 115 PGN 130306 true boat",
      "onboardTrueWindAngle: 115 PGN 130306 true water",
      "onboardTrueWindSpeed: 115 PGN 130306 true water",
    ]);
  });

  it("of a reference that is none makes no reading", () => {
    const log = read(logOf([5, 6, 7].map((reference) => wind(reference))));
    expect(log.value).toEqual([]);
    expect(log.reader.lines).toEqual({ lines: 3, used: 0, ignored: 3, problems: 0 });
  });
});

describe("heading", () => {
  const heading = (reference: number, deviation: number): TestFrame => ({
    pgn: 127250,
    source: 1,
    data: message(8, [
      ...notAvailable(127250),
      number(1, 2, 10_000),
      number(3, 2, deviation),
      { firstBit: 56, bits: 2, holds: reference },
    ]),
  });

  it("by true and by magnetic north are two quantities; deviation is applied to the magnetic one", () => {
    const log = read(
      logOf([heading(0, 500), heading(1, 500), heading(1, -500), heading(2, 0), heading(3, 0)]),
    );
    expect(log.valuesOf("headingTrue")).toEqual([1]);
    expect(log.valuesOf("headingMagnetic")).toEqual([1.05, 0.95]);
    expect(log.value).toHaveLength(3);
  });
});

/** A satellite position: day 22,444 after 1970, so many seconds of it, 50° N, 1.5° W. */
const satellite = (seconds: number, method = 1, source = 3): TestFrame => ({
  pgn: 129029,
  source,
  data: message(43, [
    number(1, 2, 22_444),
    number(3, 4, seconds * 10_000),
    number(7, 8, 50 * 1e16),
    number(15, 8, -1.5 * 1e16),
    { firstBit: 252, bits: 4, holds: method },
  ]),
});

describe("fast packets", () => {
  it("are put together, whatever else comes between", () => {
    const [one, other] = [fastPacket(satellite(100), 3), fastPacket(satellite(100, 1, 9), 3)];
    const mixed = one.flatMap((frame, index) => [frame, wind(2), other[index]!]);
    const log = read(logOf(mixed));
    expect(log.reader.lines).toEqual({ lines: 21, used: 21, ignored: 0, problems: 0 });
    expect(log.valuesOf("latitude").map((place) => (place * 180) / Math.PI)).toEqual([50, 50]);
    expect(log.valuesOf("longitude").map((place) => (place * 180) / Math.PI)).toEqual([-1.5, -1.5]);
  });

  it("that come whole in one line are one record", () => {
    const log = read(logOf([satellite(100)], listedLine));
    expect(log.reader.lines).toEqual({ lines: 1, used: 1, ignored: 0, problems: 0 });
    expect(log.valuesOf("latitude")).toHaveLength(1);
  });

  it("that lost a frame make no reading, and all that is left of them is a problem", () => {
    const frames = fastPacket(satellite(100));
    for (let lost = 0; lost < frames.length; lost++) {
      const log = read(logOf(frames.filter((_, index) => index !== lost)));
      expect(log.value).toEqual([]);
      expect(log.reader.lines).toEqual({ lines: 6, used: 0, ignored: 0, problems: 6 });
      expect(log.reader.problemCounts.cut).toBe(6);
    }
  });

  it("that are cut off by the next message of their number are told, and the next is read", () => {
    const log = read(logOf([...fastPacket(satellite(100)).slice(0, 4), ...fastPacket(satellite(101))]));
    expect(log.reader.lines).toEqual({ lines: 11, used: 7, ignored: 0, problems: 4 });
    expect(log.reader.problems[0]).toMatchObject({
      kind: "cut",
      line: 1,
      received: "4 of them",
      expected: "all 7 frames of a fast packet",
    });
  });

  it("without a measured fix tell neither place nor time", () => {
    for (const method of [0, 6, 7, 8, 15]) {
      const log = read(logOf([satellite(100, method)], listedLine));
      expect(log.value).toEqual([]);
      expect(log.reader.lines.ignored).toBe(1);
    }
  });
});

describe("time", () => {
  const systemTime = (seconds: number, days = 22_444): TestFrame => ({
    pgn: 126992,
    source: 3,
    data: message(8, [number(2, 2, days), number(4, 4, seconds * 10_000)]),
  });
  const untimed = (frame: TestFrame) => packedLine(frame, 0).replace(/^\S+ /, "");

  it("is that before the frame", () => {
    for (const lineOf of [packedLine, candumpLine, listedLine])
      expect(read(logOf([wind(2), wind(2), wind(2)], lineOf)).time.map((one) => one - START)).toEqual(
        [0, 0, 1, 1, 2, 2].map((tenths) => expect.closeTo(tenths / 10, 3)),
      );
  });

  it("is that of the system where lines have none", () => {
    const frames = [systemTime(10), wind(2), systemTime(11), wind(2), systemTime(12)];
    const { timesOf } = read(`${frames.map(untimed).join("\n")}\n`);
    expect(timesOf("apparentWindAngle").map((one) => one - 22_444 * 86_400)).toEqual([10.5, 11.5]);
  });

  it("of a day before that of satellite navigation is none", () => {
    const log = read(`${[systemTime(10, 0), wind(2)].map(untimed).join("\n")}\n`);
    expect(log.time.every(Number.isNaN)).toBe(true);
  });

  it("that counts from a start is put where the first frame that tells the date says", () => {
    const lines = [0.5, 100, 100.5, 101, 101.5].map((seconds, index) =>
      packedLine(index === 2 ? systemTime(600.5) : wind(2), seconds),
    );
    expect(
      read(`${lines.join("\n")}\n`)
        .timesOf("apparentWindAngle")
        .map((one) => one - 22_444 * 86_400),
    ).toEqual([500.5, 600, 601, 601.5]);
  });

  it("that counts from line to line is added up", () => {
    const steps = [0, 0.25, 0.125, 0.5, 0.125, 1.25, 0.25].map((seconds) => packedLine(wind(2), seconds));
    const { timesOf, reader } = read(`${steps.join("\n")}\n`);
    expect(timesOf("apparentWindAngle")).toEqual([0, 0.25, 0.375, 0.875, 1, 2.25, 2.5]);
    expect(reader.problems).toMatchObject([
      { kind: "clock", expected: expect.stringContaining("PGN 126992") },
    ]);
  });

  it("that counts more than a day is a problem", () => {
    expect(read(logOf([systemTime(100_000)])).reader.problemCounts.field).toBe(1);
  });
});

describe("sources", () => {
  it("are told apart by address, parameter group and instance", () => {
    const temperature = (instance: number): TestFrame => ({
      pgn: 130316,
      source: 35,
      data: message(8, [number(1, 1, instance), number(2, 1, 0), number(3, 3, 290_000)]),
    });
    expect(named(read(logOf([temperature(0), temperature(2), wind(2, 7), wind(2, 8)])))).toEqual([
      "waterTemperature: 35 PGN 130316 instance 0",
      "waterTemperature: 35 PGN 130316 instance 2",
      "apparentWindAngle: 7 PGN 130306 apparent",
      "apparentWindSpeed: 7 PGN 130306 apparent",
      "apparentWindAngle: 8 PGN 130306 apparent",
      "apparentWindSpeed: 8 PGN 130306 apparent",
    ]);
  });

  it("of one address on two buses are two", () => {
    const lines = ["can0", "can1", "can0", "can1"].map((bus, index) =>
      packedLine(wind(2), START + index, bus),
    );
    const log = read(`${lines.join("\n")}\n`);
    expect(named(log)).toEqual([
      "apparentWindAngle: 115 PGN 130306 apparent",
      "apparentWindSpeed: 115 PGN 130306 apparent",
      "apparentWindAngle: can1 115 PGN 130306 apparent",
      "apparentWindSpeed: can1 115 PGN 130306 apparent",
    ]);
    expect(log.source).toEqual([0, 1, 2, 3, 0, 1, 2, 3]);
  });
});

describe("lines", () => {
  const whole = packedLine(wind(2), START);
  const counts = (text: string) => read(text).reader.lines;

  it("that hold no frame of this bus are ignored", () => {
    for (const line of [
      "# a comment",
      "",
      "the logger started",
      "(1502979132.106111) can0 7DF#0201050000000000",
      "(1502979132.106111) can0 09F50374#R",
      "(1502979132.106111) can0 09F50374##100A0",
      "(1502979132.106111) can0 20000004#0000000000000000",
      "(1502979132.106111)  can0  09F50374   [0]  remote request",
      "2031-06-14T12:00:00.000Z,0,262386,0,0,3,01,0e,00",
      listedLine({ pgn: 129039, source: 4, data: new Array<number>(26).fill(1) }, START),
      listedLine({ pgn: 126720, source: 4, data: new Array<number>(400).fill(1) }, START),
    ])
      expect([line, counts(`${line}\n`)]).toEqual([line, { lines: 1, used: 0, ignored: 1, problems: 0 }]);
  });

  it("that hold a frame of which something is missing are problems, with what is missing", () => {
    for (const [line, kind, expected] of [
      [whole.slice(0, -1), "cut", "up to 8 bytes of two hexadecimal digits"],
      [`${whole}00`, "cut", "up to 8 bytes of two hexadecimal digits"],
      [whole.replace("#", "#x"), "field", "up to 8 bytes of two hexadecimal digits"],
      ["(1502979132.106111) can0", "cut", "a frame"],
      ["(1502979132.1", "field", "a time in brackets"],
      ["(1502979132.106111) can0 9F50374#00", "field", "an identifier of 8 digits"],
      [" (1502979132.106111)  can0  09F50374   [8]  00 0A 00", "cut", "8 bytes of two hexadecimal digits"],
      [" (1502979132.106111)  can0  09F50374   [9]  00", "field", "[0] to [8]"],
      ["2031-06-14T12:00:00.000Z,2,128259,116,255,8,00,0a", "cut", "8 bytes in hexadecimal digits"],
      ["2031-06-14T12:00:00.000Z,2,128259,116,255,2,00,0a,00", "field", "2 bytes in hexadecimal digits"],
      [
        "2031-06-14T12:00:00.000Z,2,128259,1",
        "cut",
        "time, priority, parameter group, source, destination and count of bytes",
      ],
      ["(1502979132.106111) can0 09F50374#\u00ff", "binary", "text"],
      ["x".repeat(9000), "too long", "at most 8192 characters in a line"],
    ] as const) {
      const { reader, value } = read(`${line}\n`);
      expect(value).toEqual([]);
      expect(reader.lines.problems).toBe(1);
      expect(reader.problems[0]).toMatchObject({ line: 1, kind, expected });
    }
  });

  it("may have words about direction and quality before the frame, and its text behind", () => {
    const line = " (1502979132.106111)  can0  RX - -  09F50374   [8]  00 0A 00 FF FF 00 FF FF   '........'";
    expect(read(line).valuesOf("speedThroughWater")).toEqual([0.1]);
  });

  it("may have their identifier between marks", () => {
    const log = read("<0x09f50374> [8] 00 0a 00 ff ff 00 ff ff");
    expect(named(log)).toEqual(["speedThroughWater: 116 PGN 128259"]);
    expect(log.value).toEqual([0.1]);
    expect(read("<html> [8]").reader.lines.ignored).toBe(1);
  });
});

/** Frames of the groups that are read, of others, fast packets whole or with losses, any bytes; and noise. */
const arbitraryLines: fc.Arbitrary<string> = fc
  .array(
    fc.tuple(
      fc.constantFrom(
        126992,
        127250,
        127251,
        127257,
        127258,
        128000,
        128259,
        128275,
        129026,
        129029,
        130306,
        60928,
      ),
      fc.integer({ min: 0, max: 3 }),
      fc.array(fc.oneof(fc.nat({ max: 255 }), fc.constantFrom(0, 1, 255)), { minLength: 8, maxLength: 8 }),
      fc.constantFrom(packedLine, candumpLine, listedLine),
      fc.nat({ max: 9 }),
    ),
    { maxLength: 60 },
  )
  .map((rows) =>
    rows
      .flatMap(([pgn, source, data, lineOf, kind], index) => {
        if (kind === 0) return [`noise ${data.join(",")}`];
        if (kind === 1) return [lineOf({ pgn, source, data }, START + index).slice(0, 5 + data[0]! / 4)];
        const frames =
          kind > 5 ? [{ pgn, source, data }] : fastPacket(satellite(index, 1, source), data[0]! >> 5);
        const kept = kind === 5 ? frames.filter((_, at) => at !== data[1]! % 7) : frames;
        return kept.map((frame) => lineOf(frame, START + index - (data[2] === 255 ? 3000 : 0)));
      })
      .join("\n"),
  );

describe("any log", () => {
  it("gives the same readings, problems and counts, bit for bit, however it is cut", () => {
    fc.assert(
      fc.property(arbitraryLines, chunkSizes, (log, sizes) => {
        expect(contents(read(log, sizes))).toEqual(contents(read(log)));
      }),
      { numRuns: 60 },
    );
  });

  it("has one outcome for each line, no reading that is NaN, and no time that goes back", () => {
    fc.assert(
      fc.property(arbitraryLines, (log) => {
        const { reader, value, time } = read(log);
        const { lines, used, ignored, problems } = reader.lines;
        expect(lines).toBe(log === "" ? 0 : log.split("\n").length);
        expect(used + ignored + problems).toBe(lines);
        expect(Math.min(used, ignored, problems)).toBeGreaterThanOrEqual(0);
        expect(value.some(Number.isNaN)).toBe(false);
        expect(time.every((one, row) => row === 0 || !(one < time[row - 1]!))).toBe(true);
      }),
    );
  });
});
