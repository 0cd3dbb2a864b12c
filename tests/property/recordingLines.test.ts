import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nmea0183Sentence } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import { Nmea0183Reader } from "../../packages/core/src/recording/nmea0183Reader.ts";
import { arbitraryLog, chunkSizes } from "../support/arbitraryLog.ts";
import { bytesOf, type WholeLog, wholeLog } from "../support/wholeLog.ts";

const kinds = ({ reader }: WholeLog) => reader.problems.map(({ kind }) => kind);

/** Lines as an editor counts them: ended by LF, CR or CR LF; what follows the last end counts if there is any. */
function lineCount(bytes: Uint8Array): number {
  const text = Buffer.from(bytes).toString("latin1");
  const lines = text.split(/\r\n|\r|\n/);
  return lines.at(-1) === "" ? lines.length - 1 : lines.length;
}

describe("every line counts once", () => {
  it("as used, ignored or a problem, in any log", () => {
    fc.assert(
      fc.property(fc.oneof(arbitraryLog, fc.uint8Array({ maxLength: 400 })), chunkSizes, (log, sizes) => {
        fc.pre(log[0] !== 0x1f);
        const { reader } = wholeLog(log, sizes);
        const { lines, used, ignored, problems } = reader.lines;
        expect(lines).toBe(lineCount(log));
        expect(used + ignored + problems).toBe(lines);
        expect(Math.min(used, ignored, problems)).toBeGreaterThanOrEqual(0);
        expect(used).toBeGreaterThanOrEqual(reader.withoutChecksum);
      }),
    );
  });

  it("and readings are never NaN, their times never go back", () => {
    fc.assert(
      fc.property(arbitraryLog, (log) => {
        const { time, value } = wholeLog(log);
        expect(value.some(Number.isNaN)).toBe(false);
        const told = time.filter((one) => !Number.isNaN(one));
        expect(told.every((one, row) => row === 0 || one >= told[row - 1]!)).toBe(true);
      }),
    );
  });

  it("with all problems counted, the first hundred kept", () => {
    const { reader } = wholeLog("$IIHDM,303,M*00\n".repeat(250));
    expect(reader.problems).toHaveLength(100);
    expect(reader.problemCounts.checksum).toBe(250);
    expect(reader.lines.problems).toBe(250);
  });
});

describe("lines that are no sentences", () => {
  it("an empty log has none", () => {
    const { reader, value } = wholeLog("");
    expect(reader.lines).toEqual({ lines: 0, used: 0, ignored: 0, problems: 0 });
    expect(value).toEqual([]);
    expect(reader.problems).toEqual([]);
  });

  it("a log that starts in mid-sentence has a cut line, not a reading", () => {
    const log = wholeLog("03,M*3C\n$IIHDM,303,M*3C\n");
    expect(kinds(log)).toEqual(["cut"]);
    expect(log.valuesOf("headingMagnetic")).toHaveLength(1);
  });

  it("a sentence whose end is missing is cut where others of its talker have checksums", () => {
    const log = wholeLog("$IIHDM,303,M*3C\n$IIHDM,30\n$SDDPT,4.1,0.0\n");
    expect(kinds(log)).toEqual(["cut"]);
    expect(log.reader.withoutChecksum).toBe(1);
    expect(log.valuesOf("depthBelowTransducer")).toEqual([4.1]);
  });

  it("line ends may be mixed", () => {
    const { reader } = wholeLog("$IIHDM,303,M*3C\r\n$IIHDM,303,M*3C\r$IIHDM,303,M*3C\n\n$IIHDM,303,M*3C");
    expect(reader.lines).toEqual({ lines: 5, used: 4, ignored: 1, problems: 0 });
  });

  it.each([
    ["behind half a sentence", "$IIHDM,30"],
    ["on a line of their own", ""],
  ])("thousands of zero bytes %s do not take the sentence behind them along, and are told", (_, before) => {
    const zeros = Buffer.alloc(4096);
    const sentence = "$IIHDM,303,M*3C\r\n";
    const bytes = Buffer.concat([
      Buffer.from(sentence + before),
      zeros,
      Buffer.from(sentence),
      Buffer.from(sentence),
    ]);
    for (const sizes of [[bytes.length], [1000], [1]]) {
      const log = wholeLog(new Uint8Array(bytes), sizes);
      expect(log.valuesOf("headingMagnetic")).toHaveLength(3);
      expect(log.reader.lines).toEqual({ lines: 3, used: 3, ignored: 0, problems: 0 });
      expect(log.reader.problems).toMatchObject([{ kind: "binary", line: 2 }]);
    }
  });

  it("zero bytes that end a log are one line, which is told", () => {
    const log = wholeLog(bytesOf(`$IIHDM,303,M*3C\n${"\0".repeat(5000)}`));
    expect(log.reader.lines).toEqual({ lines: 2, used: 1, ignored: 0, problems: 1 });
    expect(kinds(log)).toEqual(["binary"]);
  });

  it("binary junk is said to be that", () => {
    const log = wholeLog(bytesOf("\x00\x01\xff\xfe\n$IIHDM,3\xb33,M*3C\n"));
    expect(kinds(log)).toEqual(["binary", "binary"]);
    expect(log.reader.problems[0]!.received).toBe("\\x00\\x01\\xff\\xfe");
  });

  it("one endless line is one problem and takes no memory", () => {
    const reader = new Nmea0183Reader({ file: "endless" });
    const chunk = bytesOf("A".repeat(1 << 16));
    const before = process.memoryUsage();
    for (let n = 0; n < 2000; n++) reader.push(chunk);
    const after = process.memoryUsage();
    reader.finish();
    expect(reader.lines).toEqual({ lines: 1, used: 0, ignored: 0, problems: 1 });
    expect(reader.problems[0]).toMatchObject({ kind: "too long", line: 1, received: "A".repeat(100) });
    // 125 MB went through; a tenth of that is far more than a reader that keeps a line of 1 kB may need
    expect(after.arrayBuffers - before.arrayBuffers).toBeLessThan(12_500_000);
  });
});

