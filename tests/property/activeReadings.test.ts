import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wrapAngle } from "../../packages/core/src/angles.ts";
import {
  changesNothing,
  readingsWithActive,
  readingsWithoutActive,
} from "../../packages/core/src/calibration/activeReadings.ts";
import { unknownBoatReadings } from "../../packages/core/src/sensors/boatReadings.ts";
import type { BoatReadings } from "../../packages/core/src/sensors/boatState.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import type { SensorSettings } from "../../packages/core/src/sensors/parameters.ts";

const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Corrections of the size that sailors key in. */
const corrections: fc.Arbitrary<SensorSettings> = fc.record({
  speed: fc.record({
    intercept: within(0, 0.3),
    gainStarboard: within(0.85, 1.15),
    gainPort: within(0.85, 1.15),
  }),
  compass: fc.record({
    a: within(-0.1, 0.1),
    b: within(-0.1, 0.1),
    c: within(-0.1, 0.1),
    d: within(-0.03, 0.03),
    e: within(-0.03, 0.03),
    heelingError: within(-0.1, 0.1),
  }),
  heel: fc.record({ sign: fc.constantFrom<1 | -1>(1, -1), zero: within(-0.1, 0.1) }),
  heelModel: fc.constant(noCorrections.heelModel),
  vane: fc.record({
    mastheadOffset: within(-0.1, 0.1),
    upwash: within(-0.05, 0.12),
    upwashSlope: within(-0.03, 0.03),
    upwashBroad: within(-0.03, 0.03),
  }),
  anemometer: fc.record({ threshold: within(0, 0.5), gain: within(0.85, 1.15), speedUp: within(0, 0.1) }),
  leeway: fc.constant(noCorrections.leeway),
});

const readings: fc.Arbitrary<BoatReadings> = fc.record({
  awa: within(-3, 3).filter((angle) => Math.abs(angle) > 0.2),
  aws: within(1, 20),
  stw: within(0.5, 10),
  heading: within(0, 6.28),
  heel: within(-0.6, 0.6),
  east: within(-8, 8),
  north: within(-8, 8),
});

describe("readings with corrections active in the instruments (M28)", () => {
  it("give back the sensors' own readings", () => {
    fc.assert(
      fc.property(readings, corrections, (sensors, active) => {
        const shown = readingsWithActive(sensors, active, unknownBoatReadings());
        const back = readingsWithoutActive(shown, active, unknownBoatReadings());
        // the inverses settle to a few units in the last place; speeds divide by gains near 1
        for (const name of ["aws", "stw", "heel", "east", "north"] as const)
          expect(Math.abs(back[name] - sensors[name])).toBeLessThan(1e-12);
        for (const name of ["awa", "heading"] as const)
          expect(Math.abs(wrapAngle(back[name] - sensors[name]))).toBeLessThan(1e-12);
      }),
    );
  });

  it("may be worked out in place", () => {
    fc.assert(
      fc.property(readings, corrections, (sensors, active) => {
        const apart = readingsWithActive(sensors, active, unknownBoatReadings());
        const place = { ...sensors };
        expect(readingsWithActive(place, active, place)).toEqual(apart);
        const back = { ...apart };
        expect(readingsWithoutActive(back, active, back)).toEqual(
          readingsWithoutActive(apart, active, unknownBoatReadings()),
        );
      }),
    );
  });

  it("are the sensors' own when nothing is keyed in", () => {
    const sensors = { awa: 0.5, aws: 8, stw: 3, heading: 1, heel: -0.3, east: 1, north: 2 };
    expect(readingsWithActive(sensors, noCorrections, unknownBoatReadings())).toEqual(sensors);
    expect(changesNothing(noCorrections)).toBe(true);
    expect(changesNothing({ ...noCorrections, leeway: { coefficient: 3 } })).toBe(true);
    const vane = { ...noCorrections.vane, mastheadOffset: 1e-6 };
    expect(changesNothing({ ...noCorrections, vane })).toBe(false);
  });

  it("leave a sensor that stands still at 0, and what is missing missing", () => {
    const speed = { intercept: 0.2, gainStarboard: 1.05, gainPort: 1 };
    const sensors = { awa: 0.5, aws: 0, stw: 0, heading: Number.NaN, heel: 0.1, east: 0, north: 0 };
    const shown = readingsWithActive(sensors, { ...noCorrections, speed }, unknownBoatReadings());
    expect(shown).toMatchObject({ aws: 0, stw: 0, heading: Number.NaN });
    const back = readingsWithoutActive(shown, { ...noCorrections, speed }, unknownBoatReadings());
    expect(back).toMatchObject({ aws: 0, stw: 0, heading: Number.NaN });
  });
});
