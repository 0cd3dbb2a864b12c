import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SIGNAL_K_PATHS } from "../../packages/core/src/recording/signalKPaths.ts";
import { SignalKReader } from "../../packages/core/src/recording/signalKReader.ts";
import { chunkSizes } from "../support/arbitraryLog.ts";
import { delta } from "../support/deltas.ts";
import { readWhole, type WholeLog } from "../support/wholeLog.ts";

type Log = WholeLog<SignalKReader>;

const read = (text: string | Uint8Array, sizes?: readonly number[]): Log =>
  readWhole(new SignalKReader({ file: "log" }), typeof text === "string" ? Buffer.from(text) : text, sizes);

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

const wind = (
  second: number,
  more: { readonly context?: string | undefined; readonly source?: string } = {},
) => delta({ "environment.wind.speedApparent": second }, { time: `2031-06-14T12:00:0${second}Z`, ...more });

describe("deltas may stand", () => {
  const three = [wind(1), wind(2), wind(3)];

  it.each([
    ["one a line", three.join("\n")],
    ["with other line ends", three.join("\r\n")],
    ["several a line", three.join(" ")],
    ["in a list on one line", `[${three.join(",")}]`],
    ["in a list, one a line", `[\n${three.join(",\n")}\n]\n`],
    ["spread over lines", three.map((one) => JSON.stringify(JSON.parse(one), null, 2)).join("\n")],
    [
      "in a list that is spread over lines",
      JSON.stringify(
        three.map((one) => JSON.parse(one)),
        null,
        1,
      ),
    ],
    ["behind a mark of byte order", `\ufeff${three.join("\n")}`],
  ])("%s", (_, text) => {
    const log = read(text);
    expect(log.value).toEqual([1, 2, 3]);
    expect(log.reader.lines).toEqual({ lines: 3, used: 3, ignored: 0, problems: 0 });
    expect(log.time.map((time) => time - Date.parse("2031-06-14T12:00:00Z") / 1000)).toEqual([1, 2, 3]);
  });

  it("with several updates of several sources and values", () => {
    const update = (source: string, second: number, value: number) => ({
      $source: source,
      timestamp: `2031-06-14T12:00:0${second}Z`,
      values: [
        { path: "environment.wind.speedApparent", value },
        { path: "navigation.speedThroughWater", value: value / 2 },
      ],
    });
    const log = read(JSON.stringify({ updates: [update("a", 1, 8), update("b", 2, 9)] }));
    expect(named(log)).toEqual([
      "apparentWindSpeed: a",
      "speedThroughWater: a",
      "apparentWindSpeed: b",
      "speedThroughWater: b",
    ]);
    expect(log.value).toEqual([8, 4, 9, 4.5]);
    expect(log.reader.lines).toEqual({ lines: 2, used: 2, ignored: 0, problems: 0 });
  });
});

describe("an object at a branch of the tree", () => {
  const nested = (path: string, value: unknown) =>
    read(JSON.stringify({ updates: [{ $source: "a", values: [{ path, value }] }] }));

  it.each([
    ["environment.wind", { speedApparent: 8, angleApparent: 0.5 }],
    ["environment", { wind: { speedApparent: 8, angleApparent: 0.5 }, mode: "day" }],
    ["", { environment: { wind: { speedApparent: 8, angleApparent: 0.5 } }, name: "any" }],
  ])("at %j is read as its leaves would be", (path, value) => {
    const log = nested(path, value);
    expect(named(log)).toEqual(["apparentWindSpeed: a", "apparentWindAngle: a"]);
    expect(log.value).toEqual([8, 0.5]);
    expect(log.reader.lines).toEqual({ lines: 1, used: 1, ignored: 0, problems: 0 });
  });

  it("is trusted no more than its leaves would be", () => {
    const { reader } = nested("environment.wind", { speedApparent: "8" });
    expect(reader.problems).toMatchObject([
      { kind: "field", expected: expect.stringContaining("speedApparent") },
    ]);
    expect(nested("propulsion", { port: { revolutions: 3 } }).reader.lines.ignored).toBe(1);
  });
});

