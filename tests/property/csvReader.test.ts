/**
 * Logs in columns: fields, numbers, times, rows that cannot be read.
 *
 * INPUTS: logs made here; what is expected follows from the numbers that they were made with.
 * MARGIN: none; numbers are the doubles nearest to their digits.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CsvRow } from "../../packages/core/src/recording/csvRow.ts";
import { RecognisedReader } from "../../packages/core/src/recording/recognisedReader.ts";
import { correctedCsvHeader, correctedCsvLine } from "../../packages/core/src/report/correctedCsv.ts";
import { metresPerSecond, radians } from "../../packages/core/src/units.ts";
import { chunkSizes } from "../support/arbitraryLog.ts";
import { agrees } from "../support/published.ts";
import { wholeCsv } from "../support/wholeCsv.ts";
import { readWhole } from "../support/wholeLog.ts";

const START = Date.UTC(2031, 4, 14, 12) / 1000;
const iso = (second: number): string => new Date((START + second) * 1000).toISOString();

const DEPTH = { columns: { x: { quantity: "transducerOffset", unit: "m" } } } as const;

/** The value read where a table of one column holds a field. */
const fieldRead = (field: string, delimiter = ";"): readonly number[] =>
  wholeCsv(`time${delimiter}x${delimiter}y\n${iso(0)}${delimiter}${field}${delimiter}\n`, DEPTH).value;

describe("numbers", () => {
  const row = new CsvRow({ delimiter: ";", decimal: ".", columns: 2, numbers: [0], texts: [] });

  it("are the doubles nearest to their digits", () => {
    const written = fc.oneof(
      fc
        .tuple(fc.integer({ min: -999_999_999, max: 999_999_999 }), fc.nat({ max: 9 }))
        .map(([digits, decimals]) => (digits / 10 ** decimals).toFixed(decimals)),
      fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
      fc.bigInt({ min: 0n, max: 10n ** 22n }).map((digits) => `0.${digits}`),
      fc.tuple(fc.nat(), fc.nat()).map(([whole, part]) => `${whole}.${part}`),
    );
    fc.assert(
      fc.property(written, (text) => {
        row.read(new TextEncoder().encode(`${text};\n`), 0);
        expect(row.faulty).toBe(-1);
        expect(row.numbers[0]).toBe(Number(text));
      }),
      { numRuns: 2000 },
    );
  });

  it.each(["1.5", " 1.5", "1.5 ", '"1.5"', ' "1.5" ', "+1.5", "1.50", "15e-1", "1.5E0", "01.5"])(
    "%j is 1.5",
    (field) => {
      expect(fieldRead(field)).toEqual([1.5]);
    },
  );

  it.each(["", " ", '""', "NaN", "nan", "NA", "n/a", "null", "-", "--"])(
    "%j is no reading, never 0",
    (field) => {
      expect(fieldRead(field)).toEqual([]);
    },
  );

  it.each([
    "x",
    "1.5x",
    "1.5.2",
    "1,5",
    "1e",
    "--1",
    "0x10",
    "1e999",
    "9".repeat(400),
    "Infinity",
    "∞",
    "1 5",
  ])("%j makes the row a problem", (field) => {
    const { reader, value } = wholeCsv(`time;x;y\n${iso(0)};${field};\n${iso(1)};2.5;\n`, DEPTH);
    expect(value).toEqual([2.5]);
    expect(reader.problems).toMatchObject([{ kind: "field", line: 2, expected: 'a number in column "x"' }]);
  });

  it.each([
    ["awa_deg", "361"],
    ["heading_mag_deg", "-361"],
    ["aws_kn", "-1"],
    ["sog_kn", "-0.1"],
    ["lat_deg", "90.1"],
  ])("%s cannot be %s", (header, field) => {
    const { reader, value } = wholeCsv(`time,${header}\n${iso(0)},${field}\n`);
    expect(value).toEqual([]);
    expect(reader.problems[0]!.expected).toMatch(/^in column ".*" a number of /);
  });

  it("angles and directions come to their intervals", () => {
    const log = wholeCsv(`time,awa_deg,hdg_mag_deg\n${iso(0)},270,-10\n${iso(1)},-180,360\n`);
    expect(log.valuesOf("apparentWindAngle").map((value) => Math.round(value * 1e6))).toEqual(
      [radians(-90), Math.PI].map((value) => Math.round(value * 1e6)),
    );
    expect(log.valuesOf("headingMagnetic").map((value) => Math.round(value * 1e6))).toEqual(
      [radians(350), 0].map((value) => Math.round(value * 1e6)),
    );
  });
});

