/**
 * What is true from what the instruments show (M27), and back.
 * MARGIN: 1e-12 (rad or m/s), some thousand units in the last place of the numbers that enter.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wrapAngle, wrapDirection } from "../../packages/core/src/angles.ts";
import { motionThroughWater } from "../../packages/core/src/physics/leeway.ts";
import { directionOf, speedOf } from "../../packages/core/src/physics/vectors.ts";
import { apparentWind, windOverGround, windOverWater } from "../../packages/core/src/physics/windTriangle.ts";
import { readingsOf, unknownBoatReadings } from "../../packages/core/src/sensors/boatReadings.ts";
import {
  type BoatReadings,
  type BoatState,
  boatStateOf,
  type Circumstances,
  overGroundWind,
  overWaterWind,
  underSail,
  unknownBoatState,
} from "../../packages/core/src/sensors/boatState.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import type { SensorSettings } from "../../packages/core/src/sensors/parameters.ts";
import { between, readings, settings } from "../support/boats.ts";

const MARGIN = 1e-12;

const circumstances: fc.Arbitrary<Circumstances> = fc.record({
  sailsUp: fc.boolean(),
  stwIs: fc.constantFrom("reading", "true"),
  headingIs: fc.constantFrom("reading", "true", "course"),
  heelIs: fc.constantFrom("reading", "true", "modelled"),
  variation: between(-0.5, 0.5),
  mastheadAhead: fc.oneof(fc.constant(0), between(-1, 1)),
  sinceMiddle: fc.constant(0),
  mastheadAthwart: fc.oneof(fc.constant(0), between(-1, 1)),
});

const stateOf = (
  indicated: Readonly<BoatReadings>,
  how: Circumstances,
  corrections: SensorSettings,
): BoatState => boatStateOf(indicated, how, corrections, unknownBoatState());

const fieldsOf = (state: BoatState) => Object.keys(state) as (keyof BoatState)[];

const near = (actual: number, expected: number): void => {
  if (Number.isNaN(expected)) expect(actual).toBeNaN();
  else expect(Math.abs(actual - expected)).toBeLessThan(MARGIN * Math.max(1, Math.abs(expected)));
};
const nearAngle = (actual: number, expected: number): void => {
  expect(Math.abs(wrapAngle(actual - expected))).toBeLessThan(MARGIN);
};

describe("readings and state are each other's inverse", () => {
  it("readings → state → readings", () => {
    fc.assert(
      fc.property(readings, circumstances, settings, (indicated, how, corrections) => {
        const state = stateOf(indicated, how, corrections);
        // At 0 the gain of the boat's speed changes sides, and rounding decides which.
        fc.pre(Math.abs(indicated.awa) > 1e-9 && state.flowSpeed > 0.05);
        const back = readingsOf(state, how, corrections, unknownBoatReadings());
        nearAngle(back.awa, indicated.awa);
        near(back.aws, indicated.aws);
        near(back.stw, indicated.stw);
        nearAngle(back.heading, indicated.heading);
        near(back.heel, how.heelIs === "modelled" ? Number.NaN : indicated.heel);
        near(back.east, indicated.east);
        near(back.north, indicated.north);
      }),
      { numRuns: 1000 },
    );
  });

  it("state → readings → state", () => {
    const truth = fc.record({
      heading: between(0, 6.283),
      heel: between(-0.6, 0.6),
      speedAhead: between(0.5, 10),
      apparentAngle: between(-3.1, 3.1),
      apparentSpeed: between(1.5, 25),
      currentEast: between(-2, 2),
      currentNorth: between(-2, 2),
    });
    fc.assert(
      fc.property(truth, settings, between(-0.5, 0.5), (known, corrections, variation) => {
        const how = { ...underSail, variation };
        const { leeway } = stateOf(
          { ...unknownBoatReadings(), heel: known.heel, stw: known.speedAhead },
          { ...how, stwIs: "true", heelIs: "true" },
          corrections,
        );
        const indicated = readingsOf({ ...known, leeway }, how, corrections, unknownBoatReadings());
        fc.pre(indicated.stw > 0 && indicated.aws > 0);
        const state = stateOf(indicated, how, corrections);
        nearAngle(state.heading, known.heading);
        near(state.heel, known.heel);
        near(state.speedAhead, known.speedAhead);
        near(state.leeway, leeway);
        nearAngle(state.apparentAngle, known.apparentAngle);
        near(state.apparentSpeed, known.apparentSpeed);
        near(state.currentEast, known.currentEast);
        near(state.currentNorth, known.currentNorth);
      }),
      { numRuns: 500 },
    );
  });
});

describe("the winds of a state", () => {
  it("are those of the triangle, and differ by the current", () => {
    fc.assert(
      fc.property(readings, settings, (indicated, corrections) => {
        const state = stateOf(indicated, underSail, corrections);
        const apparent = { angle: state.apparentAngle, speed: state.apparentSpeed };
        const throughWater = motionThroughWater(state.heading, state.speedAhead, state.leeway);
        const overGround = {
          direction: directionOf(indicated.east, indicated.north),
          speed: speedOf(indicated.east, indicated.north),
        };
        for (const [found, expected, motion] of [
          [overWaterWind(state), windOverWater(apparent, state.heading, throughWater), throughWater],
          [overGroundWind(state), windOverGround(apparent, state.heading, overGround), overGround],
        ] as const) {
          near(found.speed, expected.speed);
          const felt = apparentWind(expected, state.heading, motion);
          near(felt.speed, apparent.speed);
          fc.pre(expected.speed > 0.01 && apparent.speed > 0.01);
          expect(Math.abs(wrapAngle(found.direction - expected.direction))).toBeLessThan(1e-10);
          expect(Math.abs(wrapAngle(felt.angle - apparent.angle))).toBeLessThan(1e-10);
        }
        near(state.overWaterEast - state.overGroundEast, state.currentEast);
        near(state.overWaterNorth - state.overGroundNorth, state.currentNorth);
      }),
    );
  });
});

describe("symmetries", () => {
  const mirrored = (indicated: BoatReadings): BoatReadings => ({
    ...indicated,
    awa: -indicated.awa,
    heading: wrapDirection(-indicated.heading),
    heel: -indicated.heel,
    east: -indicated.east,
  });
  const mirroredSettings = ({ speed, compass, heel, vane, ...rest }: SensorSettings): SensorSettings => ({
    ...rest,
    speed: { ...speed, gainStarboard: speed.gainPort, gainPort: speed.gainStarboard },
    compass: {
      a: -compass.a,
      b: compass.b,
      c: -compass.c,
      d: compass.d,
      e: -compass.e,
      heelingError: compass.heelingError,
    },
    heel: { ...heel, zero: -heel.zero },
    vane: { ...vane, mastheadOffset: -vane.mastheadOffset },
  });

  it("a boat in a mirror has a mirrored wind: port and starboard are treated alike", () => {
    fc.assert(
      fc.property(readings, settings, between(-0.5, 0.5), (indicated, corrections, variation) => {
        const one = stateOf(indicated, { ...underSail, variation }, corrections);
        const other = stateOf(
          mirrored(indicated),
          { ...underSail, variation: -variation },
          mirroredSettings(corrections),
        );
        near(other.overWaterEast, -one.overWaterEast);
        near(other.overWaterNorth, one.overWaterNorth);
        near(other.overGroundEast, -one.overGroundEast);
        near(other.overGroundNorth, one.overGroundNorth);
        near(other.leeway, -one.leeway);
        nearAngle(other.apparentAngle, -one.apparentAngle);
        nearAngle(other.heading, -one.heading);
      }),
      { numRuns: 500 },
    );
  });

  it("turning the whole scene turns every direction and changes no angle to the bow", () => {
    fc.assert(
      fc.property(readings, settings, between(-3, 3), (indicated, corrections, turn) => {
        const how: Circumstances = { ...underSail, headingIs: "true" };
        const direction = directionOf(indicated.east, indicated.north) + turn;
        const speed = speedOf(indicated.east, indicated.north);
        fc.pre(speed > 0);
        const one = stateOf(indicated, how, corrections);
        const other = stateOf(
          {
            ...indicated,
            heading: indicated.heading + turn,
            east: speed * Math.sin(direction),
            north: speed * Math.cos(direction),
          },
          how,
          corrections,
        );
        near(other.apparentAngle, one.apparentAngle);
        near(overWaterWind(other).speed, overWaterWind(one).speed);
        near(overGroundWind(other).speed, overGroundWind(one).speed);
        fc.pre(overWaterWind(one).speed > 0.01 && overGroundWind(one).speed > 0.01);
        const turned = (later: number, earlier: number): void =>
          expect(Math.abs(wrapAngle(later - earlier - turn))).toBeLessThan(1e-10);
        turned(overWaterWind(other).direction, overWaterWind(one).direction);
        turned(overGroundWind(other).direction, overGroundWind(one).direction);
        turned(other.heading, one.heading);
      }),
    );
  });
});

describe("limits", () => {
  it("faultless sensors on an upright boat give the plain vector sum", () => {
    fc.assert(
      fc.property(readings, (indicated) => {
        const state = stateOf({ ...indicated, heel: 0 }, underSail, noCorrections);
        near(state.apparentAngle, indicated.awa);
        near(state.apparentSpeed, indicated.aws);
        near(state.leeway, 0);
        const sum = windOverWater({ angle: indicated.awa, speed: indicated.aws }, indicated.heading, {
          direction: indicated.heading,
          speed: indicated.stw,
        });
        near(overWaterWind(state).speed, sum.speed);
      }),
    );
  });

  it("with the sails down neither upwash nor speed-up nor leeway is left", () => {
    fc.assert(
      fc.property(readings, settings, (indicated, corrections) => {
        const { intercept, gainStarboard, gainPort } = corrections.speed;
        const upright = (gainStarboard + gainPort) / 2;
        const bare: SensorSettings = {
          ...corrections,
          speed: { intercept, gainStarboard: upright, gainPort: upright },
          vane: { ...noCorrections.vane, mastheadOffset: corrections.vane.mastheadOffset },
          anemometer: { ...corrections.anemometer, speedUp: 0 },
          leeway: { coefficient: 0 },
        };
        const [down, up] = [
          stateOf(indicated, { ...underSail, sailsUp: false }, corrections),
          stateOf(indicated, underSail, bare),
        ];
        for (const field of fieldsOf(up)) near(down[field], up[field]);
      }),
    );
  });

  it("wind angles of +0 and −0 are one", () => {
    fc.assert(
      fc.property(readings, settings, (indicated, corrections) => {
        const plus = stateOf({ ...indicated, awa: 0 }, underSail, corrections);
        const minus = stateOf({ ...indicated, awa: -0 }, underSail, corrections);
        near(minus.overWaterEast, plus.overWaterEast);
        near(minus.overWaterNorth, plus.overWaterNorth);
      }),
    );
  });
});

describe("what is missing", () => {
  const all: BoatReadings = { awa: 0.6, aws: 9, stw: 3, heading: 1, heel: -0.3, east: 2, north: 2 };
  const corrections: SensorSettings = {
    ...noCorrections,
    compass: { ...noCorrections.compass, heelingError: 0.1 },
    leeway: { coefficient: 2.6 },
  };
  const without = (missing: Partial<BoatReadings>): BoatState =>
    stateOf({ ...all, ...missing }, underSail, corrections);
  const missingFields = (state: BoatState): string[] =>
    Object.entries(state)
      .filter(([, value]) => Number.isNaN(value))
      .map(([field]) => field);

  it("is nothing where all readings are there", () => expect(missingFields(without({}))).toEqual([]));

  it("speed over ground: the wind over the water is left", () =>
    expect(missingFields(without({ east: Number.NaN, north: Number.NaN }))).toEqual([
      "overGroundEast",
      "overGroundNorth",
      "currentEast",
      "currentNorth",
    ]));

  it("boat speed, and a wheel that stands still: the wind over the ground is left", () => {
    for (const stw of [Number.NaN, 0])
      expect(missingFields(without({ stw }))).toEqual([
        "speedAhead",
        "leeway",
        "throughWaterEast",
        "throughWaterNorth",
        "overWaterEast",
        "overWaterNorth",
        "currentEast",
        "currentNorth",
      ]);
  });

  it("wind, and cups that stand still: the current is left", () => {
    for (const aws of [Number.NaN, 0])
      expect(missingFields(without({ aws }))).toEqual([
        "flowAngle",
        "flowSpeed",
        "apparentAngle",
        "apparentSpeed",
        "overWaterEast",
        "overWaterNorth",
        "overGroundEast",
        "overGroundNorth",
      ]);
  });

  it("heel: nothing but the boat's speed and the wind in the mast's plane is left", () =>
    expect(missingFields(without({ heel: Number.NaN })).length).toBe(
      Object.keys(unknownBoatState()).length - 3,
    ));

  it("heel, by the model instead: nothing is missing", () => {
    const how: Circumstances = { ...underSail, heelIs: "modelled" };
    const modelled = { ...corrections, heelModel: { fullHeel: 0.5 } };
    const state = stateOf({ ...all, heel: Number.NaN }, how, modelled);
    expect(missingFields(state)).toEqual([]);
    expect(state.heel).toBeLessThan(0);
  });

  it("variation: directions stay magnetic and nothing is told over the ground", () => {
    const state = stateOf(all, { ...underSail, variation: Number.NaN }, corrections);
    expect(missingFields(state)).toEqual([
      "overGroundEast",
      "overGroundNorth",
      "currentEast",
      "currentNorth",
    ]);
    near(state.heading, without({}).heading);
  });

  it("a boat on her side has no level wind", () =>
    expect(missingFields(without({ heel: Math.PI / 2 }))).toContain("apparentAngle"));
});
