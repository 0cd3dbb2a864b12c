/**
 * The demonstration recording is what its script makes, and a log with what real logs have.
 * MARGIN: none for bytes and counts; 1.5 MB is what a clone may cost.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { angleBetween } from "../../packages/core/src/angles.ts";
import { boatFromFile } from "../../packages/core/src/calibration/boatFile.ts";
import { siFromEdge } from "../../packages/core/src/calibration/edgeUnits.ts";
import { meanDirection } from "../../packages/core/src/circular.ts";
import { summariseSailing } from "../../packages/core/src/sailing/summary.ts";
import {
  boatStateOf,
  overWaterWind,
  underSail,
  unknownBoatState,
} from "../../packages/core/src/sensors/boatState.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import type { SensorSettings } from "../../packages/core/src/sensors/parameters.ts";
import { scenarioFromFile } from "../../packages/core/src/simulate/scenarioFile.ts";
import { simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { metresPerSecond, radians } from "../../packages/core/src/units.ts";
import { demoFiles } from "../../scripts/demo.ts";
import { readLog } from "../support/simulatedLogs.ts";

const stored = (name: string): Buffer =>
  readFileSync(new URL(`../../datasets/demo/${name}`, import.meta.url));

/** Mean size of the errors of the wind over the water in the sailing rows, with some settings. */
function errorsOfRows(settings: SensorSettings): { readonly direction: number; readonly logSpeed: number } {
  const { rows } = summariseSailing(readLog(stored("demo.nmea.gz")).blocks);
  const scenario = scenarioFromFile(stored("scenario.json").toString(), "scenario.json");
  const { columns } = simulatedSail(scenario).truth;
  const state = unknownBoatState();
  const errors = rows
    .filter(({ kind }) => kind === "sailing")
    .map(({ mean, variation, start, duration }) => {
      boatStateOf(mean, { ...underSail, variation }, settings, state);
      const [from, to] = [start - scenario.start, start - scenario.start + duration];
      const trueDirection = meanDirection(columns.waterWindDirection.subarray(from, to));
      const speeds = columns.waterWindSpeed.subarray(from, to);
      const trueSpeed = speeds.reduce((sum, speed) => sum + speed, 0) / duration;
      const { direction, speed } = overWaterWind(state);
      return {
        direction: Math.abs(angleBetween(direction, trueDirection)),
        logSpeed: Math.abs(Math.log(speed / trueSpeed)),
      };
    });
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  return {
    direction: mean(errors.map(({ direction }) => direction)),
    logSpeed: mean(errors.map(({ logSpeed }) => logSpeed)),
  };
}

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
    // broken lines are rare, as the scenario asks: fewer than 1 in 100
    expect(lines.used / lines.lines).toBeGreaterThan(0.99);
  });

  it("holds the 13 tacks and 8 gybes of its plan, and time under power before the first leg", () => {
    const { blocks } = readLog(stored("demo.nmea.gz"));
    const { rows, turns } = summariseSailing(blocks);
    expect(turns.filter(({ kind }) => kind === "tack").length).toBeGreaterThanOrEqual(13);
    expect(turns.filter(({ kind }) => kind === "gybe").length).toBeGreaterThanOrEqual(8);
    const motoring = rows.filter(({ kind }) => kind === "motoring");
    expect(motoring.length).toBeGreaterThan(10);
    const firstSail = rows.find(({ kind }) => kind === "sailing")!;
    expect(motoring[0]!.start).toBeLessThan(firstSail.start);
  });

  it("has the faults that truth.json says: undone, they leave the wind as it was, to 1° and 3 %", () => {
    // shapes differ from those of the settings (upwash by half a degree), shear is no fault, and lags are left in
    const truth = JSON.parse(stored("truth.json").toString());
    const near: SensorSettings = {
      ...noCorrections,
      speed: {
        intercept: metresPerSecond(truth.speed_intercept_kn),
        gainStarboard: truth.speed_gain_starboard,
        gainPort: truth.speed_gain_port,
      },
      compass: {
        a: radians(truth.compass_a_deg),
        b: radians(truth.compass_b_deg),
        c: radians(truth.compass_c_deg),
        d: radians(truth.compass_d_deg),
        e: radians(truth.compass_e_deg),
        heelingError: truth.compass_heeling_error_deg_per_deg,
      },
      heel: { sign: truth.heel_sensor_sign, zero: radians(truth.heel_zero_deg) },
      vane: {
        ...noCorrections.vane,
        mastheadOffset: radians(truth.masthead_offset_deg),
        upwash: radians(truth.upwash_deg),
      },
      anemometer: {
        threshold: metresPerSecond(truth.anemometer_threshold_kn),
        gain: truth.anemometer_gain,
        speedUp: truth.anemometer_speed_up,
      },
      leeway: { coefficient: siFromEdge(truth.leeway_coefficient_deg_kn2_per_deg, "deg*kn2/deg") },
    };
    const [corrected, plain] = [near, noCorrections].map(errorsOfRows);
    expect(corrected!.direction).toBeLessThan(radians(1));
    expect(corrected!.logSpeed).toBeLessThan(0.03);
    expect(plain!.direction).toBeGreaterThan(2 * corrected!.direction);
    expect(plain!.logSpeed).toBeGreaterThan(corrected!.logSpeed);
  });
});
