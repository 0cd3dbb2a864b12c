/**
 * What columns hold: by their headers where these are plain, by a mapping file, and what is asked where neither tells it.
 *
 * INPUTS: headers and rows made here.
 * MARGIN: none, or double rounding of one conversion.
 */
import { describe, expect, it } from "vitest";
import { columnsFromFile } from "../../packages/core/src/calibration/columnsFile.ts";
import { columnsSkeleton } from "../../packages/core/src/calibration/columnsSkeleton.ts";
import { columnMeaning } from "../../packages/core/src/recording/columnNames.ts";
import { COLUMN_UNITS, siOf, unitWritten } from "../../packages/core/src/recording/columnUnits.ts";
import { metresPerSecond, radians } from "../../packages/core/src/units.ts";
import { agrees } from "../support/published.ts";
import { wholeCsv } from "../support/wholeCsv.ts";

describe("a header", () => {
  it.each([
    ["stw_kn", "speedThroughWater", "kn"],
    ["AWA [deg]", "apparentWindAngle", "deg"],
    ["boat speed (kn)", "speedThroughWater", "kn"],
    ["tws_ms", "onboardTrueWindSpeed", "m/s"],
    ["aws_m_s", "apparentWindSpeed", "m/s"],
    ["sog_kn", "speedOverGround", "kn"],
    ["stw_km_h", "speedThroughWater", "km/h"],
    ["hdg_deg", "heading", "deg"],
    ["hdg_m_deg", "headingMagnetic", "deg"],
    ["hdg_ms", undefined, undefined],
    ["Apparent Wind Speed (m/s)", "apparentWindSpeed", "m/s"],
    ["apparentWindAngle_rad", "apparentWindAngle", "rad"],
    ["AWS / kts", "apparentWindSpeed", "kn"],
    ["SOG, km/h", "speedOverGround", "km/h"],
    ["heading_mag_deg", "headingMagnetic", "deg"],
    ["Heading (deg true)", "headingTrue", "deg"],
    ["magnetic heading (°)", "headingMagnetic", "deg"],
    ["HDG_M", "headingMagnetic", undefined],
    ["hdg true", "headingTrue", undefined],
    ["cog", "courseOverGround", undefined],
    ["COG (deg mag)", "courseOverGroundMagnetic", "deg"],
    ["twd_mag_deg", "onboardTrueWindDirectionMagnetic", "deg"],
    ["heel", "heel", undefined],
    ["rate of turn (deg/min)", "rateOfTurn", "deg/min"],
    ["Lat", "latitude", undefined],
    ["water temperature (°C)", "waterTemperature", "°C"],
    ["heading", "heading", undefined],
    ["environment.wind.angleApparent", "apparentWindAngle", "rad"],
    ["navigation.speedThroughWater", "speedThroughWater", "m/s"],
    ["navigation.attitude.roll", "heel", "rad"],
    ["navigation.position.latitude", "latitude", "deg"],
    ["environment.water.temperature", "waterTemperature", "K"],
    ["navigation.rateOfTurn", "rateOfTurn", "rad/s"],
    ["environment.depth.belowTransducer", "depthBelowTransducer", "m"],
    ["depth", undefined, undefined],
    ["stw_deg", undefined, undefined],
    ["true", undefined, undefined],
    ["kn", undefined, undefined],
    ["", undefined, undefined],
  ] as const)("%j", (header, quantity, unit) => {
    expect(columnMeaning(header)).toMatchObject({
      ...(quantity ? { quantity } : {}),
      ...(unit ? { unit } : {}),
    });
    expect(columnMeaning(header).quantity).toBe(quantity);
    expect(columnMeaning(header).unit).toBe(unit);
  });

  it.each([
    ["time", "time", false],
    ["UTC", "time", true],
    ["Time (UTC)", "time", true],
    ["timestamp_ms", "time", false],
    ["Date", "date", false],
    ["UTC date", "date", true],
    ["Date/Time", undefined, false],
  ] as const)("%j tells the time", (header, time, isUtc) => {
    expect(columnMeaning(header).time).toBe(time);
    expect(columnMeaning(header).isUtc).toBe(isUtc);
  });

  it("no word means two units", () => {
    const words = COLUMN_UNITS.flatMap((unit) => (unitWritten(unit.toLowerCase()) === unit ? [] : [unit]));
    expect(words).toEqual([]);
  });
});