describe("fields", () => {
  const readingsOf = (body: string) => wholeLog(nmea0183Sentence(body));

  it("that are empty make no reading, never 0", () => {
    for (const body of [
      "IIVHW,,T,,M,,N,,K",
      "WIMWV,,R,,N,A",
      "HCHDG,,,,,",
      "SDDPT,,",
      "IIXDR,A,,D,HEEL",
      "GPVTG,,T,,M,,N,,K,A",
    ])
      expect(readingsOf(body).value).toEqual([]);
  });

  it("that say invalid make no reading", () => {
    for (const body of [
      "WIMWV,30.0,R,10.0,N,V",
      "GPRMC,120000,V,5000.0,N,00100.0,W,5.0,90.0,010130,,",
      "GPRMC,120000,A,5000.0,N,00100.0,W,5.0,90.0,010130,,,N",
      "GPGLL,5000.0,N,00100.0,W,120000,V",
      "GPGGA,120000,5000.0,N,00100.0,W,0,00,,,M,,M,,",
      "GPVTG,90.0,T,,M,5.0,N,,K,N",
      "TIROT,3.0,V",
    ])
      expect(readingsOf(body).value).toEqual([]);
  });

  it("that are not what they should be make the line a problem, with the field named, and no reading at all", () => {
    for (const [body, expected] of [
      ["WIMWV,3x.0,R,10.0,N,A", "a number in field 1"],
      ["WIMWV,30.0,Q,10.0,N,A", "R or T in field 2"],
      ["WIMWV,30.0,R,10.0,Z,A", "N, M, K or S in field 4"],
      ["WIMWV,400.0,R,10.0,N,A", "degrees from 0 to 360 in field 1"],
      ["HCHDG,90.0,,,3.0,N", "E or W in field 5"],
      ["GPRMC,250000,A,5000.0,N,00100.0,W,5.0,90.0,010130,,", "a time hhmmss in field 1"],
      ["GPRMC,120000,A,5000.0,N,00100.0,W,5.0,90.0,310230,,", "a date ddmmyy in field 9"],
      [
        "GPRMC,120000,A,9900.0,N,00100.0,W,5.0,90.0,010130,,",
        "degrees and minutes of a place on Earth in field 3",
      ],
      ["IIVWR,30.0,R,-1.0,N,,M,,K", "a number that is not negative in field 3"],
    ] as const) {
      const log = readingsOf(body);
      expect(log.value).toEqual([]);
      expect(log.reader.problems[0]).toMatchObject({ kind: "field", line: 1, expected });
    }
  });

  it("talkers of one quantity stay apart, and so do apparent and true wind", () => {
    const log = wholeLog(
      ["IIHDM,303,M", "HCHDM,301,M", "WIMWV,30,R,10,N,A", "WIMWV,40,T,8,N,A", "IIXDR,A,5,D,HEEL,A,1,D,TRIM"]
        .map(nmea0183Sentence)
        .join("\n"),
    );
    expect(log.reader.sources.map(({ quantity, name }) => `${quantity}: ${name}`)).toEqual([
      "headingMagnetic: II HDM",
      "headingMagnetic: HC HDM",
      "apparentWindAngle: WI MWV R",
      "apparentWindSpeed: WI MWV R",
      "onboardTrueWindAngle: WI MWV T",
      "onboardTrueWindSpeed: WI MWV T",
      "heel: II XDR HEEL",
      "pitch: II XDR TRIM",
    ]);
  });

  it("numbers are the doubles nearest to their digits", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 99_999_999 }),
        fc.integer({ min: 0, max: 7 }),
        (digits, decimals) => {
          const text = (digits / 10 ** decimals).toFixed(decimals);
          // deeper than any water is no depth (M100)
          fc.pre(Number(text) < 11_000);
          expect(wholeLog(nmea0183Sentence(`SDDPT,${text},`)).value).toEqual([Number(text)]);
        },
      ),
    );
  });
});
