/** Properties of the figures: directions that do not jump at north, pauses cut out, never too many points. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { angleBetween, wrapDirection } from "../../packages/core/src/angles.ts";
import {
  besideDirections,
  meansOfDays,
  unwrappedDirections,
} from "../../packages/core/src/report/figures/directions.ts";
import { type Figure, MOST_MARKS } from "../../packages/core/src/report/figures/figure.ts";
import { residualsFigure } from "../../packages/core/src/report/figures/residuals.ts";
import { dayTicks, gapBreaks, legMeans } from "../../packages/core/src/report/figures/time.ts";
import { windDirectionFigure } from "../../packages/core/src/report/figures/windDirection.ts";
import { radians } from "../../packages/core/src/units.ts";
import { solvedAnswerFixture, unsolvedAnswerFixture } from "../support/answerFixture.ts";

const marksOf = ({ traces }: Figure): number =>
  traces.reduce((sum, { mode, x }) => sum + (mode === "markers" && Array.isArray(x) ? x.length : 0), 0);

/** The numbers of a trace's y. */
const heights = (figure: Figure): readonly number[] =>
  figure.traces.flatMap(({ y }) => (Array.isArray(y) ? y.filter((value) => typeof value === "number") : []));

/** Times of the rows of one day. */
const everySoOften = (column: readonly number[]): readonly number[] => column.map((_, index) => 30 * index);

describe("unwrapped directions", () => {
  it("are the same directions but for whole turns, missing ones included", () => {
    const directions = fc.oneof(fc.double({ min: 0, max: 6.283, noNaN: true }), fc.constant(Number.NaN));
    fc.assert(
      fc.property(fc.array(directions), (column) => {
        const unwrapped = unwrappedDirections(column, everySoOften(column));
        column.forEach((direction, index) => {
          if (Number.isNaN(direction)) expect(unwrapped[index]).toBeNaN();
          else expect(Math.abs(angleBetween(unwrapped[index]!, direction))).toBeLessThan(1e-9);
        });
      }),
    );
  });

  it("do not jump where a wind wanders across north", () => {
    const steps = fc.array(fc.double({ min: -0.15, max: 0.15, noNaN: true }), {
      minLength: 2,
      maxLength: 200,
    });
    fc.assert(
      fc.property(steps, (changes) => {
        let direction = 0;
        const column = changes.map((change) => {
          direction = 0.5 * direction + change;
          return wrapDirection(direction);
        });
        const unwrapped = unwrappedDirections(column, everySoOften(column));
        for (let index = 1; index < unwrapped.length; index++)
          expect(Math.abs(unwrapped[index]! - unwrapped[index - 1]!)).toBeLessThan(1);
      }),
    );
  });

  it("lie within a turn on all days of a season, though the wind goes round the compass from day to day", () => {
    const [day, rows] = [86_400, 200];
    const column = Array.from({ length: 20 * rows }, (_, index) =>
      wrapDirection(Math.floor(index / rows) * 2 + 0.3 * Math.sin(index)),
    );
    const time = column.map((_, index) => day * Math.floor(index / rows) + 30 * (index % rows));
    const unwrapped = unwrappedDirections(column, time);
    // a turn, and what the wind wanders to either side of where a day begins
    expect(Math.max(...unwrapped) - Math.min(...unwrapped)).toBeLessThan(2 * Math.PI + 4 * 0.3);
    for (let index = 1; index < unwrapped.length; index++)
      if (index % rows !== 0) expect(Math.abs(unwrapped[index]! - unwrapped[index - 1]!)).toBeLessThan(1);
  });

  it("come back to their turn after one wild row", () => {
    const column = [1, 1.1, 1, 4.4, 1, 1.1, 1].map(wrapDirection);
    const unwrapped = unwrappedDirections(column, everySoOften(column));
    expect([...unwrapped].filter((_, index) => index !== 3)).toEqual([1, 1.1, 1, 1, 1.1, 1]);
  });

  it("put two columns on the same turn", () => {
    const after = unwrappedDirections([radians(359), radians(1), radians(5)], [0, 30, 60]);
    const before = besideDirections([radians(5), radians(355), Number.NaN], after);
    expect(Math.abs(before[0]! - after[0]! - radians(6))).toBeLessThan(1e-9);
    expect(Math.abs(before[1]! - after[1]! + radians(6))).toBeLessThan(1e-9);
    expect(before[2]).toBeNaN();
  });
});

