/**
 * Open recordings of NMEA 2000 (datasets/recorded, with their licences) give the same series as an independent decode:
 * datasets/recorded/independentDecode.py, which is Python with its standard library, wrote independentDecode.json.
 */
import { readFileSync } from "node:fs";
import { crc32 } from "node:zlib";
import { describe, expect, it } from "vitest";
import decoded from "../../datasets/recorded/independentDecode.json" with { type: "json" };
import type { QuantityName, Source } from "../../packages/core/src/recording/readings.ts";
import { RecognisedReader } from "../../packages/core/src/recording/recognisedReader.ts";
import { degrees } from "../../packages/core/src/units.ts";
import { agrees } from "../support/published.ts";
import { readWhole } from "../support/wholeLog.ts";

type Told = readonly [quantity: QuantityName, suffix: string, countsInSi: number, from?: number];

const ANGLE = 1e4;
const TURN = 2 * Math.PI;
const CENTI = 100;

/** What a field of the independent decode is among our quantities: group, kind, field. */
const FIELDS: Readonly<Record<string, Told>> = {
  "127250 0 heading": ["headingTrue", "", ANGLE],
  "127250 1 heading": ["headingMagnetic", "", ANGLE],
  "127250 0 variation": ["variation", "", ANGLE],
  "127251 0 rate": ["rateOfTurn", "", 32e6],
  "127257 0 pitch": ["pitch", "", ANGLE],
  "127257 0 roll": ["heel", "", ANGLE],
  "127258 0 variation": ["variation", "", ANGLE],
  "128259 0 speedWaterReferenced": ["speedThroughWater", "", CENTI],
  "128259 0 speedGroundReferenced": ["speedOverGround", "", CENTI],
  "128267 0 depth": ["depthBelowTransducer", "", CENTI],
  "128267 0 offset": ["transducerOffset", "", 1000],
  "128275 0 log": ["distanceThroughWater", "", 1],
  "129025 0 latitude": ["latitude", "", 1e7],
  "129025 0 longitude": ["longitude", "", 1e7],
  "129026 0 cog": ["courseOverGround", "", ANGLE],
  "129026 0 sog": ["speedOverGround", "", CENTI],
  "130306 0 windAngle": ["onboardTrueWindDirection", " true north", ANGLE],
  "130306 0 windSpeed": ["onboardTrueWindSpeed", " true north", CENTI],
  "130306 2 windAngle": ["apparentWindAngle", " apparent", ANGLE, TURN],
  "130306 2 windSpeed": ["apparentWindSpeed", " apparent", CENTI],
  "130306 3 windAngle": ["onboardTrueWindAngle", " true boat", ANGLE, TURN],
  "130306 3 windSpeed": ["onboardTrueWindSpeed", " true boat", CENTI],
  "130310 0 waterTemperature": ["waterTemperature", "", CENTI, 273.15],
  "130311 0 temperature": ["waterTemperature", "", CENTI, 273.15],
  "130316 0 temperature": ["waterTemperature", " instance 0", 1000, 273.15],
};

/** Where lines share a millisecond, the next one comes within so many. */
const DENSE = 25;

/** Satellite positions come in parts of a degree that doubles cannot count: 10⁻¹⁶. */
const FINE = /129029 \d+ (latitude|longitude)/;

/** Not the temperature of the sea. */
const OTHER = /130316 1 temperature/;

const readings = (name: string) => {
  const path = new URL(`../../datasets/recorded/${name}`, import.meta.url);
  return readWhole(new RecognisedReader({ file: name }), readFileSync(path), [4096]);
};

/** The counts of a field's own unit that values in SI were made from. */
function countsOf([quantity, , countsInSi, offset = 0]: Told, values: readonly number[]): readonly number[] {
  const isPlace = quantity === "latitude" || quantity === "longitude";
  return values.map((value) => {
    if (isPlace) return Math.round(degrees(value) * countsInSi);
    const isBelow = offset !== TURN || value < 0;
    return Math.round((isBelow ? value + offset : value) * countsInSi);
  });
}

const checksum = (counts: readonly number[]): number => crc32(BigInt64Array.from(counts.map(BigInt)));

describe.each(Object.entries(decoded))("%s", (name, { lines, series }) => {
  const { reader, time, value, source } = readings(name);
  const rowsOf = (wanted: Source) => {
    const index = reader.sources.findIndex(
      (one) => one.quantity === wanted.quantity && one.name === wanted.name,
    );
    return source.flatMap((one, row) => (one === index ? [row] : []));
  };
  const keys = Object.entries(series);

  it("is told from its content, and each of its lines has one outcome", () => {
    expect(reader.format?.record).toBe("NMEA 2000 frame");
    const { used, ignored, problems } = reader.lines;
    expect(reader.lines.lines).toBe(lines);
    expect(used + ignored + problems).toBe(lines);
  });

  it.each(keys.filter(([key]) => !FINE.test(key) && !OTHER.test(key)))("%s", (key, told) => {
    const [address, group, kind, field] = key.split(" ");
    const as = FIELDS[`${group} ${kind} ${field}`]!;
    const rows = rowsOf({ quantity: as[0], name: `${address} PGN ${group}${as[1]}` });
    const counts = countsOf(
      as,
      rows.map((row) => value[row]!),
    );
    expect(counts).toHaveLength(told.count);
    expect([counts[0], counts.at(-1), Math.min(...counts), Math.max(...counts)]).toEqual([
      told.first,
      told.last,
      told.least,
      told.greatest,
    ]);
    expect(checksum(counts)).toBe(told.crc32);
    const milliseconds = rows.map((row) => time[row]! * 1000);
    const spread = "lines of one millisecond stand spread up to the next one";
    agrees(milliseconds[0]!, told.firstTime, DENSE, spread);
    agrees(milliseconds.at(-1)!, told.lastTime, DENSE, spread);
    const late = milliseconds.reduce((sum, one) => sum + one - told.meanTime, 0) / told.count;
    agrees(late, 0, 5, "a tenth of the shortest period of a sensor here, 50 ms");
  });

  it.each(keys.filter(([key]) => FINE.test(key)))("%s", (key, told) => {
    const [address, group, , field] = key.split(" ");
    const quantity = field === "latitude" ? "latitude" : "longitude";
    const values = rowsOf({ quantity, name: `${address} PGN ${group}` }).map((row) => degrees(value[row]!));
    expect(values).toHaveLength(told.count);
    // an integer of 64 bits as a double, to radians and back: four roundings of numbers below 180
    const [within, because] = [1e-13, "roundings of doubles"];
    agrees(values[0]!, told.first / 1e16, within, because);
    agrees(values.at(-1)!, told.last / 1e16, within, because);
    agrees(Math.min(...values), told.least / 1e16, within, because);
    agrees(Math.max(...values), told.greatest / 1e16, within, because);
  });
});
