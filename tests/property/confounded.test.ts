/**
 * INPUTS: covariances made by hand from precisions: what data tell of sums of parameters.
 * MARGIN: rounding of a matrix of 19 × 19 inverted in doubles.
 */
import { inverse, Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import {
  PARAMETER_NAMES,
  type ParameterName,
  type SolvedBoatFit,
} from "../../packages/core/src/fit/boatFit.ts";
import { BOAT_PRIORS } from "../../packages/core/src/fit/priors.ts";
import { settingsOf } from "../../packages/core/src/fit/settingsVector.ts";
import { confoundedGroups } from "../../packages/core/src/judge/confounded.ts";
import { confoundedSentence } from "../../packages/core/src/report/confoundedWords.ts";
import { radians } from "../../packages/core/src/units.ts";

/** A sum of parameters that data know, with its standard deviation: all in SI and radians. */
interface Known {
  readonly weights: Partial<Readonly<Record<ParameterName, number>>>;
  readonly sd: number;
}

/** The fit of such data with the priors. */
function fitOf(known: readonly Known[]): SolvedBoatFit {
  const size = PARAMETER_NAMES.length;
  const priors = PARAMETER_NAMES.map((name) => BOAT_PRIORS[name]);
  let precision = Matrix.diag(priors.map(({ sd }) => 1 / sd ** 2));
  for (const { weights, sd } of known) {
    const row = Matrix.rowVector(PARAMETER_NAMES.map((name) => (weights[name] ?? 0) / sd));
    precision = Matrix.add(precision, row.transpose().mmul(row));
  }
  const covariance = inverse(precision);
  const parameters = PARAMETER_NAMES.map((name, index) => {
    const { mean, sd: priorSd } = priors[index]!;
    const sd = Math.sqrt(covariance.get(index, index));
    return { name, value: mean, sd, priorMean: mean, priorSd, informed: 1 - (sd / priorSd) ** 2 };
  });
  return {
    status: "solved",
    settings: settingsOf(
      priors.map(({ mean }) => mean),
      1,
    ),
    parameters,
    covariance: Float64Array.from({ length: size ** 2 }, (_, at) =>
      covariance.get(Math.floor(at / size), at % size),
    ),
    wander: {
      slowDirection: 0.0016,
      slowLogSpeed: 0.002,
      fastDirection: 0.07,
      fastLogSpeed: 0.08,
      fastSeconds: 25,
    },
    rows: 100,
    outliers: [],
    notes: [],
  };
}

const namesOf = (fit: SolvedBoatFit) =>
  confoundedGroups(fit).map(({ members }) => members.map(({ name }) => name));

describe("groups of parameters that data can hardly tell apart (M82)", () => {
  const offsetAndUpwash: Known = {
    weights: { "vane.mastheadOffset": 1, "vane.upwash": 0.8 },
    sd: radians(0.2),
  };

  it("are those of which data know a sum and nothing else", () => {
    const [group, ...others] = confoundedGroups(fitOf([offsetAndUpwash]));
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
    const [group] = confoundedGroups(fitOf([offsetAndUpwash]));
    expect(confoundedSentence(group!)).toMatch(
      /^The masthead offset and the upwash could hardly be told apart: alone they are known to ± 3\.\d° and ± 4\.\d°, but the masthead offset plus 0\.8 times the upwash to ± 0\.4°\.$/,
    );
    const [speed] = confoundedGroups(
      fitOf([{ weights: { "speed.intercept": 1, "speed.gain": -3 }, sd: 0.01 }]),
    );
    // 3 m/s a unit of the gain is 0.03 m/s or 0.058 kn a percent
    expect(confoundedSentence(speed!)).toContain(
      "but the boat speed intercept less 0.058 kn for each percent of the boat speed gain to ± 0.04 kn.",
    );
  });

  it("are none where nothing is known, or everything", () => {
    expect(confoundedGroups(fitOf([]))).toEqual([]);
    const each = PARAMETER_NAMES.map((name) => ({ weights: { [name]: 1 }, sd: 0.05 * BOAT_PRIORS[name].sd }));
    expect(confoundedGroups(fitOf(each))).toEqual([]);
  });

  it("end where something else tells one of them", () => {
    const told: Known = { weights: { "vane.upwash": 1 }, sd: radians(0.3) };
    expect(confoundedGroups(fitOf([offsetAndUpwash, told]))).toEqual([]);
  });

  it("may be several, and of more than two, in the order of how little is known", () => {
    const fit = fitOf([
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
    const names = namesOf(fitOf([offsetAndUpwash, chain])).flat();
    expect(names).toContain("vane.upwash");
    expect(new Set(names).size).toBe(names.length);
  });
});
