/**
 * Circular statistics (M5 to M8).
 *
 * SOURCE: K. V. Mardia, P. E. Jupp, 2000: Directional Statistics; J. H. Zar, 2010: Biostatistical Analysis;
 *   S. R. Jammalamadaka, A. SenGupta, 2001: Topics in Circular Statistics; scipy 1.17.1. Places and angles in
 *   datasets/published/circular.json.
 * STATUS: the books second-hand, through tests of other packages; scipy read.
 * MARGIN: half a unit of the last digit printed.
 */
import { describe } from "vitest";
import data from "../../datasets/published/circular.json" with { type: "json" };
import { wrapAngle } from "../../packages/core/src/angles.ts";
import {
  angularDeviation,
  circularRange,
  circularStandardDeviation,
  circularVariance,
  meanDirection,
  medianDirection,
  resultantLength,
} from "../../packages/core/src/circular.ts";
import { degrees, radians } from "../../packages/core/src/units.ts";
import { agrees, published } from "../support/published.ts";

const HALF_A_DEGREE = [0.5, "printed to a degree"] as const;
const inRadians = (angles: readonly number[]): number[] => angles.map(radians);

describe("nine directions", () => {
  const { angles, expect, source, status } = data.mardiaJupp;
  const sample = inRadians(angles);
  const cite = `${source}; ${status}`;
  published("mean direction", cite, () =>
    agrees(degrees(meanDirection(sample)), expect.mean, ...HALF_A_DEGREE),
  );
  published("resultant length", cite, () =>
    agrees(resultantLength(sample), expect.rbar, 5e-4, "three decimals printed"),
  );
  published("median", cite, () =>
    agrees(degrees(medianDirection(sample)), expect.median, 1e-12, "one of the angles"),
  );
  published("range", cite, () =>
    agrees(degrees(circularRange(sample)), expect.range, 1e-12, "a difference of two of the angles"),
  );
});

describe("eight directions", () => {
  const { angles, expect, source, status } = data.zar;
  const sample = inRadians(angles);
  const cite = `${source}; ${status}`;
  published("mean direction", cite, () =>
    agrees(degrees(meanDirection(sample)), expect.mean, ...HALF_A_DEGREE),
  );
  published("resultant length", cite, () =>
    agrees(resultantLength(sample), expect.r, 5e-6, "five decimals printed"),
  );
  published("angular deviation", cite, () =>
    agrees(degrees(angularDeviation(resultantLength(sample))), expect.angularDeviation_s, ...HALF_A_DEGREE),
  );
  published("circular standard deviation", cite, () =>
    agrees(
      degrees(circularStandardDeviation(resultantLength(sample))),
      expect.circularSd_s0,
      ...HALF_A_DEGREE,
    ),
  );
  published("median of an even number", cite, () =>
    agrees(degrees(medianDirection(sample)), expect.median, 1e-12, "the middle of two of the angles"),
  );
  published("median of an odd number", cite, () =>
    agrees(
      degrees(medianDirection(sample.slice(1))),
      expect.median_without_first,
      1e-12,
      "one of the angles",
    ),
  );
});

describe("directions counted in classes of 30°", () => {
  const { centres, weights, expect, source, status } = data.zarGrouped;
  const sample = inRadians(centres);
  const length = resultantLength(sample, weights);
  const cite = `${source}; ${status}`;
  published("weighted mean direction", cite, () =>
    agrees(degrees(meanDirection(sample, weights)), expect.mean, ...HALF_A_DEGREE),
  );
  published("weighted resultant length", cite, () => agrees(length, expect.r, 5e-6, "five decimals printed"));
  published("angular deviation", cite, () =>
    agrees(degrees(angularDeviation(length)), expect.s, ...HALF_A_DEGREE),
  );
  published("circular standard deviation", cite, () =>
    agrees(degrees(circularStandardDeviation(length)), expect.s0, ...HALF_A_DEGREE),
  );
});

describe("six directions", () => {
  const { angles, expect, source, status } = data.jammalamadakaSenGupta;
  const sample = inRadians(angles);
  const cite = `${source}; ${status}`;
  published("mean direction", cite, () =>
    agrees(meanDirection(sample), expect.meanRad, 5e-8, "seven decimals printed"),
  );
  published("variance", cite, () =>
    agrees(circularVariance(resultantLength(sample)), expect.variance, 5e-8, "seven decimals printed"),
  );
  for (const [order, moment] of Object.entries(expect.moments)) {
    const multiples = sample.map((angle) => angle * Number(order));
    published(
      `trigonometric moment ${order}: mean direction and resultant length of the multiples`,
      cite,
      () => {
        agrees(wrapAngle(meanDirection(multiples)), moment[0]!, 5e-7, "six decimals printed");
        const because =
          "the tolerance of the tests it was read in: one printed length seems to have lost a digit";
        agrees(resultantLength(multiples), moment[1]!, 1e-4, because);
      },
    );
  }
});

describe("six directions about north", () => {
  const { angles, expect, source } = data.scipyTests;
  const sample = inRadians(angles);
  const length = resultantLength(sample);
  published("mean direction", source, () =>
    agrees(degrees(meanDirection(sample)), expect.meanDeg, 5e-10, "nine decimals printed"),
  );
  published("variance", source, () =>
    agrees(
      circularVariance(length),
      expect.variance,
      1e-15,
      "printed to the last bits; 1 − R loses those of R",
    ),
  );
  published("standard deviation", source, () =>
    agrees(degrees(circularStandardDeviation(length)), expect.sd, 5e-10, "nine decimals printed"),
  );
});

describe("three directions about north", () => {
  const { angles, expect, source } = data.scipyDocumentation;
  published("mean direction", source, () =>
    agrees(
      degrees(meanDirection(inRadians(angles))),
      expect.meanDeg,
      1e-13,
      "printed to the last bits of a double",
    ),
  );
});
