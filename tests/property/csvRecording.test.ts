/**
 * An open recording in columns gives the series that a plain decode of it gives.
 *
 * INPUTS: the recording; its lines split at commas, `Number` of each field, the units of its mapping file.
 * MARGIN: the rounding of one conversion.
 */
import { readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { wrapAngle, wrapDirection } from "../../packages/core/src/angles.ts";
import type { QuantityName } from "../../packages/core/src/recording/readings.ts";
import { metresPerSecond, radians } from "../../packages/core/src/units.ts";
import { agrees } from "../support/published.ts";
import { wholeCsv } from "../support/wholeCsv.ts";

const recorded = (name: string): Buffer =>
  readFileSync(new URL(`../../datasets/recorded/${name}`, import.meta.url));

const file = recorded("lake-race-2018.csv.gz");
const mapping: unknown = JSON.parse(recorded("lake-race-2018.columns.json").toString("utf8"));

const [header = "", ...rows] = gunzipSync(file).toString("latin1").trimEnd().split("\n");
const fields = rows.map((row) => row.split(","));
const columnOf = (name: string): number => header.split(",").indexOf(name);

const COLUMNS: readonly (readonly [string, QuantityName, (value: number) => number])[] = [
  ["awa", "apparentWindAngle", (value) => wrapAngle(radians(value))],
  ["aws", "apparentWindSpeed", metresPerSecond],
  ["boat_speed", "speedThroughWater", metresPerSecond],
  ["hdg_true", "headingTrue", (value) => wrapDirection(radians(value))],
  ["cog", "courseOverGround", (value) => wrapDirection(radians(value))],
  ["sog", "speedOverGround", metresPerSecond],
];

describe("lake-race-2018", () => {
  const log = wholeCsv(Uint8Array.from(file), mapping);
  const start = Date.UTC(2018, 0, 1) / 1000;

  it.each(COLUMNS)("%s", (name, quantity, toSi) => {
    const told = fields.filter((row) => row[columnOf(name)] !== "");
    expect(told.length).toBeGreaterThan(10_000);
    const [values, times] = [log.valuesOf(quantity), log.timesOf(quantity)];
    expect(values).toHaveLength(told.length);
    expect(times).toEqual(told.map((row) => start + Number(row[columnOf("t")])));
    const off = told.map((row, index) => Math.abs(values[index]! - toSi(Number(row[columnOf(name)]))));
    const worst = off.reduce((most, one) => Math.max(most, one), 0);
    agrees(worst, 0, 1e-14, "double rounding of one conversion");
  });

  it("no row is lost", () => {
    expect(log.reader.refusal).toBe("");
    const { lines, used, ignored, problems } = log.reader.lines;
    expect([lines, problems]).toEqual([rows.length + 1, 0]);
    expect(used + ignored).toBe(lines);
  });
});