describe("how fields are parted", () => {
  const rows = (delimiter: string, decimal: string): string =>
    ["time,stw_kn,aws_kn", `${iso(0)},6.5,10.25`, `${iso(1)},6.75,11.5`]
      .join("\n")
      .replaceAll(",", delimiter)
      .replace(/(\d)\.(\d)(?!\d*Z)/g, `$1${decimal}$2`);

  it.each([
    [",", "."],
    [";", "."],
    [";", ","],
    ["\t", "."],
    ["\t", ","],
  ])("by %j, with %j in numbers", (delimiter, decimal) => {
    const log = wholeCsv(rows(delimiter, decimal));
    expect(log.valuesOf("speedThroughWater")).toEqual([6.5, 6.75].map(metresPerSecond));
    expect(log.valuesOf("apparentWindSpeed")).toEqual([10.25, 11.5].map(metresPerSecond));
  });

  it("by commas, with decimal commas in quotes", () => {
    const log = wholeCsv(`time,stw_kn,note\n${iso(0)},"6,5","a ""good"" one, said he"\n`);
    expect(log.valuesOf("speedThroughWater")).toEqual([metresPerSecond(6.5)]);
  });

  it("whatever the line ends, with a byte order mark, comments and a line that names the delimiter", () => {
    for (const end of ["\n", "\r\n", "\r"]) {
      const log = wholeCsv(
        `\ufeffsep=;${end}# log${end}time;stw_kn${end}${end}${iso(0)};6${end}#${end}${iso(1)};7`,
      );
      expect(log.valuesOf("speedThroughWater")).toEqual([6, 7].map(metresPerSecond));
      expect(log.reader.lines).toEqual({ lines: 7, used: 2, ignored: 5, problems: 0 });
    }
  });

  it.each([
    ["below a title and an empty row", "My log;;\n;;\n"],
    ["below a title of one cell", "My log\n"],
  ])("the header is found %s", (_, titles) => {
    const text = `${titles}time;stw_kn;heel_deg\n${iso(0)};6;1\n${iso(1)};7;2\n`;
    const log = readWhole(new RecognisedReader({ file: "log.csv" }), text);
    expect(log.valuesOf("speedThroughWater")).toEqual([6, 7].map(metresPerSecond));
    expect(log.reader.lines).toMatchObject({ used: 2, problems: 0 });
  });

  it.each([
    ["in columns", `time\tstw_kn\n${iso(0)}\t6\n`],
    ["of sentences", "$IIVHW,,T,12.0,M,6.0,N,,K*5F\r\n$IIVHW,,T,12.0,M,6.0,N,,K*5F\r\n"],
  ])("a log %s in UTF-16 is told to be that", (_, text) => {
    const bytes = Uint8Array.from(Buffer.from(`\ufeff${text}`, "utf16le"));
    const log = readWhole(new RecognisedReader({ file: "log.txt" }), bytes);
    expect(log.reader.refusal).toBe("is text in UTF-16; save it as UTF-8");
    expect(log.value).toEqual([]);
  });

  it("a header in eight-bit letters is understood", () => {
    const bytes = Uint8Array.from(Buffer.from(`time;AWA (\xb0)\n${iso(0)};2\n`, "latin1"));
    expect(wholeCsv(bytes).valuesOf("apparentWindAngle")).toEqual([radians(2)]);
  });
});