describe("what is wrong with one line costs that line", () => {
  const between = (line: string) => read([wind(1), line, wind(2)].join("\n"));

  it.each([
    ["its end is missing", wind(1).slice(0, 60), "cut", "a whole object"],
    ["its beginning is missing", wind(1).slice(20), "cut", "a whole object"],
    ["it ends within a text", '{"context":"vessels.se', "cut", "a whole object"],
    ["it is no JSON", '{"updates":[nothing]}', "field", "a delta"],
    ["it is binary", "\u0000\u0001\u00ff", "binary", "text"],
    ["updates are no list", '{"updates":{"values":[]}}', "field", "updates: a list"],
    ["an update is no object", '{"updates":[7]}', "field", "an update: an object"],
    ["values are no list", '{"updates":[{"values":7}]}', "field", "values: a list"],
    ["a path is no text", '{"updates":[{"values":[{"path":7,"value":1}]}]}', "field", "path: a text"],
    ["its context is no text", '{"context":7,"updates":[]}', "field", "context: a text"],
    [
      "its time is none",
      delta({ "navigation.speedThroughWater": 1 }, { time: "yesterday" }),
      "field",
      "timestamp: date and time by ISO 8601",
    ],
    [
      "its heading is in degrees",
      delta({ "navigation.headingMagnetic": 303 }),
      "field",
      "navigation.headingMagnetic: a number of radians, a turn at most",
    ],
    [
      "its position is a text",
      delta({ "navigation.position": "50 N" }),
      "field",
      "navigation.position: an object",
    ],
  ])("%s", (_, line, kind, expected) => {
    const log = between(line);
    expect(log.value).toEqual([1, 2]);
    expect(log.reader.lines).toEqual({ lines: 3, used: 2, ignored: 0, problems: 1 });
    expect(log.reader.problems).toMatchObject([{ kind, line: 2, expected }]);
  });

  it.each([
    ["a comment", "# written by hand"],
    ["another message", '{"requestId":"1","state":"COMPLETED"}'],
    ["a delta without updates", '{"updates":[]}'],
    ["notes about paths", '{"updates":[{"meta":[{"path":"navigation.position","value":{"units":"deg"}}]}]}'],
    ["paths that are not read", delta({ "propulsion.port.revolutions": 30, constructor: 1, __proto__: 2 })],
    ["half a position", delta({ "navigation.position": { latitude: 50, longitude: null } })],
    ["what is not known", delta({ "environment.wind.speedApparent": null, "navigation.attitude": null })],
    ["another vessel", wind(1, { context: "vessels.urn:mrn:imo:mmsi:230000000" })],
  ])("unless nothing is: %s is ignored", (_, line) => {
    const log = between(line);
    expect(log.value).toEqual([1, 2]);
    expect(log.reader.lines).toEqual({ lines: 3, used: 2, ignored: 1, problems: 0 });
  });
});

describe("nothing that is no number becomes one", () => {
  const paths = [...SIGNAL_K_PATHS].map(([path]) => path);
  const hostile: fc.Arbitrary<unknown> = fc.oneof(
    fc.constantFrom("1.5", "", true, false, [], [1.5], {}, { value: 1.5 }, "NaN", "Infinity", "0x10"),
    fc.constantFrom(1e308, -1e308, 1e16, Number.MAX_SAFE_INTEGER),
    fc.record({ roll: fc.constantFrom("0.1", 1e9, [0.1], {}), latitude: fc.constantFrom("50", 91, 1e300) }),
  );

  it("whatever stands where a number should", () => {
    fc.assert(
      fc.property(fc.constantFrom(...paths), hostile, (path, value) => {
        const log = read(delta({ [path]: value }));
        expect(log.value).toEqual([]);
        expect(log.reader.lines.used).toBe(0);
      }),
    );
  });

  it("nor a number that JSON cannot hold", () => {
    for (const number of ["1e999", "-1e999", "NaN", "Infinity", "1.5.5", "0x1F"]) {
      const text = delta({ "navigation.speedThroughWater": 0 }).replace('"value":0', `"value":${number}`);
      const log = read(text);
      expect(log.value).toEqual([]);
      expect(log.reader.lines.problems).toBe(1);
    }
  });

  it("nor what is nested without end", () => {
    const deep = 200_000;
    const text = `{"updates":${"[".repeat(deep)}${"]".repeat(deep)}}\n{"a":${'{"a":'.repeat(deep / 2)}1${"}".repeat(deep / 2)}}\n`;
    const log = read(`${text}${wind(1)}`);
    expect(log.value).toEqual([1]);
    const { lines, used, ignored, problems } = log.reader.lines;
    expect([lines, used, ignored + problems]).toEqual([3, 1, 2]);
  });

  it("and an endless object takes no memory", () => {
    const reader = new SignalKReader({ file: "endless" });
    const chunk = Buffer.from(`"${"a".repeat(1 << 16)}",`);
    reader.push(Buffer.from('{"updates":['));
    const before = process.memoryUsage().arrayBuffers;
    for (let n = 0; n < 500; n++) reader.push(chunk);
    // 33 MB went through; a delta of 1 MB, held in an array that doubles as it grows, is all that may be kept
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(8_000_000);
    reader.push(Buffer.from(`]}\n${wind(1)}\n`));
    expect(reader.finish().map(({ length }) => length)).toEqual([1]);
    expect(reader.problems).toMatchObject([{ kind: "too long", line: 1 }]);
  });
});