const at = (second: number): string => `2031-05-14T12:00:0${second}Z`;

describe("units", () => {
  it("become SI", () => {
    for (const [unit, value, expected] of [
      ["kn", 1, 1852 / 3600],
      ["km/h", 36, 10],
      ["mph", 1, 0.44704],
      ["ft", 1, 0.3048],
      ["fathoms", 1, 1.8288],
      ["nmi", 1, 1852],
      ["°F", 50, 10],
      ["K", 273.15, 0],
      ["deg/min", 60, radians(1)],
    ] as const) {
      const { factor, zero } = siOf(unit);
      agrees((value - zero) * factor, expected, 1e-12, "double rounding; all exact by definition");
    }
  });

  it("may stand in a line below the header", () => {
    const log = wholeCsv(`time,STW,AWA\n,kn,(deg)\n${at(0)},6,1.5\n`);
    expect(log.valuesOf("speedThroughWater")).toEqual([metresPerSecond(6)]);
    expect(log.valuesOf("apparentWindAngle")).toEqual([radians(1.5)]);
    expect(log.reader.lines).toEqual({ lines: 3, used: 1, ignored: 2, problems: 0 });
  });

  it("of angles are degrees where a value is more than a turn in radians", () => {
    expect(wholeCsv(`time,awa\n${at(0)},3\n${at(1)},7\n`).valuesOf("apparentWindAngle")).toEqual([
      radians(3),
      radians(7),
    ]);
    expect(wholeCsv(`time,awa\n${at(0)},3\n${at(1)},6\n`).reader.refusal).toContain(
      'the unit of column "awa"',
    );
  });

  it("of latitude and longitude are one", () => {
    const log = wholeCsv(`time,lat,lon\n${at(0)},50.5,-1.25\n`);
    expect(log.valuesOf("longitude")).toEqual([radians(-1.25)]);
  });

  it("that are not told of what no calibration needs leave the column unread, which is told", () => {
    const log = wholeCsv(`time,stw_kn,variation\n${at(0)},6,1.5\n`);
    expect(log.reader.sources.map(({ quantity }) => quantity)).toEqual(["speedThroughWater"]);
    expect(log.reader.problems).toMatchObject([{ kind: "column", line: 1, received: "variation" }]);
    expect(log.reader.lines.problems).toBe(0);
  });
});

describe("what is not plain is asked", () => {
  const asked = (log: string): string => {
    const { reader, value } = wholeCsv(log);
    expect(value).toEqual([]);
    expect(reader.lines.used).toBe(0);
    return reader.refusal;
  };

  it("a unit, with what to write", () => {
    expect(asked(`time,boat_speed\n${at(0)},6\n`)).toBe(
      'the unit of column "boat_speed" is not told; write "boat_speed": {"quantity":"speedThroughWater","unit":"kn"} under "columns" of a mapping file, or "m/s", "km/h" or "mph" for its unit; "bothtacks columns" writes a mapping file to fill in',
    );
  });

  it("the north of a heading", () => {
    expect(asked(`time,heading,stw_kn\n${at(0)},300,6\n`)).toMatch(
      /column "heading" does not tell its north/,
    );
  });

  it("a zone", () => {
    expect(asked("time,stw_kn\n2031-05-14 12:00:00,6\n")).toMatch(/\(2031-05-14 12:00:00\) tell no zone/);
  });

  it.each([["67397.0"], ["51270.5"], ["14/05/2031 12:00"], ["05:14"]])("how %s tells the time", (time) => {
    expect(asked(`time,stw_kn\n${time},6\n`)).toMatch(/^how "time" tells the time/);
  });

  it("which column tells the time, and what there is to read", () => {
    expect(asked("a,stw_kn\n1,6\n")).toMatch(/no column is known to tell the time/);
    expect(asked(`time,b\n${at(0)},6\n`)).toMatch(/no column is known to hold/);
  });

  it("all at once, the first in words", () => {
    expect(asked("t,aws,hdg\n1,2,300\n")).toMatch(/the unit of column "aws".*; 2 more questions are open;/);
  });
});

