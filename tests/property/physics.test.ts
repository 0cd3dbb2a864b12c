/** Attitude, leeway, current, wind profile (M11 to M16). MARGIN: rounding, 1e-12 of the size, unless said. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wrapAngle } from "../../packages/core/src/angles.ts";
import {
  levelWind,
  mastheadMotionAhead,
  mastheadMotionAthwart,
  windInMastPlane,
} from "../../packages/core/src/physics/attitude.ts";
import { current, motionLessCurrent, motionOverGround } from "../../packages/core/src/physics/current.ts";
import {
  LEEWAY_LIMIT,
  LEEWAY_SPEED_FLOOR,
  leewayAngle,
  leewayCoefficient,
  motionThroughWater,
} from "../../packages/core/src/physics/leeway.ts";
import { logarithmicWindSpeed, powerLawWindSpeed } from "../../packages/core/src/physics/windProfile.ts";
import {
  apparentWind,
  trueWindAngle,
  windOverGround,
  windOverWater,
} from "../../packages/core/src/physics/windTriangle.ts";
import { radians } from "../../packages/core/src/units.ts";
import { between, heading } from "../support/boats.ts";

const close = (one: number, other: number, margin = 1e-12): void => {
  expect(Math.abs(one - other)).toBeLessThan(margin * Math.max(1, Math.abs(other)));
};
const same = (one: number, other: number, margin = 1e-11): void => {
  expect(Math.abs(wrapAngle(one - other))).toBeLessThan(margin);
};

const wind = fc.record({ angle: between(-3.14, 3.14), speed: between(0.5, 30) });
const motion = fc.record({ direction: heading, speed: between(0.1, 15) });
const tilt = between(-1.2, 1.2);

describe("wind triangle (M10)", () => {
  it("apparent → true → apparent", () => {
    fc.assert(
      fc.property(wind, heading, motion, (apparent, bow, way) => {
        const found = windOverWater(apparent, bow, way);
        fc.pre(found.speed > 0.01);
        const felt = apparentWind(found, bow, way);
        same(felt.angle, apparent.angle);
        close(felt.speed, apparent.speed);
      }),
    );
  });
  it("the winds over water and ground differ by the current", () => {
    fc.assert(
      fc.property(wind, heading, motion, motion, (apparent, bow, throughWater, stream) => {
        const overGround = motionOverGround(throughWater, stream);
        const water = windOverWater(apparent, bow, throughWater);
        const ground = windOverGround(apparent, bow, overGround);
        fc.pre(ground.speed > 0.01);
        // Seen from the drifting water, the wind over the ground is one's own apparent wind.
        const seen = apparentWind(ground, 0, stream);
        close(seen.speed, water.speed, 1e-10);
      }),
    );
  });
  it("a boat at rest feels the true wind; a calm is felt from where she goes", () => {
    const still = { direction: Number.NaN, speed: 0 };
    const found = windOverGround({ angle: 0.5, speed: 6 }, 1, still);
    close(found.direction, 1.5);
    close(found.speed, 6);
    const felt = apparentWind(still, 1, { direction: 1.2, speed: 3 });
    close(felt.angle, 0.2);
    close(felt.speed, 3);
    expect(windOverWater({ angle: 0, speed: 3 }, 0, { direction: 0, speed: 3 })).toEqual(still);
  });
  it("NaN in, NaN out; negative speeds are refused", () => {
    const nothing = { direction: Number.NaN, speed: Number.NaN };
    const way = { direction: 1, speed: 2 };
    expect(windOverWater({ angle: Number.NaN, speed: 3 }, 0, way)).toEqual(nothing);
    expect(windOverWater({ angle: 1, speed: Number.NaN }, 0, way)).toEqual(nothing);
    expect(windOverWater({ angle: 1, speed: 3 }, Number.NaN, way)).toEqual(nothing);
    expect(windOverGround({ angle: 1, speed: 3 }, 0, { ...way, speed: Number.NaN })).toEqual(nothing);
    expect(() => windOverWater({ angle: 1, speed: -3 }, 0, way)).toThrow(
      /windOverWater: .*apparent.* got -3/,
    );
    expect(() => windOverGround({ angle: 1, speed: 3 }, 0, { ...way, speed: -1 })).toThrow(/windOverGround/);
    expect(() => apparentWind({ direction: 1, speed: -3 }, 0, way)).toThrow(/apparentWind/);
  });
  it("true wind angle is positive to starboard", () => {
    close(trueWindAngle(radians(10), radians(350)), radians(20));
    close(trueWindAngle(radians(350), radians(10)), radians(-20));
  });
});

describe("attitude (M11)", () => {
  it("level → mast plane → level, with heel and pitch", () => {
    fc.assert(
      fc.property(wind, tilt, between(-0.5, 0.5), (level, heel, pitch) => {
        const back = levelWind(windInMastPlane(level, heel, pitch), heel, pitch);
        same(back.angle, level.angle);
        close(back.speed, level.speed, 1e-11);
      }),
    );
  });
  it("is the tangent rule without pitch, and keeps the wind ahead", () => {
    fc.assert(
      fc.property(wind, tilt, (inMastPlane, heel) => {
        const level = levelWind(inMastPlane, heel, 0);
        close(level.speed * Math.cos(level.angle), inMastPlane.speed * Math.cos(inMastPlane.angle), 1e-11);
        fc.pre(Math.abs(Math.cos(inMastPlane.angle)) > 0.01);
        close(Math.tan(level.angle), Math.tan(inMastPlane.angle) / Math.cos(heel), 1e-10);
      }),
    );
  });
  it("is the projection on axes turned by heel and pitch", () => {
    // Axes of the boat in the level frame (ahead, starboard, down): pitched about starboard, then heeled about ahead.
    fc.assert(
      fc.property(wind, tilt, between(-0.5, 0.5), (level, heel, pitch) => {
        const [x, y] = [level.speed * Math.cos(level.angle), level.speed * Math.sin(level.angle)];
        const pitched = { ahead: x * Math.cos(pitch), down: x * Math.sin(pitch) };
        const athwart = y * Math.cos(heel) + pitched.down * Math.sin(heel);
        const found = windInMastPlane(level, heel, pitch);
        close(found.speed * Math.cos(found.angle), pitched.ahead, 1e-11);
        close(found.speed * Math.sin(found.angle), athwart, 1e-11);
      }),
    );
  });
  it("makes nothing of an upright boat, and NaN of one on her side or of what is missing", () => {
    const level = levelWind({ angle: 0.7, speed: 5 }, 0, 0);
    close(level.angle, 0.7);
    close(level.speed, 5);
    for (const [heel, pitch] of [
      [Math.PI / 2, 0],
      [-2, 0],
      [0, 1.6],
      [Number.NaN, 0],
    ] as const) {
      expect(levelWind({ angle: 0.7, speed: 5 }, heel, pitch).angle).toBeNaN();
      expect(windInMastPlane({ angle: 0.7, speed: 5 }, heel, pitch).angle).toBeNaN();
    }
  });
});

describe("masthead motion (M13)", () => {
  it("is the rate of change of the masthead's place", () => {
    // MARGIN: the difference quotient over 2 ms of a rotation about the keel, to second order.
    const [height, rate, step] = [18, 0.1, 1e-3];
    const place = (angle: number): number => height * Math.sin(angle);
    const quotient = (place(rate * step) - place(-rate * step)) / (2 * step);
    close(mastheadMotionAthwart(height, rate, 0, 0), quotient, 1e-7);
    close(mastheadMotionAhead(height, rate), -quotient, 1e-7);
    close(mastheadMotionAthwart(0, rate, 1.5, 0.2), 0.3);
  });
});

describe("leeway (M12)", () => {
  it("comes back from its coefficient, is odd in heel and bounded", () => {
    fc.assert(
      fc.property(between(0.01, 4), between(0.01, 1), between(0, 12), (coefficient, heel, speed) => {
        const leeway = leewayAngle(heel, speed, coefficient);
        close(leewayAngle(-heel, speed, coefficient), -leeway);
        expect(leeway).toBeLessThanOrEqual(LEEWAY_LIMIT);
        fc.pre(leeway < LEEWAY_LIMIT);
        close(leewayCoefficient(leeway, heel, speed), coefficient);
      }),
    );
  });
  it("no longer grows below 3 kn", () =>
    expect(leewayAngle(0.1, 0, 2)).toBe(leewayAngle(0.1, LEEWAY_SPEED_FLOOR, 2)));
  it("is NaN where heel or speed is, unless there is declared to be none", () => {
    expect(leewayAngle(Number.NaN, 3, 2)).toBeNaN();
    expect(leewayAngle(0.3, Number.NaN, 2)).toBeNaN();
    expect(leewayAngle(Number.NaN, Number.NaN, 0)).toBe(0);
    expect(leewayCoefficient(0.1, 0, 3)).toBeNaN();
  });
  it("turns the course, and keeps the speed along the boat", () => {
    fc.assert(
      fc.property(heading, between(0.1, 10), between(-0.3, 0.3), (bow, ahead, leeway) => {
        const way = motionThroughWater(bow, ahead, leeway);
        same(way.direction, bow + leeway);
        close(way.speed * Math.cos(leeway), ahead);
      }),
    );
  });
});

describe("current (M14)", () => {
  it("added to the motion through the water gives that over the ground, and back", () => {
    fc.assert(
      fc.property(motion, motion, (throughWater, stream) => {
        const overGround = motionOverGround(throughWater, stream);
        fc.pre(overGround.speed > 0.01);
        const found = current(overGround, throughWater);
        close(found.speed, stream.speed);
        same(found.direction, stream.direction);
        const back = motionLessCurrent(overGround, stream);
        close(back.speed, throughWater.speed);
        same(back.direction, throughWater.direction);
      }),
    );
  });
  it("of still water has no set", () => {
    const way = { direction: 2, speed: 3 };
    expect(current(way, way)).toEqual({ direction: Number.NaN, speed: 0 });
  });
});

describe("wind profile (M15, M16)", () => {
  it("up and down again", () => {
    fc.assert(
      fc.property(between(0, 30), between(1, 60), between(1, 60), (speed, from, to) => {
        close(logarithmicWindSpeed(logarithmicWindSpeed(speed, from, to, 2e-4), to, from, 2e-4), speed);
        close(powerLawWindSpeed(powerLawWindSpeed(speed, from, to, 1 / 7), to, from, 1 / 7), speed);
      }),
    );
  });
  it("NaN in, NaN out; heights in the ground are refused", () => {
    expect(logarithmicWindSpeed(Number.NaN, 10, 20, 2e-4)).toBeNaN();
    expect(powerLawWindSpeed(5, Number.NaN, 20, 0.1)).toBeNaN();
    expect(() => logarithmicWindSpeed(5, 10, 20, 0)).toThrow(/roughness .* got 0/);
    expect(() => logarithmicWindSpeed(5, 10, 8, 0.1, 8)).toThrow(/to must be above 8.1 m, got 8/);
    expect(() => powerLawWindSpeed(5, 0, 20, 0.1)).toThrow(/from must be above 0 m, got 0/);
  });
});
