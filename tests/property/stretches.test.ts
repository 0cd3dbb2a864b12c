// INPUTS: any whole stretches of time. Expected: a second belongs to what is left, or made one, or lies between, just where counting the
// seconds one by one says so.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  between,
  endOf,
  outside,
  type Stretch,
  stretchTo,
  together,
} from "../../packages/core/src/recording/stretches.ts";

const LATEST = 60;

const stretch = fc
  .tuple(fc.nat(LATEST - 1), fc.integer({ min: 1, max: LATEST }))
  .map(([start, seconds]): Stretch => stretchTo(start, Math.min(LATEST, start + seconds)));
const some = fc.array(stretch, { maxLength: 8 });

const holds = (all: readonly Stretch[], second: number): boolean =>
  all.some((one) => one.start <= second && second < endOf(one));

const secondsOf = (holdsIt: (second: number) => boolean): readonly number[] =>
  Array.from({ length: LATEST }, (_, second) => second).filter(holdsIt);

const inOrderAndApart = (all: readonly Stretch[]): boolean =>
  all.every((one, place) => place === 0 || endOf(all[place - 1]!) < one.start);

describe("stretches of time", () => {
  it("less holes are what no hole covers", () => {
    fc.assert(
      fc.property(stretch, some, (whole, holes) => {
        const left = outside(whole, holes);
        expect(secondsOf((second) => holds(left, second))).toEqual(
          secondsOf((second) => holds([whole], second) && !holds(holes, second)),
        );
        expect(inOrderAndApart(left)).toBe(true);
      }),
    );
  });

  it("made one cover what they covered, and no longer touch", () => {
    fc.assert(
      fc.property(some, (all) => {
        const made = together(all);
        expect(secondsOf((second) => holds(made, second))).toEqual(secondsOf((second) => holds(all, second)));
        expect(inOrderAndApart(made)).toBe(true);
      }),
    );
  });

  it("have between them what lies between the first and the last, where it is long enough", () => {
    fc.assert(
      fc.property(some, fc.integer({ min: 1, max: 5 }), (all, shortest) => {
        const made = together(all);
        const gaps = between(all, shortest);
        for (const { seconds } of gaps) expect(seconds).toBeGreaterThanOrEqual(shortest);
        const whole = together([...made, ...between(all, 1)]);
        expect(whole.length).toBe(made.length === 0 ? 0 : 1);
        expect(between(all, 1).filter(({ seconds }) => seconds >= shortest)).toEqual(gaps);
        expect(gaps.some((gap) => made.some((one) => one.start < endOf(gap) && gap.start < endOf(one)))).toBe(
          false,
        );
      }),
    );
  });

  it("of no length are left where no hole is", () => {
    const moment = stretchTo(5, 5);
    expect(outside(moment, [])).toEqual([moment]);
    expect(outside(moment, [stretchTo(7, 9)])).toEqual([moment]);
  });
});