describe("a mapping file", () => {
  const LOG = "clock;a;b;c\n0;10,5;-2;7\n1,5;11;-3;8\n";
  const MAPPING = {
    schema: "bothtacks-columns",
    version: 1,
    time: { column: "clock", as: { format: "seconds", start: "2031-05-14T14:00:00+02:00" } },
    columns: {
      a: { quantity: "apparentWindSpeed", unit: "km/h" },
      b: { quantity: "heel", unit: "deg", turned: true },
      "4": { quantity: "none" },
    },
  };

  it("says what columns hold, by name or number", () => {
    const log = wholeCsv(LOG, MAPPING);
    expect(log.reader.refusal).toBe("");
    log.valuesOf("apparentWindSpeed").forEach((value, row) => {
      agrees(value * 3.6, [10.5, 11][row]!, 1e-14, "double rounding, there and back");
    });
    expect(log.valuesOf("heel")).toEqual([radians(2), radians(3)]);
    expect(log.timesOf("heel")).toEqual([0, 1.5].map((after) => Date.parse(at(0)) / 1000 + after));
  });

  it("reads a table without a header", () => {
    const log = wholeCsv("0 ,6.5\n1, 6.6\n".replaceAll(" ", ""), {
      time: { column: 1, as: { format: "seconds", start: at(0) } },
      columns: { "2": { quantity: "speedThroughWater", unit: "kn" } },
    });
    expect(log.valuesOf("speedThroughWater")).toEqual([metresPerSecond(6.5), metresPerSecond(6.6)]);
  });

  it("may overrule a header", () => {
    const log = wholeCsv(`time,heading_mag_deg\n${at(0)},10\n`, {
      columns: { heading_mag_deg: { quantity: "headingTrue", unit: "deg" } },
    });
    expect(log.reader.sources).toEqual([{ quantity: "headingTrue", name: "heading_mag_deg" }]);
  });

  it("that names a column which is not there is told so", () => {
    const { reader } = wholeCsv(LOG, { ...MAPPING, columns: { d: { quantity: "none" } } });
    expect(reader.refusal).toMatch(/there is no column "d"/);
  });

  it.each([
    [{ version: 2 }, "version: expected 1, received 2"],
    [
      { columns: { a: { quantity: "heel" } } },
      'columns.a.unit: expected one of "deg", "rad" for heel, received nothing',
    ],
    [
      { columns: { a: { quantity: "heel", unit: "kn" } } },
      'columns.a.unit: expected one of "deg", "rad" for heel, received "kn"',
    ],
    [{ columns: { a: { quantity: "speed" } } }, "columns.a.quantity: expected one of"],
    [{ columns: { a: { quantity: "heel", unti: "deg" } } }, 'did you mean "unit"?'],
    [
      { time: { column: "t", as: { format: "?" } } },
      'time.as.format: expected one of "iso", "epoch", "day and time", "time of day", "spreadsheet", "seconds", received',
    ],
    [
      { time: { column: "t", as: { format: "iso", utc_offset: "2h" } } },
      'an offset from UTC such as "+02:00", or "Z"',
    ],
    [
      { time: { column: "t", as: { format: "time of day", date: "2031-02-30", utc_offset: "Z" } } },
      "a date that there is",
    ],
  ])("that is wrong is refused: %j", (fields, message) => {
    expect(() => columnsFromFile(JSON.stringify(fields), "columns.json")).toThrow(message);
  });
});

describe("a mapping file to fill in", () => {
  const skeletonOf = (log: string): unknown => JSON.parse(columnsSkeleton(new TextEncoder().encode(log))!);

  it("holds all columns, and ? where something is asked", () => {
    expect(skeletonOf("t,awa,aws,heading,note\n1,-30,7,300,fine\n")).toEqual({
      schema: "bothtacks-columns",
      version: 1,
      time: { column: "t", as: { format: "?" } },
      columns: {
        awa: { quantity: "apparentWindAngle", unit: "deg" },
        aws: { quantity: "apparentWindSpeed", unit: "?" },
        heading: { quantity: "?", unit: "deg" },
        note: { quantity: "none" },
      },
    });
  });

  it("reads the log as it is where nothing is asked", () => {
    const log = `time,stw_kn,awa\n${at(0)},6,30\n`;
    const mapped = wholeCsv(log, skeletonOf(log));
    expect(mapped.value).toEqual(wholeCsv(log).value);
    expect(mapped.time).toEqual(wholeCsv(log).time);
  });

  it("is none for what is no table", () => {
    expect(columnsSkeleton(new TextEncoder().encode("words\nand words\n"))).toBeUndefined();
  });
});
