/**
 * The notebook for a class, and the page on writing one, run in Node.
 * INPUTS: lines as a class would hand them in, made up here. What is expected is worked out by hand; MARGIN: rounding.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { noFaults } from "../../packages/core/src/simulate/faults.ts";
import { nearestSettings } from "../../packages/core/src/simulate/nearestSettings.ts";
import {
  answersIn,
  answersOf,
  type ClassFaults,
  classBoat,
  lineOf,
  QUESTIONS,
} from "../../packages/notebooks/notebooks/classLines.ts";
import notebook from "../../packages/notebooks/notebooks/the-class-afloat.md";
import writing from "../../packages/notebooks/notebooks/writing-a-notebook.md";
import type { FoundSetting } from "../../packages/notebooks/src/course/simulatedFit.ts";
import { type HeadlessRun, runNotebook } from "../../packages/notebooks/src/run/runNotebook.ts";
import { numberIn, outcomes } from "../support/notebook.ts";
import { agrees } from "../support/published.ts";

const ROUNDING = "rounding of some operations";

let run: HeadlessRun;
beforeAll(async () => {
  run = await runNotebook(notebook);
});

it("runs before anything is sailed or handed in", () => {
  expect(new Set(outcomes(run))).toEqual(new Set(["done"]));
});

it("what is set is what the settings undo: a fit that found the truth would find it", () => {
  const faults: ClassFaults = { offset: -3, logLow: 8, compassHigh: 2.5 };
  const truth = nearestSettings(classBoat(faults));
  const values = {
    "vane.mastheadOffset": truth.vane.mastheadOffset,
    "speed.gain": Math.log(truth.speed.gainStarboard),
    "compass.a": truth.compass.a,
  };
  const settings = Object.entries(values).map(([name, value]) => ({ name, value, sd: 0.01 }) as FoundSetting);
  const { answers } = answersOf(7, faults, settings);
  expect(answers.map(({ set }) => set)).toEqual([-3, 8, 2.5]);
  agrees(answers[0]!.found, -3, 1e-9, ROUNDING);
  // what turns the wheel late is a deficit of its own beside the gain
  agrees(answers[1]!.found, 8, 0.05, "a straight line through a deficit that does not fall with speed");
  agrees(answers[2]!.found, 2.5, 1e-9, ROUNDING);
  expect(classBoat({ offset: 0, logLow: 0, compassHigh: 0 }).compass).toEqual({ ...noFaults.compass, a: -0 });
});

describe("lines that are handed in", () => {
  const LINES = "2, 1, 1.5, 0.5, 8, 9, 1, 0, 0.1, 0.1\n\n1, -2, -3.5, 0.5, 0, -1, 1, 4, 3.9, 0.1\n";

  it("are read in any order, blank ones skipped, and written as they were read", () => {
    const { all, problems } = answersIn(LINES);
    expect(problems).toEqual([]);
    expect(all.map(({ pupil }) => pupil)).toEqual([1, 2]);
    expect(answersIn(all.map(lineOf).join("\n")).all).toEqual(all);
  });

  it("that are none are told by their number", () => {
    expect(answersIn("1, 2, 3\n")).toEqual({
      all: [],
      problems: [expect.stringMatching(/^Line 1 does not count: it must be 10 numbers/)],
    });
    const { all, problems } = answersIn(`${LINES}3, 1, x, 1, 1, 1, 1, 1, 1, 1`);
    expect(all).toEqual(answersIn(LINES).all);
    expect(problems).toEqual([expect.stringMatching(/^Line 4 does not count/)]);
  });

  it("are laid side by side: five of six intervals hold, and means and scatter are those of the lines", async () => {
    await run.answer("handedIn", LINES);
    expect(new Set(outcomes(run))).toEqual(new Set(["done"]));
    // −1.5 of ± 0.98 misses; all others are within
    expect(numberIn(run, "holding")).toBe(5);
    const [first] = run.names().summaries as { mean: number; spread: number; stated: number }[];
    agrees(first!.mean, (0.5 - 1.5) / 2, 1e-9, ROUNDING);
    agrees(first!.spread, Math.SQRT2, 1e-9, ROUNDING);
    agrees(first!.stated, 0.5, 1e-9, ROUNDING);
    expect(QUESTIONS).toHaveLength(3);
  });
});

it("the page on writing a notebook runs, and its example cells are right", async () => {
  const page = await runNotebook(writing);
  expect(new Set(outcomes(page))).toEqual(new Set(["done"]));
  agrees(numberIn(page, "sine"), 0.5, 1e-12, ROUNDING);
});
