/**
 * The corrected log as NMEA 0183 (M114) reads back as it was written.
 *
 * INPUTS: seconds made here.
 * MARGIN: half of the last digit printed: 0.005° and 0.005 kn, and 0.000005' of position; some room for double rounding.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { angleBetween } from "../../packages/core/src/angles.ts";
import { nmea0183Checksum } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import { zdaSentence } from "../../packages/core/src/recording/nmea0183Writer.ts";
import type { QuantityName } from "../../packages/core/src/recording/readings.ts";
import { correctedNmea0183 } from "../../packages/core/src/report/correctedNmea0183.ts";
import type { LoggedSecond } from "../../packages/core/src/sailing/loggedSecond.ts";
import { metresPerSecond, radians } from "../../packages/core/src/units.ts";
import { agrees } from "../support/published.ts";
import { wholeLog } from "../support/wholeLog.ts";

const START = Date.UTC(2031, 4, 14, 23, 59, 30) / 1000;
const unknown = Number.NaN;

const direction = fc.double({ min: 0, max: 2 * Math.PI, maxExcluded: true, noNaN: true });
const angle = fc.double({ min: -Math.PI, max: Math.PI, minExcluded: true, noNaN: true });
const speed = fc.double({ min: 0, max: 30, noNaN: true });
const orUnknown = (value: fc.Arbitrary<number>) =>
  fc.oneof({ weight: 5, arbitrary: value }, { weight: 1, arbitrary: fc.constant(unknown) });

const second: fc.Arbitrary<Omit<LoggedSecond, "time">> = fc.record({
  twd: orUnknown(direction),
  tws: orUnknown(speed),
  twa: orUnknown(angle),
  gwd: direction,
  gws: speed,
  awa: orUnknown(angle),
  aws: orUnknown(speed),
  stw: orUnknown(speed),
  heading: orUnknown(direction),
  heel: orUnknown(fc.double({ min: -0.7, max: 0.7, noNaN: true })),
  leeway: fc.constant(0),
  set: direction,
  drift: speed,
  latitude: orUnknown(fc.double({ min: -1.5, max: 1.5, noNaN: true })),
  longitude: angle,
  cog: orUnknown(direction),
  sog: speed,
  variation: fc.double({ min: -0.5, max: 0.5, noNaN: true }),
});

const seconds = fc
  .array(second, { minLength: 1, maxLength: 8 })
  .map((all) => all.map((one, index): LoggedSecond => ({ ...one, time: START + index })));

const logOf = (all: readonly LoggedSecond[], north: "true" | "magnetic" = "true"): string =>
  all.flatMap((one) => [...correctedNmea0183(one, north), ""]).join("\r\n");

const HALF_HUNDREDTH = 0.005 * (1 + 1e-9);

/** What must be read again: the quantity, its value in a second (or none), and whether it is an angle. */
const QUANTITIES: readonly (readonly [
  QuantityName,
  (second: LoggedSecond) => number,
  "angle" | "speed" | "position",
])[] = [
  ["apparentWindAngle", ({ awa, aws }) => awa + 0 * aws, "angle"],
  ["apparentWindSpeed", ({ awa, aws }) => aws + 0 * awa, "speed"],
  ["onboardTrueWindAngle", ({ twa, tws }) => twa + 0 * tws, "angle"],
  ["onboardTrueWindDirection", ({ twd, tws }) => twd + 0 * tws, "angle"],
  ["speedThroughWater", ({ stw }) => stw, "speed"],
  ["headingTrue", ({ heading }) => heading, "angle"],
  ["heel", ({ heel }) => heel, "angle"],
  ["latitude", ({ latitude }) => latitude, "position"],
  ["speedOverGround", ({ sog }) => sog, "speed"],
];

const MARGINS = {
  angle: radians(HALF_HUNDREDTH),
  speed: metresPerSecond(HALF_HUNDREDTH),
  position: radians(0.000005 / 60) * (1 + 1e-6),
} as const;