describe("rows", () => {
  it("with another number of fields are problems, and so is a quote left open", () => {
    const { reader, value } = wholeCsv(
      `time,stw_kn,note\n${iso(0)},6\n${iso(1)},7,a,b\n${iso(2)},8,"a\nb"\n${iso(3)},9,a\n`,
    );
    // the quote left open ends with its line, whose fields are as many as there should be
    expect(value).toEqual([8, 9].map(metresPerSecond));
    expect(reader.problems.map(({ line, expected }) => [line, expected])).toEqual([
      [2, "3 fields"],
      [3, "3 fields"],
      [5, "3 fields"],
    ]);
    expect(reader.lines).toEqual({ lines: 6, used: 2, ignored: 1, problems: 3 });
  });

  it("the header once more, as in joined files, is ignored", () => {
    const file = (second: number) => `time,stw_kn\n${iso(second)},6\n`;
    const { reader } = wholeCsv(file(0) + file(1));
    expect(reader.lines).toEqual({ lines: 4, used: 2, ignored: 2, problems: 0 });
  });

  it("that tell a time and nothing else are ignored; without a time they are problems", () => {
    const { reader } = wholeCsv(`time,stw_kn\n${iso(0)},\n,6\nnever,6\n,\n${iso(1)},6\n`);
    expect(reader.lines).toEqual({ lines: 6, used: 1, ignored: 3, problems: 2 });
    expect(reader.problems.map(({ kind, line }) => [kind, line])).toEqual([
      ["clock", 3],
      ["clock", 4],
    ]);
  });

  it("that go back in time, or leap for once, are problems", () => {
    const times = [0, 1, 2, 500_000, 3, 4, -600, 5];
    const { reader, value } = wholeCsv(
      `time,stw_kn\n${times.map((second, row) => `${iso(second)},${row}`).join("\n")}\n`,
    );
    expect(value).toEqual([0, 1, 2, 4, 5, 7].map(metresPerSecond));
    expect(reader.problems.map(({ kind, line }) => [kind, line])).toEqual([
      ["clock", 5],
      ["clock", 8],
    ]);
  });

  it("of one time are spread over the interval up to the next", () => {
    const rows = Array.from({ length: 12 }, (_, row) => `${iso(Math.floor(row / 4))},${row}`);
    const { time } = wholeCsv(`time,stw_kn\n${rows.join("\n")}\n`);
    time.forEach((second, row) => {
      agrees(second, START + row / 4, 1e-6, "double rounding of seconds since 1970");
    });
  });

  it("give the same readings, bit for bit, however the log is cut", () => {
    const cell = fc.oneof(
      fc.double({ min: -5, max: 20, noNaN: true }).map((value) => value.toFixed(2)),
      fc.constantFrom("", '"3.5"', "x", "1e1", "nan", '"a,b"', "\ufffd"),
    );
    const row = fc.tuple(cell, cell).map(([a, b]) => `${a},${b}`);
    const log = fc
      .array(fc.tuple(row, fc.constantFrom("\n", "\r\n", "\r")), { maxLength: 40 })
      .map(
        (rows) =>
          `time,stw_kn,pitch_deg\n${rows.map(([text, end], n) => `${iso(n)},${text}${end}`).join("")}`,
      );
    fc.assert(
      fc.property(log, chunkSizes, (text, sizes) => {
        const contents = ({ reader, time, value, source }: ReturnType<typeof wholeCsv>) => ({
          time,
          value,
          source,
          lines: reader.lines,
          problems: reader.problems,
        });
        expect(contents(wholeCsv(text, undefined, sizes))).toEqual(contents(wholeCsv(text)));
      }),
    );
  });

  it("one endless line takes no memory, and is one problem", () => {
    const { reader } = wholeCsv(`time,stw_kn\n${iso(0)},6\n${"x,".repeat(200_000)}\n${iso(1)},6\n`);
    expect(reader.lines).toEqual({ lines: 4, used: 2, ignored: 1, problems: 1 });
    expect(reader.problems[0]).toMatchObject({ kind: "too long", line: 3 });
  });
});

