import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type BoatReadings,
  boatStateOf,
  underSail,
  unknownBoatState,
} from "../../packages/core/src/sensors/boatState.ts";
import { exactLaws, type LawErrors } from "../../packages/core/src/sensors/lawErrors.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import type { SensorSettings } from "../../packages/core/src/sensors/parameters.ts";
import { degrees, knots, metresPerSecond, radians } from "../../packages/core/src/units.ts";

const settings: SensorSettings = {
  ...noCorrections,
  speed: { intercept: 0, gainStarboard: 1.02, gainPort: 0.98 },
  leeway: { coefficient: 2.6 },
};

const beating: BoatReadings = {
  awa: radians(30),
  aws: 9,
  stw: metresPerSecond(6),
  heading: radians(75),
  heel: radians(-20),
  east: 2,
  north: 1,
};

const stateWith = (laws: Partial<LawErrors>, readings: Partial<BoatReadings> = {}, sailsUp = true) =>
  boatStateOf({ ...beating, ...readings }, { ...underSail, sailsUp }, settings, unknownBoatState(), {
    ...exactLaws,
    ...laws,
  });

describe("what the laws leave out (M29)", () => {
  it("is nothing at the speed and angles where the laws are told", () => {
    const exact = stateWith({});
    const there = { stw: metresPerSecond(5.6) / 1.02 };
    expect(stateWith({ leewayPower: 0.3 }, there).leeway).toBeCloseTo(stateWith({}, there).leeway, 12);
    expect(stateWith({ windage: 0.02 })).toEqual(exact);
    expect(stateWith({}, {}, true)).toEqual(exact);
  });

  it("brings the tacks' gains together off the wind, and one they are under power", () => {
    const gap = (awa: number, laws: Partial<LawErrors>, sailsUp = true): number =>
      stateWith(laws, { awa: radians(awa) }, sailsUp).speedAhead -
      stateWith(laws, { awa: radians(-awa) }, sailsUp).speedAhead;
    const whole = 0.04 * beating.stw;
    expect(gap(30, {})).toBeCloseTo(whole, 12);
    expect(gap(30, { sidesMeet: 1 })).toBeCloseTo(whole * Math.cos(radians(15)) ** 2, 12);
    expect(gap(150, { sidesMeet: 1 })).toBeCloseTo(whole * Math.cos(radians(75)) ** 2, 12);
    expect(gap(30, {}, false)).toBe(0);
    expect(stateWith({}, {}, false).speedAhead).toBeCloseTo(beating.stw, 12);
  });

  /** What a falling deficit of 0.1 m/s at 5 kn adds at a speed in knots. */
  const bend = (speed: number): number => {
    const stw = metresPerSecond(speed) / 1.02;
    return stateWith({ deficitFalling: 0.1 }, { stw }).speedAhead - stateWith({}, { stw }).speedAhead;
  };

  it("bends a wheel's line where its deficit falls with speed: d · 5 kn / v less a straight line", () => {
    fc.assert(
      fc.property(fc.double({ min: 2.1, max: 12, noNaN: true }), (speed) => {
        const line = (at: number): number => (0.1 * 5) / at - bend(at);
        const through = line(3) + ((line(8) - line(3)) * (speed - 3)) / 5;
        expect(line(speed)).toBeCloseTo(through, 10);
      }),
    );
  });

  it("leaves intercept and gain to the line that is nearest from 3 to 8 kn: the bend has neither there", () => {
    // by the midpoint rule, whose error of a smooth function goes with the square of the step: a millionth of the bend's size here
    const steps = 2000;
    const speeds = Array.from({ length: steps }, (_, step) => 3 + (5 * (step + 0.5)) / steps);
    const mean = (of: (speed: number) => number) => speeds.reduce((sum, speed) => sum + of(speed), 0) / steps;
    expect(mean(bend)).toBeCloseTo(0, 7);
    expect(mean((speed) => bend(speed) * speed)).toBeCloseTo(0, 7);
    expect(mean((speed) => bend(speed) ** 2)).toBeGreaterThan(1e-5);
  });

  it("lets leeway fall with another power of speed, on both tacks alike", () => {
    const stw = metresPerSecond(4) / 1.02;
    const ratio = stateWith({ leewayPower: 0.5 }, { stw }).leeway / stateWith({}, { stw }).leeway;
    expect(ratio).toBeCloseTo(Math.sqrt(5.6 / 4), 10);
    const port = { awa: radians(-30), heel: radians(20), stw: metresPerSecond(4) / 0.98 };
    expect(stateWith({ leewayPower: 0.5 }, port).leeway).toBeCloseTo(
      -stateWith({ leewayPower: 0.5 }, { stw }).leeway,
      12,
    );
  });

  it("lets a boat under power slide away from the wind", () => {
    const abeam = { awa: radians(90), aws: 10, stw: 3 };
    const laws = { windage: radians(0.5) };
    expect(degrees(stateWith(laws, abeam, false).leeway)).toBeCloseTo(-0.5, 12);
    expect(degrees(stateWith(laws, { ...abeam, awa: radians(-90) }, false).leeway)).toBeCloseTo(0.5, 12);
    expect(stateWith(laws, { ...abeam, awa: 0 }, false).leeway).toBeCloseTo(0, 12);
    expect(stateWith(laws, { ...abeam, aws: 5 }, false).leeway).toBeCloseTo(-laws.windage / 4, 12);
  });

  it("adds a third harmonic to the deviation, thrice round in a circle", () => {
    const headings = Array.from({ length: 360 }, (_, at) => radians(at));
    const beyond = headings.map((heading) => {
      const turned = stateWith({ thirdSine: radians(0.2), thirdCosine: radians(-0.1) }, { heading }).heading;
      const exact = stateWith({}, { heading }).heading;
      return degrees(Math.atan2(Math.sin(turned - exact), Math.cos(turned - exact)));
    });
    expect(Math.max(...beyond)).toBeCloseTo(Math.hypot(0.2, 0.1), 3);
    expect(beyond.reduce((sum, value) => sum + value, 0)).toBeCloseTo(0, 10);
    for (const [at, value] of beyond.entries()) expect(value).toBeCloseTo(beyond[(at + 120) % 360]!, 10);
  });

  it("keeps what is missing missing", () => {
    const laws = { sidesMeet: 0.5, deficitFalling: 0.1, leewayPower: 0.2, windage: 0.01, thirdSine: 0.01 };
    expect(stateWith(laws, { stw: Number.NaN }).speedAhead).toBeNaN();
    expect(stateWith(laws, { heading: Number.NaN }).heading).toBeNaN();
    expect(stateWith(laws, { awa: Number.NaN }, false).leeway).toBeNaN();
    expect(knots(stateWith(laws, { stw: 0 }).speedAhead)).toBeNaN();
  });
});
