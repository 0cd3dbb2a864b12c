/**
 * A logger's clock against GPS time (M129).
 * INPUTS: lines made here, whose stamp is known to be ahead.
 * MARGIN: as each says.
 */
import { describe, expect, it } from "vitest";
import { clockAgainstGps } from "../../packages/core/src/fit/clockAgainstGps.ts";
import { nmea0183Sentence } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import { stampAgainstGps } from "../../packages/core/src/recording/stampsAgainstGps.ts";
import { agrees } from "../support/published.ts";

const START = Date.UTC(2031, 5, 14, 23, 30) / 1000;

/** What a receiver is late by before its line is stamped (M129). */
const LATE = 0.5;

/** Two digits each of a moment's parts. */
const part = (time: number, from: number): string =>
  new Date(time * 1000).toISOString().slice(from, from + 2);

const rmc = (time: number): string =>
  nmea0183Sentence(
    `GPRMC,${part(time, 11)}${part(time, 14)}${part(time, 17)},A,5400.0,N,01000.0,E,5.0,90.0,${part(time, 8)}${part(time, 5)}${part(time, 2)},,`,
  );
const zda = (time: number): string =>
  nmea0183Sentence(
    `GPZDA,${part(time, 11)}${part(time, 14)}${part(time, 17)},${part(time, 8)},${part(time, 5)},2031,,`,
  );

/** A log of an hour and a half through midnight, its stamps ahead, a day's gain in them. */
const stamped = (ahead: number, sentence: (time: number) => string, end = "Z", gain = 0) =>
  Array.from({ length: 540 }, (_, at) => {
    const time = START + 10 * at;
    const stamp = time + ahead + (gain * (10 * at - 2700)) / 86_400;
    return stampAgainstGps(`${new Date(stamp * 1000).toISOString().slice(0, -1)}${end} ${sentence(time)}`);
  }).flatMap((one) => (one ? [one] : []));

describe("a clock ahead of GPS", () => {
  it("is told by RMC and by ZDA, over midnight", () => {
    for (const sentence of [rmc, zda]) {
      const found = clockAgainstGps(stamped(3.4, sentence));
      if (found.status === "unsolved") throw new Error(found.reason);
      expect([found.lines, found.zone]).toEqual([540, 0]);
      agrees(found.ahead, 3.4 - LATE, 0.002, "stamps of milliseconds");
      // the middle 95 % of a second
      agrees(found.half, 0.475, 0.001, "all stamps are alike");
    }
  });

  it("never takes a time zone for an error, nor an error for a zone", () => {
    const found = clockAgainstGps(stamped(7200 - 41, rmc, ""));
    if (found.status === "unsolved") throw new Error(found.reason);
    expect(found.zone).toBe(7200);
    agrees(found.ahead, -41 - LATE, 0.002, "stamps of milliseconds");
    const utc = clockAgainstGps(stamped(3600, rmc, "Z"));
    expect(utc).toMatchObject({ zone: 0 });
  });

  it("tells what it gains in a day", () => {
    const found = clockAgainstGps(stamped(0, zda, "Z", 8));
    if (found.status === "unsolved") throw new Error(found.reason);
    agrees(found.gainsADay, 8, 0.02, "stamps of milliseconds over an hour and a half");
  });
});

describe("what tells nothing", () => {
  it("lines without stamp, fix, or a right checksum", () => {
    expect(stampAgainstGps(rmc(START))).toBeUndefined();
    expect(stampAgainstGps(`2031-06-14T23:30:00Z ${rmc(START).replace(",A,", ",V,")}`)).toBeUndefined();
    expect(stampAgainstGps(`2031-06-14T23:30:00Z ${rmc(START).replace("5400", "5401")}`)).toBeUndefined();
    expect(clockAgainstGps([])).toMatchObject({ reason: "no stamp beside a GPS time" });
    expect(clockAgainstGps(stamped(1, rmc).slice(0, 5))).toMatchObject({ reason: "too few lines" });
  });
});
