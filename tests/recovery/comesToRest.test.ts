/**
 * SOURCE: simulation, seed 92003: a boat whose tacks differ in heel by just what still counts as sailed alike, so that symmetry
 * (M53) would be asked in every other round of the fit, and left out in the rounds between.
 */
import { describe, expect, it } from "vitest";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { fitOf, seenSail } from "../support/scoredSails.ts";

describe("a boat that was only just sailed alike", () => {
  it("is fitted: what symmetry is asked of is settled before the settings are", () => {
    expect(fitOf(seenSail(drawScenario(92003))).status).toBe("solved");
  }, 60_000);
});
