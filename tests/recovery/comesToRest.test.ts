/**
 * SOURCE: simulation, seed 92003: a boat whose tacks differ in heel by just what still counts as sailed alike, so that symmetry
 * (M53) would be asked in every other round of the fit, and left out in the rounds between. Seed 51023: two days in winds so unlike that
 * what is usual over both (M48) says the opposite of what is usual on each. Seed 7208: light air that comes and goes, so that boat speeds
 * differ more between legs of a kind than between kinds, and what is usual on the other legs says too little (M55).
 */
import { describe, expect, it } from "vitest";
import { INDEX_OF, vectorOf } from "../../packages/core/src/fit/settingsVector.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { nearestSettings } from "../../packages/core/src/simulate/nearestSettings.ts";
import { fitOf, fitOfDays, requireSolved, seenSail } from "../support/scoredSails.ts";

describe("a boat that was only just sailed alike", () => {
  it("is fitted: what symmetry is asked of is settled before the settings are", () => {
    expect(fitOf(seenSail(drawScenario(92003))).status).toBe("solved");
  }, 60_000);
});

describe("a boat sailed in two winds that are far apart", () => {
  it("is fitted: what is usual is so in the day's wind", () => {
    expect(fitOfDays(51023, { days: ["tuning", "racing"] }).status).toBe("solved");
  }, 120_000);
});

describe("a boat sailed in light air that comes and goes", () => {
  it("is fitted, and to a log that might be met: its gain within three standard deviations of the true one", () => {
    const scenario = drawScenario(7208);
    const { parameters } = requireSolved(fitOf(seenSail(scenario)));
    const { value, sd } = parameters[INDEX_OF["speed.gain"]]!;
    expect(
      Math.abs(value - vectorOf(nearestSettings(scenario.faults))[INDEX_OF["speed.gain"]]!),
    ).toBeLessThan(3 * sd);
  }, 120_000);
});
