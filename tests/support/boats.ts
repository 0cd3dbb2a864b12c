import fc from "fast-check";
import type { BoatReadings } from "../../packages/core/src/sensors/boatState.ts";
import type { SensorSettings } from "../../packages/core/src/sensors/parameters.ts";
import { radians } from "../../packages/core/src/units.ts";

/** A finite number between two, ends included. */
export const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true });

/** Faults as large as any that a boat would be sailed with. */
export const settings: fc.Arbitrary<SensorSettings> = fc.record({
  speed: fc.record({
    intercept: between(0, 0.3),
    gainStarboard: between(0.85, 1.15),
    gainPort: between(0.85, 1.15),
  }),
  compass: fc.record({
    a: between(-0.2, 0.2),
    b: between(-0.1, 0.1),
    c: between(-0.1, 0.1),
    d: between(-0.05, 0.05),
    e: between(-0.05, 0.05),
    heelingError: between(-0.2, 0.2),
  }),
  heel: fc.record({ sign: fc.constantFrom<1 | -1>(1, -1), zero: between(-0.1, 0.1) }),
  heelModel: fc.record({ fullHeel: between(0, 0.8) }),
  vane: fc.record({
    mastheadOffset: between(-0.2, 0.2),
    upwash: between(-0.05, 0.18),
    upwashSlope: between(-0.04, 0.04),
    upwashBroad: between(-0.05, 0.05),
  }),
  anemometer: fc.record({ threshold: between(0, 0.6), gain: between(0.8, 1.2), speedUp: between(-0.1, 0.2) }),
  leeway: fc.record({ coefficient: between(0, 4) }),
});

/** What the instruments of a boat under way may show. */
export const readings: fc.Arbitrary<BoatReadings> = fc.record({
  awa: between(-3.14, 3.14),
  aws: between(0.3, 30),
  stw: between(0.1, 12),
  heading: between(0, 6.283),
  heel: between(-0.7, 0.7),
  east: between(-8, 8),
  north: between(-8, 8),
});

export const heading: fc.Arbitrary<number> = between(0, radians(359.999));
