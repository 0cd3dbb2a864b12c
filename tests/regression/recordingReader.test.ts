/**
 * Guards against change; proves nothing. Each case is a fault that was found while the reader was written.
 */
import { describe, expect, it } from "vitest";
import { nmea0183Sentence } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import { wholeLog } from "../support/wholeLog.ts";

const rmc = (time: string, date: string, rest = ",,,A") =>
  nmea0183Sentence(`GPRMC,${time},A,5000.0,N,00100.0,W,5.0,90.0,${date}${rest}`);

describe("reader", () => {
  it("a wrong first time is laid to the line that told it, not to the one that showed it", () => {
    const log = wholeLog(
      [rmc("120000", "010150"), rmc("120000", "010131"), rmc("120001", "010131")].join("\n"),
    );
    expect(log.reader.problems.map(({ line }) => line)).toEqual([1]);
  });

  it("a sentence that lost two commas still has the right checksum, and is a faulty field", () => {
    const log = wholeLog(rmc("191332.000", "120816", ",A"));
    expect(log.reader.problems).toMatchObject([{ kind: "field", expected: "a number in field 10" }]);
  });

  it("a logger's clock that is minutes off does not make every satellite time a leap", () => {
    const log = Array.from({ length: 100 }, (_, n) => {
      const [minute, second] = [String(Math.floor(n / 60)).padStart(2, "0"), String(n % 60).padStart(2, "0")];
      return `11:5${Math.floor(n / 60)}:${second} ${rmc(`12${minute}${second}`, "010131")}`;
    });
    const { reader, time } = wholeLog(log.join("\n"));
    expect(reader.problems).toEqual([]);
    expect(time).toHaveLength(400);
  });
});
