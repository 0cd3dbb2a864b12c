/** Each sensor and its inverse (M20 to M26). MARGIN: rounding, 1e-13 of the size, unless said. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wrapAngle } from "../../packages/core/src/angles.ts";
import {
  anemometerReadingOf,
  cupSpeed,
  cupSpeedFromReading,
  flowSpeed,
} from "../../packages/core/src/sensors/anemometer.ts";
import { deviation, headingFromReading, headingReadingOf } from "../../packages/core/src/sensors/compass.ts";
import {
  deviationSeriesByLeastSquares,
  deviationSeriesByRules,
} from "../../packages/core/src/sensors/deviationSeries.ts";
import { modelledHeel } from "../../packages/core/src/sensors/heelModel.ts";
import { heelFromReading, heelReadingOf } from "../../packages/core/src/sensors/heelSensor.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import { speedFromReading, speedGain, speedReadingOf } from "../../packages/core/src/sensors/speedSensor.ts";
import { flowAngleFromReading, upwash, vaneReadingOf } from "../../packages/core/src/sensors/vane.ts";
import { radians } from "../../packages/core/src/units.ts";
import { between, heading, settings } from "../support/boats.ts";

const close = (one: number, other: number, margin = 1e-13): void => {
  expect(Math.abs(one - other)).toBeLessThanOrEqual(margin * Math.max(1, Math.abs(other)));
};
const same = (one: number, other: number, margin = 1e-13): void => {
  expect(Math.abs(wrapAngle(one - other))).toBeLessThan(margin);
};

const angle = between(-3.14, 3.14);

describe("speed sensor (M20)", () => {
  it("reading → speed → reading, on either tack", () => {
    fc.assert(
      fc.property(settings, angle, between(0.01, 15), ({ speed }, awa, reading) =>
        close(speedReadingOf(speedFromReading(reading, awa, speed), awa, speed), reading),
      ),
    );
  });
  it("takes the gain of the tack, and the mean where there is none", () => {
    const unequal = { intercept: 0, gainStarboard: 1.1, gainPort: 0.9 };
    expect(speedGain(0.5, unequal)).toBe(1.1);
    expect(speedGain(-0.5, unequal)).toBe(0.9);
    for (const astride of [0, -0, Math.PI]) expect(speedGain(astride, unequal)).toBe(1);
    expect(speedGain(Number.NaN, unequal)).toBeNaN();
  });
  it("a wheel at rest says nothing, and stands still below the intercept", () => {
    const { speed } = noCorrections;
    for (const reading of [0, -0, -1, Number.NaN]) expect(speedFromReading(reading, 1, speed)).toBeNaN();
    expect(speedReadingOf(0.1, 1, { ...speed, intercept: 0.2 })).toBe(0);
    expect(speedReadingOf(Number.NaN, 1, speed)).toBeNaN();
  });
});

describe("compass (M21)", () => {
  it("reading → heading → reading", () => {
    fc.assert(
      fc.property(settings, heading, between(-0.6, 0.6), ({ compass }, reading, heel) =>
        same(headingReadingOf(headingFromReading(reading, heel, compass), heel, compass), reading),
      ),
      { numRuns: 1000 },
    );
  });
  it("heading → reading → heading", () => {
    fc.assert(
      fc.property(settings, between(-20, 20), between(-0.6, 0.6), ({ compass }, wanted, heel) =>
        same(headingFromReading(headingReadingOf(wanted, heel, compass), heel, compass), wanted),
      ),
      { numRuns: 1000 },
    );
  });
  it("has no single reading where deviation is too steep", () => {
    const steep = { ...noCorrections.compass, b: 1.2 };
    expect(headingReadingOf(1, 0, steep)).toBeNaN();
    expect(headingReadingOf(Number.NaN, 0, noCorrections.compass)).toBeNaN();
  });
  it("needs heel only for its heeling error", () => {
    const { compass } = noCorrections;
    expect(headingFromReading(1, Number.NaN, compass)).toBe(1);
    expect(headingFromReading(1, Number.NaN, { ...compass, heelingError: 0.1 })).toBeNaN();
  });
  it("heeling error is greatest on north and south, opposite there and on the other tack", () => {
    const compass = { ...noCorrections.compass, heelingError: 0.1 };
    close(deviation(0, 0.3, compass), 0.03);
    close(deviation(Math.PI, 0.3, compass), -0.03);
    close(deviation(0, -0.3, compass), -0.03);
    close(deviation(Math.PI / 2, 0.3, compass), 0);
  });
});

describe("deviation series (M26)", () => {
  const points = Array.from({ length: 8 }, (_, index) => radians(45 * index));
  it("comes back from the deviations that it makes", () => {
    fc.assert(
      fc.property(settings, fc.array(heading, { minLength: 12, maxLength: 30 }), ({ compass }, headings) => {
        const spread = [...headings, ...points];
        const onPoints = points.map((point) => deviation(point, 0, compass));
        const everywhere = spread.map((point) => deviation(point, 0, compass));
        const rules = deviationSeriesByRules(onPoints);
        const squares = deviationSeriesByLeastSquares(spread, everywhere);
        for (const term of ["a", "b", "c", "d", "e"] as const) {
          close(rules[term], compass[term]);
          close(squares[term], compass[term], 1e-12);
        }
      }),
    );
  });
  it("refuses headings that cannot tell five terms", () => {
    expect(() => deviationSeriesByRules([1, 2, 3])).toThrow(/8 points, got 3/);
    expect(() => deviationSeriesByLeastSquares([1, 2, 3, 4], [0, 0, 0, 0])).toThrow(
      /five well spread .* got 4/,
    );
    const four = [0, 0, 1, 1, 2, 2, 3, 3];
    expect(() => deviationSeriesByLeastSquares(four, four)).toThrow(/five well spread/);
    expect(() => deviationSeriesByLeastSquares([1], [])).toThrow(/as many deviations/);
    expect(deviationSeriesByLeastSquares(points, points.with(2, Number.NaN)).a).toBeNaN();
  });
});

describe("heel sensor (M22) and the heel of a boat without one (M25)", () => {
  it("reading → heel → reading, of either sign", () => {
    fc.assert(
      fc.property(settings, between(-1, 1), ({ heel }, reading) =>
        close(heelReadingOf(heelFromReading(reading, heel), heel), reading),
      ),
    );
    const backward = { sign: -1, zero: 0.05 } as const;
    close(heelFromReading(-0.25, backward), 0.2);
  });
  it("modelled heel is away from the wind, odd, and grows with it", () => {
    const model = { fullHeel: 0.6 };
    fc.assert(
      fc.property(between(0.01, 3.1), between(1, 25), (awa, aws) => {
        const heel = modelledHeel(awa, aws, model);
        expect(heel).toBeLessThan(0);
        expect(modelledHeel(-awa, aws, model)).toBe(-heel);
        expect(modelledHeel(awa, aws + 1, model)).toBeLessThan(heel);
      }),
    );
    expect(modelledHeel(Number.NaN, 5, model)).toBeNaN();
  });
});

describe("vane (M23)", () => {
  it("reading → flow → reading", () => {
    fc.assert(
      fc.property(settings, angle, between(0.1, 30), ({ vane }, reading, speed) =>
        same(vaneReadingOf(flowAngleFromReading(reading, speed, vane), speed, vane), reading),
      ),
      { numRuns: 1000 },
    );
  });
  it("flow → reading → flow", () => {
    fc.assert(
      fc.property(settings, angle, between(0.1, 30), ({ vane }, flow, speed) =>
        same(flowAngleFromReading(vaneReadingOf(flow, speed, vane), speed, vane), flow),
      ),
      { numRuns: 1000 },
    );
  });
  const plain = { mastheadOffset: 0, upwash: 0.1, upwashSlope: -0.02, upwashBroad: 0.03 };
  it("upwash is odd across the tacks, and zero ahead and astern", () => {
    fc.assert(
      fc.property(angle, between(0.1, 30), (awa, speed) =>
        close(upwash(-awa, speed, plain), -upwash(awa, speed, plain)),
      ),
    );
    expect(upwash(0, 8, plain)).toBe(0);
    close(upwash(Math.PI, 8, plain), 0);
  });
  it("its close-hauled part is the amplitude at 41.4° and 7.5 m/s, and never more", () => {
    const closeHauled = { ...plain, upwashSlope: 0, upwashBroad: 0 };
    close(upwash(Math.acos(3 / 4), 7.5, closeHauled), 0.1);
    fc.assert(
      fc.property(angle, between(0.1, 30), (awa, speed) => {
        expect(Math.abs(upwash(awa, speed, closeHauled))).toBeLessThanOrEqual(0.1 + 1e-16);
      }),
    );
  });
  it("its slope counts from 7.5 m/s", () => {
    const sloping = { ...plain, upwash: 0, upwashBroad: 0, upwashSlope: 0.02 };
    const peak = Math.acos(3 / 4);
    expect(upwash(peak, 7.5, sloping)).toBe(0);
    close(upwash(peak, 22.5, sloping), 0.02);
    close(upwash(peak, 2.5, sloping), -0.02);
  });
  it("has no single reading where upwash is too steep, and none for what is missing", () => {
    expect(vaneReadingOf(0.1, 7.5, { ...plain, upwash: 0.5 })).toBeNaN();
    expect(vaneReadingOf(2, 7.5, { ...plain, upwash: -0.95 })).toBeNaN();
    expect(vaneReadingOf(Number.NaN, 7.5, plain)).toBeNaN();
    expect(flowAngleFromReading(1, Number.NaN, plain)).toBeNaN();
  });
});

describe("anemometer (M24)", () => {
  it("reading → flow speed → reading", () => {
    fc.assert(
      fc.property(settings, angle, between(0.01, 40), ({ anemometer }, flow, reading) => {
        const speed = flowSpeed(cupSpeedFromReading(reading, anemometer), flow, anemometer);
        close(anemometerReadingOf(cupSpeed(speed, flow, anemometer), anemometer), reading);
      }),
    );
  });
  it("speed-up is whole dead downwind, half abeam and none ahead", () => {
    const anemometer = { threshold: 0, gain: 1, speedUp: 0.1 };
    close(cupSpeed(10, Math.PI, anemometer), 11);
    close(cupSpeed(10, Math.PI / 2, anemometer), 10.5);
    expect(cupSpeed(10, 0, anemometer)).toBe(10);
  });
  it("cups at rest say nothing, and stand still below the threshold", () => {
    const { anemometer } = noCorrections;
    for (const reading of [0, -0, -1, Number.NaN]) expect(cupSpeedFromReading(reading, anemometer)).toBeNaN();
    expect(anemometerReadingOf(0.3, { ...anemometer, threshold: 0.5 })).toBe(0);
  });
});