describe("directions of several days", () => {
  const NIGHT = 16 * 3600;

  it("have a mean for each day, of what was read", () => {
    const time = [0, 30, 60, NIGHT, NIGHT + 30];
    const means = meansOfDays([1, 3, Number.NaN, 5, 6], time);
    expect(means).toEqual(Float64Array.of(2, 2, 2, 5.5, 5.5));
  });

  it("need none where all are of one day", () => {
    expect(meansOfDays([1, 3], [0, 30])).toBeUndefined();
    expect(meansOfDays([], [])).toBeUndefined();
  });

  it("are drawn beside it: one scale shows what the tacks differ", () => {
    const { answer } = solvedAnswerFixture(4);
    const one = windDirectionFigure(solvedAnswerFixture(1).answer);
    const four = windDirectionFigure(answer);
    expect(four.caption).toContain("beside the mean of its corrected wind");
    expect(one.caption).not.toContain("beside the mean");
    for (const { y, text } of four.traces.filter(({ mode }) => mode === "markers")) {
      const [drawn, told] = [y, text] as readonly (readonly (number | string | null)[])[];
      expect(drawn!.every((value) => Math.abs(Number(value)) < 90)).toBe(true);
      expect(told!.every((value) => /^\d{3}$/.test(String(value)))).toBe(true);
    }
  });
});

describe("the picture of the wind", () => {
  it("draws a wind about north without a jump", () => {
    const figure = windDirectionFigure(solvedAnswerFixture().answer);
    const drawn = heights(figure);
    expect(Math.max(...drawn) - Math.min(...drawn)).toBeLessThan(90);
  });

  it("has no more marks than can be drawn at once, for a season too", () => {
    for (const days of [1, 4, 30]) {
      const { answer } = solvedAnswerFixture(days);
      const figures = [windDirectionFigure(answer), residualsFigure(answer)!];
      for (const figure of figures) {
        expect(marksOf(figure)).toBeLessThanOrEqual(MOST_MARKS);
        expect(marksOf(figure)).toBeGreaterThan(0.8 * MOST_MARKS);
      }
    }
  });

  it("of a refused fit is one panel, without residuals", () => {
    const { answer } = unsolvedAnswerFixture();
    const figure = windDirectionFigure(answer);
    expect(Object.keys(figure.layout)).not.toContain("yaxis2");
    expect(heights(figure).length).toBeGreaterThan(0);
    expect(residualsFigure(answer)).toBeUndefined();
  });
});

describe("time", () => {
  it("has nights cut out and pauses of an hour left in", () => {
    const day = 86_400;
    expect(gapBreaks([0, 3600, day, day + 60])).toHaveLength(1);
    expect(gapBreaks([0, 60, 3660])).toHaveLength(0);
  });

  it("of several days each has its date on its first tick, and whole hours after it; one day has none of this", () => {
    const minutes = (start: number, count: number): number[] =>
      Array.from({ length: count }, (_, minute) => start + 60 * minute);
    expect(dayTicks(minutes(0, 600))).toEqual({});
    const noon = 43_200;
    const { ticktext } = dayTicks([...minutes(noon, 90), ...minutes(noon + 5 * 86_400, 90)]) as {
      ticktext: string[];
    };
    expect(ticktext).toEqual(["12:00<br>1 Jan", "13:00", "12:00<br>6 Jan", "13:00"]);
    const season = Array.from({ length: 40 }, (_, at) => minutes(noon + at * 86_400, 120)).flat();
    expect((dayTicks(season) as { ticktext: string[] }).ticktext).toHaveLength(6);
  });

  it("gives each leg the mean of its own rows, and no leg without rows", () => {
    const leg = (number: number, start: number, end: number) =>
      ({ number, kind: "sailing", tack: "port", start, end, meanAwa: -0.5 }) as const;
    const legs = [leg(0, 0, 60), leg(1, 100, 160), leg(2, 200, 260)];
    const means = legMeans(legs, [15, 45, 215, 245], [1, 3, 5, Number.NaN]);
    expect(means.map(({ leg: { number }, mean }) => [number, mean])).toEqual([
      [0, 2],
      [2, 5],
    ]);
  });
});