describe("the boat herself", () => {
  const other = "vessels.urn:mrn:imo:mmsi:230000000";
  const own = "vessels.urn:mrn:signalk:uuid:b7590868-1d62-47d9-989c-32321b349fb9";
  const course = delta({ "navigation.speedOverGround": 5 }, { context: other });

  it("is she whom a hello message names, with or without the word before", () => {
    for (const self of [own, own.slice("vessels.".length)]) {
      const text = [
        JSON.stringify({ self, version: "1" }),
        wind(1, { context: other }),
        wind(2, { context: own }),
      ];
      expect(read(text.join("\n")).value).toEqual([2]);
    }
  });

  it("is she who is called so", () => {
    expect(
      read([wind(1), wind(2, { context: own }), wind(3, { context: undefined })].join("\n")).value,
    ).toEqual([1, 3]);
  });

  it("is else the first who tells what only her own sensors can", () => {
    const text = [
      course,
      wind(1, { context: own }),
      course,
      wind(2, { context: other }),
      wind(3, { context: own }),
    ];
    expect(read(text.join("\n")).value).toEqual([1, 3]);
  });
});

describe("sources", () => {
  const from = (source: unknown) =>
    named(
      read(
        JSON.stringify({
          updates: [{ source, values: [{ path: "navigation.speedThroughWater", value: 1 }] }],
        }),
      ),
    )[0];

  it("without a reference have the name that they give themselves", () => {
    expect(from({ label: "can0", type: "NMEA2000", src: "115", pgn: 128259 })).toBe(
      "speedThroughWater: can0.115",
    );
    expect(from({ label: "serial", talker: "VW", sentence: "VHW" })).toBe("speedThroughWater: serial.VW");
    expect(from("a text")).toBe("speedThroughWater: no source");
    expect(from(undefined)).toBe("speedThroughWater: no source");
  });

  it("have names without control characters, of bounded length", () => {
    const name = named(read(wind(1, { source: `\u001b[31m${"x".repeat(5000)}\u0000\u202e` })))[0]!;
    expect(name).toMatch(/^apparentWindSpeed: \u00b7\[31mx+$/);
    expect(name.length).toBeLessThan(100);
  });

  it("keep winds apart that were computed over the water, over the ground, or not at all", () => {
    const log = read(
      delta({
        "environment.wind.angleApparent": 0.5,
        "environment.wind.angleTrueWater": 0.7,
        "environment.wind.angleTrueGround": 0.8,
        "environment.wind.speedTrue": 6,
        "environment.wind.speedOverGround": 7,
      }),
    );
    expect(named(log)).toEqual([
      "apparentWindAngle: can.115",
      "onboardTrueWindAngle: can.115 over water",
      "onboardTrueWindAngle: can.115 over ground",
      "onboardTrueWindSpeed: can.115 over water",
      "onboardTrueWindSpeed: can.115 over ground",
    ]);
  });
});

const anyValue: fc.Arbitrary<unknown> = fc.oneof(
  fc.double({ min: -7, max: 7, noNaN: true }),
  fc.constant(null),
  fc.record({ roll: fc.double({ min: -1, max: 1, noNaN: true }), pitch: fc.constant(null) }),
  fc.record({
    latitude: fc.double({ min: -90, max: 90, noNaN: true }),
    longitude: fc.constantFrom(1.5, "x"),
  }),
  fc.jsonValue({ maxDepth: 2 }),
);

/** A stream of deltas as it may be found: mostly sound, times mostly going forward, lines damaged here and there. */
const arbitraryStream: fc.Arbitrary<string> = fc
  .array(
    fc.tuple(
      fc.dictionary(fc.constantFrom(...SIGNAL_K_PATHS.keys(), "navigation.destination"), anyValue, {
        maxKeys: 3,
      }),
      fc.constantFrom("a", "b.1", "c"),
      fc.constantFrom("vessels.self", undefined, "vessels.urn:other"),
      fc.nat({ max: 9 }),
      fc.nat({ max: 80 }),
      fc.constantFrom("\n", "\r\n", " ", ",\n"),
    ),
    { maxLength: 40 },
  )
  .map((rows) =>
    rows
      .map(([values, source, context, kind, cut, end], index) => {
        const second = Date.UTC(2031, 5, 14, 12) + 500 * index - (kind === 1 ? 5_000_000 : 0);
        const text = delta(values, { source, context, time: new Date(second).toISOString() });
        return `${kind === 0 ? text.slice(0, cut) : kind === 2 ? `\u00e9${text}` : text}${end}`;
      })
      .join(""),
  );

describe("any stream", () => {
  it("gives the same readings, problems and counts, bit for bit, however it is cut", () => {
    fc.assert(
      fc.property(arbitraryStream, chunkSizes, (text, sizes) => {
        expect(contents(read(text, sizes))).toEqual(contents(read(text)));
      }),
      { numRuns: 60 },
    );
  });

  it("has one outcome for each record, no reading that is NaN, and no time that goes back", () => {
    fc.assert(
      fc.property(fc.oneof(arbitraryStream, fc.json(), fc.string()), (text) => {
        const { reader, value, time } = read(text);
        const { lines, used, ignored, problems } = reader.lines;
        expect(used + ignored + problems).toBe(lines);
        expect(Math.min(used, ignored, problems)).toBeGreaterThanOrEqual(0);
        expect(value.every(Number.isFinite)).toBe(true);
        expect(time.every((one, row) => row === 0 || !(one < time[row - 1]!))).toBe(true);
      }),
    );
  });
});
