/**
 * The lesson of heel and leeway, run in Node.
 *
 * SOURCE: leeway of R. Garrett and P. van Oossanen, second-hand, as in datasets/published/leeway.json.
 * INPUTS: the page's own; the rest by trigonometry in degrees and knots. MARGIN: rounding, but where a reason is given.
 */
import { beforeAll, describe, expect, it } from "vitest";
import data from "../../datasets/published/leeway.json" with { type: "json" };
import lesson from "../../packages/notebooks/notebooks/heel-and-leeway.md";
import { heelDrawing } from "../../packages/notebooks/notebooks/heelDrawing.ts";
import { type HeadlessRun, runNotebook } from "../../packages/notebooks/src/run/runNotebook.ts";
import { numberIn, outcomes } from "../support/notebook.ts";
import { agrees, published } from "../support/published.ts";

const ROUNDING = "rounding of some operations";
const rad = (angle: number): number => (angle * Math.PI) / 180;
const deg = (angle: number): number => (angle * 180) / Math.PI;

let run: HeadlessRun;
beforeAll(async () => {
  run = await runNotebook(lesson);
});

it("all cells run, and with them every claim of the text", () => {
  expect(new Set(outcomes(run))).toEqual(new Set(["done"]));
});

published("K of a yacht at 7.58 kn, 13.5° and 2.33°", data.vanOossanen.source, () => {
  const { speed, heel, leeway } = data.vanOossanen;
  agrees(numberIn(run, "vanOossanen"), (leeway * speed ** 2) / heel, 1e-9, ROUNDING);
  agrees(numberIn(run, "vanOossanen"), 9.92, 0.005, "two decimals");
});

published("K of 464 sin(heel)/speed², at a degree of heel", data.garrett.source, () => {
  agrees(numberIn(run, "garrett"), data.garrett.factor * Math.sin(rad(1)), 1e-12, ROUNDING);
});

published("leeway at K of 8", data.oceanNavigator.source, async () => {
  const eight = await runNotebook(lesson, { coefficient: 8, sailedHeel: 20, sailedSpeed: 6 });
  agrees(numberIn(eight, "leeway"), (8 * 20) / 36, 1e-9, ROUNDING);
});

describe("the numbers of the page", () => {
  it("20 kn from 30° at 25° of heel, seen in the mast's plane", () => {
    const [ahead, across] = [20 * Math.cos(rad(30)), 20 * Math.sin(rad(30)) * Math.cos(rad(25))];
    agrees(numberIn(run, "seenAngle"), deg(Math.atan2(across, ahead)), 1e-9, ROUNDING);
    agrees(numberIn(run, "seenSpeed"), Math.hypot(ahead, across), 1e-9, ROUNDING);
  });

  it("the jump at a tack when heel is left out: the wind's side part times the cosine", () => {
    const [ahead, across] = [14 * Math.cos(rad(42)), 14 * Math.sin(rad(42))];
    const taken = deg(Math.atan2(across * Math.cos(rad(25)), ahead));
    agrees(numberIn(run, "jumpLeft"), 2 * (42 - taken), 1e-9, ROUNDING);
  });

  it("half the difference of the courses in a stream from ahead, by components", () => {
    // 6 kn along the bow and 6 tan 5° to leeward; the stream runs south at 0.5 kn: back along the bow by cos 42°, to leeward by sin 42°
    const ahead = 6 - 0.5 * Math.cos(rad(42));
    const aside = 6 * Math.tan(rad((9 * 20) / 36)) + 0.5 * Math.sin(rad(42));
    agrees(numberIn(run, "halfDifference"), deg(Math.atan2(aside, ahead)), 1e-9, ROUNDING);
    agrees(numberIn(run, "naiveCoefficient"), (deg(Math.atan2(aside, ahead)) * 36) / 20, 1e-9, ROUNDING);
  });

  it("a zero of 3° shifts leeway by K · 3°/speed² on both tacks, and the levelled angle the same way", () => {
    agrees(numberIn(run, "bothTurned"), (9 * 3) / 36, 1e-9, ROUNDING);
    // 3° more to starboard: on port tack heeled 20° it levels by cos 23°, on starboard by cos 17°
    const levelled = (used: number): number =>
      deg(Math.atan((Math.tan(rad(30)) * Math.cos(rad(20))) / Math.cos(rad(used))));
    agrees(numberIn(run, "angleOnPort"), -(levelled(23) - 30), 1e-9, ROUNDING);
    agrees(numberIn(run, "angleOnStarboard"), levelled(17) - 30, 1e-9, ROUNDING);
    expect(Math.sign(numberIn(run, "angleOnPort"))).toBe(Math.sign(numberIn(run, "angleOnStarboard")));
  });

  it("half the sum is the zero; the wrong sign is refused", async () => {
    agrees(numberIn(run, "foundZero"), 2.25, 1e-12, ROUNDING);
    agrees(numberIn(run, "foundHeel"), 20.25, 1e-12, ROUNDING);
    const turned = await runNotebook(lesson, { heelPort: -20, heelStarboard: 20 });
    expect(turned.names().isHeeled).toBe(false);
  });

  it("the first exercise, by the tangent", () => {
    agrees(numberIn(run, "levelled"), deg(Math.atan(Math.tan(rad(30)) / Math.cos(rad(25)))), 1e-9, ROUNDING);
  });
});

it("draws no number that is none, wherever the sliders stand", async () => {
  for (const heel of [0, 20, 35]) expect(heelDrawing(heel, 0).markup).not.toMatch(/NaN|undefined/);
  for (const given of [
    { heel: 0, feltAngle: 165, feltSpeed: 35, sailedHeel: 0, sailedSpeed: 3, drift: 2, set: 345, zero: -5 },
    { heel: 35, feltAngle: 90, coefficient: 16, sailedHeel: 35, sailedSpeed: 3 },
  ])
    expect(new Set(outcomes(await runNotebook(lesson, given)))).toEqual(new Set(["done"]));
});
