/**
 * The settings nearest to undoing faults of other forms: exact where the forms are the same, and on another day in another
 * wind they leave what only the forms, the sea and the lags leave.
 * MARGIN: 1e-6 of rounding in sums of squares; 1.1° is what is asked of a fit, which cannot do better than these.
 */
import { describe, expect, it } from "vitest";
import { angleBetween } from "../../packages/core/src/angles.ts";
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
import { faultlessBoat } from "../../packages/core/src/simulate/drawFaults.ts";
import { anotherDay, drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { type BoatFaults, noFaults } from "../../packages/core/src/simulate/faults.ts";
import { nearestSettings } from "../../packages/core/src/simulate/nearestSettings.ts";
import { type SimulatedSail, simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { secondsOfSail } from "../../packages/core/src/simulate/simulatedSeconds.ts";
import { degrees, radians } from "../../packages/core/src/units.ts";

/** Root of the mean square error (deg) of the direction of the wind over the water, in rows of 30 s under sail. */
function directionError(sail: SimulatedSail, settings: SensorSettings): number {
  const { columns } = sail.truth;
  const state = unknownBoatState();
  const squares = summariseSailing(secondsOfSail(sail))
    .rows.filter(({ kind }) => kind === "sailing")
    .map(({ mean, variation, start, duration }) => {
      const first = start - sail.scenario.start;
      const truth = meanDirection(columns.waterWindDirection.subarray(first, first + duration));
      const { direction } = overWaterWind(boatStateOf(mean, { ...underSail, variation }, settings, state));
      return angleBetween(direction, truth) ** 2;
    });
  return degrees(Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length));
}

describe("the settings nearest to", () => {
  it("no faults change nothing", () => {
    const { speed, compass, vane, anemometer, leeway } = nearestSettings(noFaults);
    expect(speed.intercept).toBeCloseTo(0, 9);
    expect(speed.gainStarboard).toBeCloseTo(1, 9);
    expect(speed.gainPort).toBeCloseTo(1, 9);
    expect(compass).toEqual(noCorrections.compass);
    expect(Math.max(...Object.values(vane).map(Math.abs))).toBeLessThan(1e-9);
    expect(anemometer.speedUp).toBeCloseTo(0, 9);
    expect(leeway.coefficient).toBe(0);
  });

  it("faults of the same form are these faults", () => {
    const faults: BoatFaults = {
      ...noFaults,
      speed: { deficit: 0.15, deficitFalling: 0, gainStarboard: 0.95, gainPort: 0.97 },
      vane: { ...noFaults.vane, mastheadOffset: radians(-3) },
      anemometer: { threshold: 0.4, gain: 1.05, speedUp: 0 },
      leeway: { coefficient: 2.5, exponent: 2 },
    };
    const { speed, vane, anemometer, leeway } = nearestSettings(faults);
    expect(speed.intercept).toBeCloseTo(0.15, 3);
    expect(speed.gainStarboard).toBeCloseTo(0.95, 3);
    expect(speed.gainPort).toBeCloseTo(0.97, 3);
    expect(vane.mastheadOffset).toBe(radians(-3));
    expect(anemometer).toMatchObject({ threshold: 0.4, gain: 1.05 });
    expect(leeway.coefficient).toBeCloseTo(2.5, 6);
  });

  it("drawn faults leave less than 1.1° and less than half of what they do, on another day", () => {
    for (const seed of [41, 42, 43]) {
      const scenario = drawScenario(seed);
      const sail = simulatedSail(anotherDay(scenario, seed + 1000));
      const { sign } = scenario.faults.heel;
      const plain = { ...noCorrections, heel: { sign, zero: 0 } };
      const left = directionError(sail, nearestSettings(scenario.faults));
      expect(left).toBeLessThan(1.1);
      expect(left).toBeLessThan(directionError(sail, plain) / 2);
    }
  });

  it("a boat with nothing wrong leave no tack apart where the sea is smooth", () => {
    const drawn = drawScenario(51, { faults: "none" });
    const sail = simulatedSail({ ...drawn, sea: { ...drawn.sea, roll: 0, pitch: 0 } });
    // turbulence, lags and noise within 30 s
    expect(directionError(sail, nearestSettings(faultlessBoat))).toBeLessThan(0.8);
  });
});

describe("another day", () => {
  it("has the same boat in another wind", () => {
    const scenario = drawScenario(61);
    const other = anotherDay(scenario, 62);
    expect(other.faults).toEqual(scenario.faults);
    expect(other.log).toEqual(scenario.log);
    expect(Math.abs(other.wind.speed - scenario.wind.speed)).toBeGreaterThan(1.5);
    expect(Math.abs(angleBetween(other.wind.direction, scenario.wind.direction))).toBeGreaterThan(
      radians(39.9),
    );
    expect(other.start).toBeGreaterThan(scenario.start + 86_400);
  });
});
