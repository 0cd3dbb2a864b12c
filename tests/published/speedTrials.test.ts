/**
 * Mean of means (M18) and least squares over runs of a measured distance (M57).
 *
 * SOURCE: as in datasets/published/speedTrials.json, with its place.
 * STATUS: the proof of four runs was read, and the reversed headings; the procedure's weights and speeds second-hand.
 * INPUTS: speeds of runs at equal intervals, in knots.
 * MARGIN: rounding, since the sources' results are exact; of the reversed headings what their own five to nine decimals leave.
 */
import { describe, expect } from "vitest";
import data from "../../datasets/published/speedTrials.json" with { type: "json" };
import { type MeasuredRun, speedOfRuns } from "../../packages/core/src/fit/measuredRuns.ts";
import { binomialWeights, meanOfMeans } from "../../packages/core/src/physics/meanOfMeans.ts";
import { agrees, published } from "../support/published.ts";

const ROUNDING = "rounding of a few operations";
const { meanOfMeans: procedure, fourRuns, reversedHeadings } = data;

/** Four runs of 600 s, 1000 s apart, at those speeds over the ground, m/s. */
const runsAt = (speeds: readonly number[]): readonly MeasuredRun[] =>
  speeds.map((speed, index) => ({
    start: 1000 * index,
    end: 1000 * index + 600,
    distance: 600 * speed,
    way: index % 2 === 0 ? 1 : -1,
  }));

describe("four runs", () => {
  published("weights and mean of means", procedure.source, () => {
    expect(binomialWeights(4).map((weight) => 8 * weight)).toEqual(procedure.weights);
    agrees(meanOfMeans(procedure.speeds), procedure.expect, 1e-12, ROUNDING);
  });

  published("least squares with a parabola is the mean of means", procedure.source, () => {
    const found = speedOfRuns(runsAt(procedure.speeds), { deviation: 0.1, degree: 2 });
    if (found.status === "unsolved") throw new Error(found.reason);
    agrees(found.speed, procedure.expect, 1e-9, "rounding of a solved system of four");
    // the weights' root sum of squares, √20/8, times the deviation of a run
    agrees(found.deviation, (0.1 * Math.sqrt(20)) / 8, 1e-9, "rounding of a solved system of four");
  });

  published("take out any parabola of current", fourRuns.source, () => {
    for (const [a0, a1, a2] of [
      [1.3, 0, 0],
      [1.3, -0.7, 0],
      [1.3, -0.7, 0.2],
      [-2, 3, -0.9],
    ] as const) {
      const speeds = [0, 1, 2, 3].map((t) => 7 + (t % 2 === 0 ? 1 : -1) * (a0 + a1 * t + a2 * t * t));
      agrees(meanOfMeans(speeds), 7, 1e-12, ROUNDING);
    }
  });
});

describe("three segments there and back", () => {
  published("leave of heading less track what does not turn round with her", reversedHeadings.source, () => {
    // the second segment is printed to five decimals, half a unit of the last counting half
    agrees(
      Math.abs(meanOfMeans(reversedHeadings.segments)),
      reversedHeadings.expectSize,
      5e-6 / 2,
      "rounding of the second segment as printed",
    );
  });
});
