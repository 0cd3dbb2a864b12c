import fc from "fast-check";
import { Matrix, solve } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { daysOf } from "../../packages/core/src/fit/days.ts";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import { errorOfDays, errorOfOneDay } from "../../packages/core/src/fit/scalarEvidence.ts";
import { independentMeans } from "../../packages/core/src/fit/scalarResiduals.ts";
import { windTimes } from "../../packages/core/src/fit/windTimes.ts";
import type { LegRow } from "../../packages/core/src/sailing/legRow.ts";
import { anotherDay, drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { handmadeRow } from "../support/handmadeRows.ts";
import { requireSolved, seenSail } from "../support/scoredSails.ts";

const HOUR = 3600;
const rowAt = (at: number): LegRow => handmadeRow({ leg: 0, at, mean: {} });

describe("days (M56)", () => {
  it("begin where nothing was sailed for four hours", () => {
    const rows = [0, 30, 3 * HOUR, 8 * HOUR, 8 * HOUR + 30, 30 * HOUR].map(rowAt);
    expect(daysOf(rows)).toEqual([
      { from: 0, to: 3 },
      { from: 3, to: 5 },
      { from: 5, to: 6 },
    ]);
    expect(daysOf([])).toEqual([]);
  });

  it("part what the wind's wander compares", () => {
    const [first, second, third] = windTimes([0, 30, 20 * HOUR].map(rowAt));
    expect(second! - first!).toBe(30);
    expect(third! - second!).toBeGreaterThan(1e9);
  });
});

describe("means of several days that share an error (M56)", () => {
  const positive = fc.double({ min: 0.05, max: 3, noNaN: true });

  it("are weighed by the inverse of their covariance", () => {
    const mean = fc.double({ min: -3, max: 3, noNaN: true });
    const days = fc.array(fc.tuple(mean, positive), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(days, positive, (seen, shared) => {
        const values = seen.map(([value]) => value);
        const errors = seen.map(([, day]) => ({ day, shared }));
        const covariance = Matrix.diag(errors.map(({ day }) => day ** 2)).add(shared ** 2);
        const column = Matrix.columnVector(values);
        const expected = column.transpose().mmul(solve(covariance, column)).get(0, 0);
        const squares = independentMeans(values, errors).reduce((sum, one) => sum + one ** 2, 0);
        expect(Math.abs(squares - expected)).toBeLessThan(1e-9 * (1 + expected));
      }),
    );
  });

  it("say of one day what one error of both sizes says, and of many no more than what they share", () => {
    fc.assert(
      fc.property(positive, positive, (day, shared) => {
        expect(independentMeans([1], [{ day, shared }])[0]).toBeCloseTo(
          1 / errorOfOneDay({ day, shared }),
          10,
        );
        expect(errorOfDays({ day, shared }, 1)).toBeCloseTo(errorOfOneDay({ day, shared }), 12);
        const many = independentMeans(
          Array.from({ length: 50 }, () => 1),
          Array.from({ length: 50 }, () => ({ day, shared })),
        );
        const sd = 1 / Math.sqrt(many.reduce((sum, one) => sum + one ** 2, 0));
        expect(sd).toBeCloseTo(errorOfDays({ day, shared }, 50), 10);
        expect(sd).toBeGreaterThan(shared);
      }),
    );
  });
});

describe("two days in one fit", () => {
  it("do not care how many days lie between, nor about the wind of the other", () => {
    const scenario = drawScenario(7003, { seconds: 3600, motoring: false });
    const first = seenSail(scenario).sailing.rows;
    const other = seenSail(anotherDay(scenario, 7103, { seconds: 3600, motoring: false })).sailing.rows;
    const legs = Math.max(...first.map(({ leg }) => leg)) + 1;
    const from = first[0]!.start - other[0]!.start;
    const after = (days: number): readonly LegRow[] => [
      ...first,
      ...other.map((row) => ({ ...row, leg: row.leg + legs, start: row.start + from + days * 24 * HOUR })),
    ];
    const context = { heelSign: "auto", steeredBy: "sails", leewayLawHolds: true } as const;
    const [tomorrow, nextMonth] = [1, 30].map((days) => requireSolved(fitBoat(after(days), context)));
    tomorrow!.parameters.forEach(({ name, value, sd }, index) => {
      const later = nextMonth!.parameters[index]!;
      // the same numbers from times that differ by their rounding
      expect(Math.abs(later.value - value), name).toBeLessThan(1e-3 * sd);
      expect(later.sd / sd, name).toBeCloseTo(1, 4);
    });
    expect(tomorrow!.symmetry?.days).toBe(2);
    expect(tomorrow!.symmetry?.without.sd).toBeGreaterThan(
      tomorrow!.parameters.find(({ name }) => name === "vane.mastheadOffset")!.sd,
    );
  }, 60_000);
});
