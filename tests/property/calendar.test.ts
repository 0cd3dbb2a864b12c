/**
 * Days of the calendar.
 *
 * INPUTS: any three numbers; the engine's own calendar says what day they are, and whether there is one.
 */
import fc from "fast-check";
import { expect, it } from "vitest";
import { dayNumber } from "../../packages/core/src/recording/calendar.ts";

/** By the engine: it takes any numbers, and carries what is too much to the next month or year. */
function byEngine(year: number, month: number, day: number): number {
  const date = new Date(0);
  date.setUTCFullYear(year, month - 1, day);
  const isSame =
    date.getUTCFullYear() === year && date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
  return isSame ? date.getTime() / 86_400_000 : Number.NaN;
}

it("a day's number is that of the engine's calendar, and NaN where there is no such day", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 9999 }),
      fc.integer({ min: -1, max: 14 }),
      fc.integer({ min: -1, max: 33 }),
      (year, month, day) => {
        expect(dayNumber(year, month, day)).toBe(byEngine(year, month, day));
      },
    ),
    { numRuns: 2000 },
  );
  for (const year of [1900, 2000, 2023, 2024]) expect(dayNumber(year, 2, 29)).toBe(byEngine(year, 2, 29));
});

it("what is no whole number is no day", () => {
  for (const one of [Number.NaN, 1.5, Number.POSITIVE_INFINITY]) {
    expect(dayNumber(one, 1, 1)).toBeNaN();
    expect(dayNumber(2031, one, 1)).toBeNaN();
    expect(dayNumber(2031, 1, one)).toBeNaN();
  }
});
