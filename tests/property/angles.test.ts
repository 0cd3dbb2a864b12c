/** Angles, directions and circular statistics (M2 to M8). MARGIN: rounding of a turn, 1e-12 rad, unless said. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { angleBetween, wrapAngle, wrapDirection } from "../../packages/core/src/angles.ts";
import {
  angularDeviation,
  circularRange,
  circularStandardDeviation,
  circularVariance,
  meanDirection,
  medianDirection,
  resultantLength,
} from "../../packages/core/src/circular.ts";
import { degrees, knots, metresPerSecond, radians } from "../../packages/core/src/units.ts";
import { between } from "../support/boats.ts";

const anyAngle = between(-1000, 1000);
const sample = fc.array(between(0, 6.28), { minLength: 1, maxLength: 30 });
const same = (one: number, other: number, margin = 1e-12): void => {
  expect(Math.abs(wrapAngle(one - other))).toBeLessThan(margin);
};

describe("units", () => {
  it("degrees and knots come back", () => {
    fc.assert(
      fc.property(anyAngle, (value) => {
        expect(Math.abs(degrees(radians(value)) - value)).toBeLessThanOrEqual(1e-12);
        expect(Math.abs(knots(metresPerSecond(value)) - value)).toBeLessThanOrEqual(1e-12);
      }),
    );
    for (const convert of [degrees, radians, knots, metresPerSecond]) {
      expect(convert(Number.NaN)).toBeNaN();
      expect(convert(0)).toBe(0);
    }
  });
});

describe("wrapping", () => {
  it("lands in its interval, on the same angle", () => {
    fc.assert(
      fc.property(anyAngle, (angle) => {
        const [wrapped, direction] = [wrapAngle(angle), wrapDirection(angle)];
        expect(wrapped).toBeGreaterThan(-Math.PI);
        expect(wrapped).toBeLessThanOrEqual(Math.PI);
        expect(direction).toBeGreaterThanOrEqual(0);
        expect(direction).toBeLessThan(2 * Math.PI);
        for (const found of [wrapped, direction]) {
          expect(Math.abs(Math.sin(found) - Math.sin(angle))).toBeLessThan(1e-12);
          expect(Math.abs(Math.cos(found) - Math.cos(angle))).toBeLessThan(1e-12);
        }
        expect(wrapAngle(wrapped)).toBe(wrapped);
        expect(wrapDirection(direction)).toBe(direction);
      }),
      { numRuns: 1000 },
    );
  });
  it("holds the ends", () => {
    expect(wrapAngle(Math.PI)).toBe(Math.PI);
    expect(wrapAngle(-Math.PI)).toBe(Math.PI);
    expect(wrapDirection(2 * Math.PI)).toBe(0);
    expect(wrapDirection(-1e-20)).toBe(0);
    expect(wrapDirection(0)).toBe(0);
    for (const missing of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      expect(wrapAngle(missing)).toBeNaN();
      expect(wrapDirection(missing)).toBeNaN();
    }
  });
  it("a difference changes sign with its order, but at half a turn", () => {
    fc.assert(
      fc.property(between(0, 6.28), between(0, 6.28), (one, other) => {
        const difference = angleBetween(one, other);
        fc.pre(Math.abs(difference) < 3.14);
        same(angleBetween(other, one), -difference);
        same(other + difference, one);
      }),
    );
  });
});

describe("circular statistics", () => {
  it("turn with the sample", () => {
    fc.assert(
      fc.property(sample, between(-7, 7), (angles, turn) => {
        const turned = angles.map((angle) => angle + turn);
        expect(Math.abs(resultantLength(turned) - resultantLength(angles))).toBeLessThan(1e-12);
        expect(Math.abs(circularRange(turned) - circularRange(angles))).toBeLessThan(1e-11);
        fc.pre(resultantLength(angles) > 1e-3);
        same(meanDirection(turned), meanDirection(angles) + turn, 1e-11);
      }),
    );
  });
  it("do not depend on the order, and whole weights are repetitions", () => {
    const weighted = fc.array(fc.tuple(between(0, 6.28), fc.integer({ min: 0, max: 4 })), { minLength: 1 });
    fc.assert(
      fc.property(weighted, (pairs) => {
        const repeated = pairs.flatMap(([angle, weight]) => new Array<number>(weight).fill(angle));
        fc.pre(repeated.length > 0);
        const [angles, weights] = [pairs.map(([angle]) => angle), pairs.map(([, weight]) => weight)];
        const length = resultantLength(angles, weights);
        expect(Math.abs(length - resultantLength(repeated.toReversed()))).toBeLessThan(1e-12);
        fc.pre(length > 1e-3);
        same(meanDirection(angles, weights), meanDirection(repeated.toReversed()), 1e-11);
      }),
    );
  });
  it("near one direction they are the ordinary ones", () => {
    fc.assert(
      fc.property(fc.array(between(-0.01, 0.01), { minLength: 2, maxLength: 20 }), (angles) => {
        const mean = angles.reduce((sum, angle) => sum + angle, 0) / angles.length;
        const variance = angles.reduce((sum, angle) => sum + (angle - mean) ** 2, 0) / angles.length;
        const length = resultantLength(angles);
        same(meanDirection(angles), mean, 1e-6); // third powers of 0.01
        for (const spread of [circularStandardDeviation(length), angularDeviation(length)])
          expect(Math.abs(spread ** 2 - variance)).toBeLessThan(1e-8); // fourth powers of 0.01
        expect(Math.abs(circularVariance(length) - variance / 2)).toBeLessThan(1e-8);
        expect(Math.abs(circularRange(angles) - (Math.max(...angles) - Math.min(...angles)))).toBeLessThan(
          1e-14,
        );
      }),
    );
  });
  it("no other direction has a shorter mean arc than the median", () => {
    const arc = (from: number, angles: readonly number[]): number =>
      angles.reduce((sum, angle) => sum + Math.abs(angleBetween(angle, from)), 0) / angles.length;
    fc.assert(
      fc.property(
        fc.array(between(0, 2), { minLength: 1, maxLength: 9 }),
        between(0, 6.28),
        (angles, other) => {
          expect(arc(medianDirection(angles), angles)).toBeLessThanOrEqual(arc(other, angles) + 1e-12);
        },
      ),
    );
  });
  it("are NaN where there is nothing, where something is missing, and where directions cancel", () => {
    for (const none of [[], [1, Number.NaN]])
      for (const statistic of [meanDirection, resultantLength, medianDirection, circularRange])
        expect(statistic(none)).toBeNaN();
    expect(meanDirection([0, Math.PI])).toBeNaN();
    expect(meanDirection([0, Math.PI / 2, Math.PI, -Math.PI / 2])).toBeNaN();
    expect(resultantLength([0, Math.PI])).toBeLessThan(1e-15);
  });
  it("a single direction has no spread", () => {
    expect(circularRange([1])).toBe(0);
    expect(medianDirection([1])).toBeCloseTo(1, 14);
    expect(circularStandardDeviation(1)).toBe(0);
    expect(circularStandardDeviation(0)).toBe(Number.POSITIVE_INFINITY);
  });
  it("refuse weights that are no weights", () => {
    expect(() => meanDirection([1, 2], [1])).toThrow(/meanDirection: weights .* got 1 for 2/);
    expect(() => resultantLength([1, 2], [1, -1])).toThrow(/resultantLength: weights .* got -1/);
  });
});
