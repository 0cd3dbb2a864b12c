/**
 * The demonstration recording is what its script makes, and a log with what real logs have.
 * MARGIN: none for bytes and counts; 1.5 MB is what a clone may cost.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { boatFromFile } from "../../packages/core/src/calibration/boatFile.ts";
import { summariseSailing } from "../../packages/core/src/sailing/summary.ts";
import { scenarioFromFile } from "../../packages/core/src/simulate/scenarioFile.ts";
import { demoFiles } from "../../scripts/demo.ts";
import { readLog } from "../support/simulatedLogs.ts";

const stored = (name: string): Buffer =>
  readFileSync(new URL(`../../datasets/demo/${name}`, import.meta.url));

describe("datasets/demo", () => {
  it("is made anew to the last byte", () => {
    for (const [name, content] of Object.entries(demoFiles()))
      expect(Buffer.compare(Buffer.from(content), stored(name)), name).toBe(0);
  });

  it("costs a clone less than 1.5 MB", () => {
    expect(stored("demo.nmea.gz").length).toBeLessThan(1.5e6);
  });

  it("has a boat file and a scenario that are taken", () => {
    const boat = boatFromFile(stored("boat.json").toString(), "boat.json");
    expect(boat.settings.base).toBe("sensors without corrections");
    expect(scenarioFromFile(stored("scenario.json").toString(), "scenario.json").plan.length).toBeGreaterThan(
      30,
    );
  });

  it("says the same faults in truth.json and scenario.json", () => {
    const truth = JSON.parse(stored("truth.json").toString());
    const { faults } = JSON.parse(stored("scenario.json").toString());
    expect(truth.masthead_offset_deg).toBe(faults.vane.masthead_offset_deg);
    expect(truth.upwash_deg).toBe(faults.vane.upwash_deg);
    expect(truth.speed_gain_starboard).toBe(faults.speed.gain_starboard);
    expect(truth.speed_gain_port).toBe(faults.speed.gain_port);
    expect(truth.speed_intercept_kn).toBe(faults.speed.deficit_kn);
    for (const term of ["a_deg", "b_deg", "c_deg", "d_deg", "e_deg", "heeling_error_deg_per_deg"])
      expect(truth[`compass_${term}`]).toBe(faults.compass[term]);
    expect(truth.heel_zero_deg).toBe(faults.heel.zero_deg);
    expect(truth.heel_sensor_sign).toBe(faults.heel.sign);
    expect(truth.anemometer_threshold_kn).toBe(faults.anemometer.threshold_kn);
    expect(truth.anemometer_gain).toBe(faults.anemometer.gain);
    expect(truth.anemometer_speed_up).toBe(faults.anemometer.speed_up);
    expect(truth.leeway_coefficient_deg_kn2_per_deg).toBe(faults.leeway.coefficient_deg_kn2_per_deg);
  });

  it("holds broken lines of three kinds, every line accounted for", () => {
    const { lines, problems } = readLog(stored("demo.nmea.gz"));
    const kinds = new Set(problems.map(({ kind }) => kind));
    expect(kinds).toEqual(new Set(["checksum", "cut", "binary"]));
    expect(lines.used + lines.ignored + lines.problems).toBe(lines.lines);
    expect(lines.used / lines.lines).toBeGreaterThan(0.99);
  });

  it("holds the 13 tacks and 8 gybes of its plan, and sailing with sails down before the first", () => {
    const { blocks } = readLog(stored("demo.nmea.gz"));
    const { rows, turns } = summariseSailing(blocks);
    expect(turns.filter(({ kind }) => kind === "tack").length).toBeGreaterThanOrEqual(13);
    expect(turns.filter(({ kind }) => kind === "gybe").length).toBeGreaterThanOrEqual(8);
    const motoring = rows.filter(({ kind }) => kind === "motoring");
    expect(motoring.length).toBeGreaterThan(10);
    const firstSail = rows.find(({ kind }) => kind === "sailing")!;
    expect(motoring[0]!.start).toBeLessThan(firstSail.start);
  });
});
