/**
 * Statistics of the fit at the level of legs (M172 to M175), the quick part; accuracy.md has the long one.
 * INPUTS: 18 sails of the class with all sensors and tide (seeds from 6,200,000), each wind and course twice, faults drawn 1.25 times as wide as
 * the fit's priors. MARGIN: the numbers of one sail hang together, so that the 250 of these sails are worth some 100. 95 in 100 intervals ought to hold
 * and, as accuracy.md says, 93 or 94 do over all classes: a share of 93 is known to 2.5 here, three of which are allowed, and above 95 two of its 2.2; the rms of
 * 100 errors over the bound is known to 7 %, two of which are allowed beyond what is reached: 1.3, and 1.1 over the bound of what is usual on legs.
 */
import { describe, expect, it } from "vitest";
import { binomialTail, binomialTest } from "../support/binomial.ts";
import { LEG_CLASSES } from "../support/legDraws.ts";
import { scoredSail } from "../support/legSails.ts";
import { scoresOf } from "../support/legScores.ts";
import { agrees, published } from "../support/published.ts";
import { meanOf, rootMeanSquare } from "../support/scoredSails.ts";

describe("the fit's own doubt (M175)", () => {
  it("holds: intervals of what is informed hold the truth, errors are near the bound", () => {
    const of = LEG_CLASSES[1]!;
    const sails = Array.from({ length: 18 }, (_, number) => scoredSail(of, number)).filter(
      (sail) => sail !== undefined,
    );
    expect(sails.length).toBeGreaterThan(16);
    const scores = scoresOf(sails);
    const sum = (key: "held" | "sails"): number => scores.reduce((total, score) => total + score[key], 0);
    const share = sum("held") / sum("sails");
    expect(share).toBeGreaterThan(0.93 - 3 * 0.025);
    expect(share).toBeLessThan(0.95 + 2 * 0.022);
    const over = scores.flatMap(({ overBound }) => (overBound === undefined ? [] : [overBound]));
    expect(rootMeanSquare(over)).toBeLessThan(1.3 * 1.14);
    expect(meanOf(over)).toBeGreaterThan(0.8);
    const overUsual = scores.flatMap(({ overUsual: one }) => (one === undefined ? [] : [one]));
    expect(rootMeanSquare(overUsual)).toBeLessThan(1.1 * 1.14);
  }, 180_000);
});

describe("the exact test of a share (M175)", () => {
  const SCIPY = "scipy 1.17.1, stats.binomtest(k, n, p).pvalue";
  published("probability of 682 of 925 at 3/4, of 930 and 965 of 1,000 at 0.95", SCIPY, () => {
    const because = "printed to as many digits";
    agrees(binomialTest(682, 925, 0.75), 0.3824915595748517, 1e-12, because);
    agrees(binomialTest(930, 1000, 0.95), 0.005670160942551189, 1e-12, because);
    agrees(binomialTest(965, 1000, 0.95), 0.029150364117894338, 1e-12, because);
  });
  published(
    "probability of 30 and more of 400 at 0.05",
    "scipy 1.17.1, stats.binom.sf(29, 400, 0.05)",
    () => {
      agrees(binomialTail(30, 400, 0.05), 0.019033610776192426, 1e-12, "printed to as many digits");
    },
  );
});