describe("times", () => {
  const HEAD = { columns: { v: { quantity: "speedThroughWater", unit: "kn" } } } as const;
  const timesRead = (fields: readonly string[], as: unknown, column: unknown = "t"): readonly number[] => {
    const names = Array.isArray(column) ? column.join(";") : "t";
    const log = wholeCsv(`${names};v\n${fields.map((field) => `${field};6\n`).join("")}`, {
      ...HEAD,
      time: { column, as },
    });
    expect(log.reader.refusal).toBe("");
    expect(log.reader.problems).toEqual([]);
    return log.time;
  };
  const noon = START;

  it.each([
    ["ISO 8601 with zones", ["2031-05-14T14:00:00+02:00"], { format: "iso" }],
    ["ISO 8601 without", ["2031-05-14 10:30"], { format: "iso", utc_offset: "-01:30" }],
    ["epoch in s", ["1936526400.0"], { format: "epoch", unit: "s" }],
    ["epoch in ms", ["1936526400000"], { format: "epoch", unit: "ms" }],
    [
      "day first",
      ["14/05/2031 14:00:00"],
      { format: "day and time", order: "day-month-year", utc_offset: "+02:00" },
    ],
    [
      "day first, two digits of the year",
      ["14.5.31, 12:00"],
      { format: "day and time", order: "day-month-year", utc_offset: "Z" },
    ],
    [
      "month first",
      ["05/14/2031 12:00:00 PM"],
      { format: "day and time", order: "month-day-year", utc_offset: "Z" },
    ],
    [
      "year first",
      ["2031.05.14 12:00"],
      { format: "day and time", order: "year-month-day", utc_offset: "Z" },
    ],
    ["time of day", ["12:00:00"], { format: "time of day", date: "2031-05-14", utc_offset: "Z" }],
    ["seconds since a start", ["43200"], { format: "seconds", start: "2031-05-14T00:00:00Z" }],
    ["days since 1900", ["47982.5"], { format: "spreadsheet", utc_offset: "Z" }],
    ["days since 1904", ["46520.5"], { format: "spreadsheet", date_system: 1904, utc_offset: "Z" }],
  ])("%s", (_, fields, as) => {
    expect(timesRead(fields, as)).toEqual([noon]);
  });

  it("date and time in two columns", () => {
    const as = { format: "day and time", order: "day-month-year", utc_offset: "Z" };
    expect(timesRead(["14.05.2031;12:00:00", "14.05.2031;12:00:01,5"], as, ["d", "c"])).toEqual([
      noon,
      noon + 1.5,
    ]);
  });

  it("date and time in two columns are plain where they are ISO 8601 and the header says UTC", () => {
    const { time, reader } = wholeCsv(`date,UTC time,stw_kn\n2031-05-14,12:00:00,6\n`);
    expect(reader.refusal).toBe("");
    expect(time).toEqual([noon]);
  });

  it("a time of day goes on past midnight", () => {
    const as = { format: "time of day", date: "2031-05-14", utc_offset: "Z" };
    const times = timesRead(["23:59:59", "00:00:00", "00:00:01"], as);
    expect(times.map((time) => time - times[0]!)).toEqual([0, 1, 2]);
  });
});

describe("the corrected log that apply writes", () => {
  const second = {
    time: START,
    twd: radians(200),
    tws: 6,
    twa: radians(-40),
    gwd: radians(201),
    gws: 6.1,
    awa: radians(-25),
    aws: 9,
    stw: 3.5,
    heading: radians(240),
    heel: radians(15),
    leeway: radians(-3),
    set: Number.NaN,
    drift: Number.NaN,
  };

  it.each(["true", "magnetic"] as const)("reads back, directions %s", (north) => {
    const log = wholeCsv(correctedCsvHeader(north) + correctedCsvLine(second));
    expect(log.reader.refusal).toBe("");
    expect(log.reader.lines).toEqual({ lines: 2, used: 1, ignored: 1, problems: 0 });
    const heading = north === "true" ? "headingTrue" : "headingMagnetic";
    const digits = "a hundredth of a degree or knot is written";
    agrees(log.valuesOf(heading)[0]!, second.heading, radians(0.005), digits);
    agrees(log.valuesOf("apparentWindAngle")[0]!, second.awa, radians(0.005), digits);
    agrees(log.valuesOf("speedThroughWater")[0]!, second.stw, metresPerSecond(0.005), digits);
    expect(log.time[0]).toBe(START);
  });
});