describe("the corrected log as NMEA 0183", () => {
  it("reads back with the numbers that were written, and the times", () => {
    fc.assert(
      fc.property(seconds, (all) => {
        // a second more that tells nothing but its time: sentences after the last time that is told go by the pace before it
        const log = wholeLog(`${logOf(all)}\r\n${zdaSentence({ time: START + all.length })}`);
        expect(log.reader.problems).toEqual([]);
        for (const [quantity, of, kind] of QUANTITIES) {
          const told = all.map(of).filter((value) => !Number.isNaN(value));
          const read = log.valuesOf(quantity);
          expect(read, quantity).toHaveLength(told.length);
          read.forEach((value, row) => {
            const difference = kind === "speed" ? value - told[row]! : angleBetween(value, told[row]!);
            agrees(difference, 0, MARGINS[kind], `half of the last digit of ${quantity}`);
          });
        }
        const known = all.filter(({ stw }) => !Number.isNaN(stw));
        log.timesOf("speedThroughWater").forEach((time, row) => {
          agrees(time - known[row]!.time, 0.5, 0.5, "a second's sentences lie within it");
        });
      }),
    );
  });

  it("has a right checksum behind every sentence, and angles of MWV from 0 to 360", () => {
    fc.assert(
      fc.property(seconds, (all) => {
        for (const sentence of logOf(all)
          .split("\r\n")
          .filter((line) => line !== "")) {
          const [, body, sum] = /^\$([^*]*)\*([0-9A-F]{2})$/.exec(sentence) ?? [];
          expect(nmea0183Checksum(body!)).toBe(Number.parseInt(sum!, 16));
          const [, written] = /^IIMWV,([\d.]+),/.exec(body!) ?? [];
          if (written !== undefined) expect(Number(written)).toBeLessThan(360);
        }
      }),
    );
  });

  const steady: LoggedSecond = {
    time: START,
    twd: radians(210.25),
    tws: metresPerSecond(14.5),
    twa: radians(-42),
    gwd: radians(211),
    gws: metresPerSecond(15),
    awa: radians(-27.5),
    aws: metresPerSecond(19.75),
    stw: metresPerSecond(6.5),
    heading: radians(252.25),
    heel: radians(18),
    leeway: radians(3),
    set: unknown,
    drift: unknown,
    latitude: radians(50.5),
    longitude: radians(-1.25),
    cog: radians(255),
    sog: metresPerSecond(6.7),
    variation: radians(-2),
  };
  const bodies = (of: LoggedSecond, north: "true" | "magnetic" = "true"): readonly string[] =>
    correctedNmea0183(of, north).map((sentence) => sentence.slice(1, -3));

  it("holds, by both norths, what a replay needs", () => {
    expect(bodies(steady)).toEqual([
      "GPZDA,235930.00,14,05,2031,00,00",
      "GPRMC,235930.00,A,5030.00000,N,00115.00000,W,6.70,255.00,140531,2.00,W,A",
      "IIHDT,252.25,T",
      "IIHDG,254.25,,,2.00,W",
      "IIVHW,,T,,M,6.50,N,12.04,K",
      "IIXDR,A,18.00,D,HEEL",
      "IIMWV,332.50,R,19.75,N,A",
      "IIMWV,318.00,T,14.50,N,A",
      "IIMWD,210.25,T,212.25,M,14.50,N,7.46,M",
    ]);
  });

  it("calls directions magnetic where they are, and leaves out what is not known", () => {
    const bare = { ...steady, variation: unknown, latitude: unknown, aws: unknown, heel: unknown };
    expect(bodies(bare, "magnetic")).toEqual([
      "GPZDA,235930.00,14,05,2031,00,00",
      "GPVTG,255.00,T,,M,6.70,N,12.41,K,A",
      "IIHDG,252.25,,,,",
      "IIVHW,,T,,M,6.50,N,12.04,K",
      "IIMWV,318.00,T,14.50,N,A",
      "IIMWD,,T,210.25,M,14.50,N,7.46,M",
    ]);
  });
});
