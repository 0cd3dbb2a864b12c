/**
 * INPUTS: covariances made by hand from precisions: what data tell of sums of parameters.
 * MARGIN: rounding of a matrix of 19 × 19 inverted in doubles.
 */
import { describe, expect, it } from "vitest";
import { PARAMETER_NAMES, type SolvedBoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { BOAT_PRIORS } from "../../packages/core/src/fit/priors.ts";
import { confoundedGroups } from "../../packages/core/src/judge/confounded.ts";
import { confoundedSentence } from "../../packages/core/src/report/confoundedWords.ts";
import { radians } from "../../packages/core/src/units.ts";
import { fitKnowing, type Known } from "../support/knownSums.ts";

const namesOf = (fit: SolvedBoatFit) =>
  confoundedGroups(fit).map(({ members }) => members.map(({ name }) => name));

describe("groups of parameters that data can hardly tell apart (M82)", () => {
  const offsetAndUpwash: Known = {
    weights: { "vane.mastheadOffset": 1, "vane.upwash": 0.8 },
    sd: radians(0.2),
  };

  it("are those of which data know a sum and nothing else", () => {
    const [group, ...others] = confoundedGroups(fitKnowing([offsetAndUpwash]));
    expect(others).toEqual([]);
    expect(group!.members.map(({ name }) => name)).toEqual(["vane.mastheadOffset", "vane.upwash"]);
    // the axis is that of the covariance in prior scales: the sum itself but for the prior's part, (0.2/3)² of it
    expect(group!.members[1]!.weight).toBeGreaterThan(0.79);
    expect(group!.members[1]!.weight).toBeLessThan(0.81);
    expect(group!.sdOfSum).toBeGreaterThan(radians(0.19));
    expect(group!.sdOfSum).toBeLessThan(radians(0.21));
    for (const { sd, sdIfOthersKnown } of group!.members) expect(sdIfOthersKnown).toBeLessThan(0.2 * sd);
  });

  it("are said in words, with the sum and how well it is known", () => {
    const [group] = confoundedGroups(fitKnowing([offsetAndUpwash]));
    expect(confoundedSentence(group!)).toMatch(
      /^The masthead offset and the upwash could hardly be told apart: alone they are known to ± 3\.\d° and ± 4\.\d°, but the masthead offset plus 0\.8 times the upwash to ± 0\.4°\.$/,
    );
    const [speed] = confoundedGroups(
      fitKnowing([{ weights: { "speed.intercept": 1, "speed.gain": -3 }, sd: 0.01 }]),
    );
    // 3 m/s a unit of the gain is 0.03 m/s or 0.058 kn a percent
    expect(confoundedSentence(speed!)).toContain(
      "but the boat speed intercept less 0.058 kn for each percent of the boat speed gain to ± 0.04 kn.",
    );
  });

  it("are none where nothing is known, or everything", () => {
    expect(confoundedGroups(fitKnowing([]))).toEqual([]);
    const each = PARAMETER_NAMES.map((name) => ({ weights: { [name]: 1 }, sd: 0.05 * BOAT_PRIORS[name].sd }));
    expect(confoundedGroups(fitKnowing(each))).toEqual([]);
  });

  it("end where something else tells one of them", () => {
    const told: Known = { weights: { "vane.upwash": 1 }, sd: radians(0.3) };
    expect(confoundedGroups(fitKnowing([offsetAndUpwash, told]))).toEqual([]);
  });

  it("may be several, and of more than two, in the order of how little is known", () => {
    const fit = fitKnowing([
      offsetAndUpwash,
      {
        weights: {
          "compass.e": 1 / radians(0.6),
          "compass.heelingError": 1 / 0.045,
          "leeway.coefficient": 1 / BOAT_PRIORS["leeway.coefficient"].sd,
        },
        sd: 0.1,
      },
      { weights: { "compass.e": 1 / radians(0.6), "compass.heelingError": -1 / 0.045 }, sd: 0.1 },
    ]);
    expect(namesOf(fit)).toContainEqual(["vane.mastheadOffset", "vane.upwash"]);
    expect(namesOf(fit)).toContainEqual(["compass.e", "compass.heelingError", "leeway.coefficient"]);
    expect(namesOf(fit)).toHaveLength(2);
  });

  it("leave no parameter in two groups, though two sums share it", () => {
    const chain: Known = { weights: { "vane.upwash": 1, "vane.upwashBroad": 4 }, sd: radians(0.2) };
    const names = namesOf(fitKnowing([offsetAndUpwash, chain])).flat();
    expect(names).toContain("vane.upwash");
    expect(new Set(names).size).toBe(names.length);
  });
});
