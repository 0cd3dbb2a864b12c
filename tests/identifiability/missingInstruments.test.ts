/**
 * What an instrument would have told is not told without it, and the notes say what stood in (M50, M53, M55).
 * INPUTS: an hour and a quarter of a simulated sail with faults drawn at random; its rows with channels taken away.
 * MARGIN: a setting counts as learnt from half of its prior variance on, as in the report; "invisible" leaves a tenth to the priors
 *   of other settings (a fifth where two are added).
 */
import { beforeAll, describe, expect, it } from "vitest";
import type { SolvedBoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import type { FitContext } from "../../packages/core/src/fit/fitContext.ts";
import { INDEX_OF } from "../../packages/core/src/fit/settingsVector.ts";
import type { LegRow, MomentChannel } from "../../packages/core/src/sailing/legRow.ts";
import { PARAMETER_NAMES, type ParameterName } from "../../packages/core/src/sensors/parameterNames.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { withoutChannels } from "../support/alteredRows.ts";
import { requireSolved, seenSail } from "../support/scoredSails.ts";

let rows: readonly LegRow[];
let whole: SolvedBoatFit;

function fitWithout(missing: readonly MomentChannel[], context: Partial<FitContext> = {}): SolvedBoatFit {
  const seen = rows.map((row) => withoutChannels(row, missing));
  return requireSolved(
    fitBoat(seen, { heelSign: "auto", steeredBy: "sails", leewayLawHolds: true, ...context }),
  );
}

const parameter = (fit: SolvedBoatFit, name: ParameterName) => fit.parameters[INDEX_OF[name]]!;
const informed = (fit: SolvedBoatFit, name: ParameterName): number => parameter(fit, name).informed;
const covariance = (fit: SolvedBoatFit, one: ParameterName, other: ParameterName): number =>
  fit.covariance[INDEX_OF[one] * PARAMETER_NAMES.length + INDEX_OF[other]]!;

beforeAll(() => {
  rows = seenSail(drawScenario(3, { seconds: 4500 })).sailing.rows;
  whole = fitWithout([]);
});

describe("with every instrument", () => {
  it("compass, boat speed and vane are learnt, and no note is needed", () => {
    for (const name of ["compass.a", "speed.gainDifference", "vane.mastheadOffset", "vane.upwash"] as const)
      expect(informed(whole, name), name).toBeGreaterThan(0.5);
    expect(whole.notes).toEqual([]);
  });
});

describe("without GPS", () => {
  let fit: SolvedBoatFit;
  beforeAll(() => {
    fit = fitWithout(["east", "north"]);
  });

  it("the compass's misalignment is invisible: it turns boat and wind together", () => {
    expect(informed(fit, "compass.a")).toBeLessThan(0.1);
  });

  it("boat speed and wind speed scaled together are invisible, whatever their ratio is found to be", () => {
    const together = (of: SolvedBoatFit): number =>
      covariance(of, "speed.gain", "speed.gain") +
      covariance(of, "anemometer.gain", "anemometer.gain") +
      2 * covariance(of, "speed.gain", "anemometer.gain");
    const prior = parameter(fit, "speed.gain").priorSd ** 2 + parameter(fit, "anemometer.gain").priorSd ** 2;
    expect(together(fit) / prior).toBeGreaterThan(0.8);
    expect(together(whole) / prior).toBeLessThan(0.5);
    // knowing their ratio alone halves the variance of each
    expect(informed(fit, "speed.gain")).toBeLessThan(0.5);
    expect(informed(fit, "speed.gain")).toBeLessThan(informed(whole, "speed.gain"));
  });

  it("is said", () => {
    expect(fit.notes).toContainEqual(expect.stringMatching(/^No usable GPS/));
  });
});

describe("without a heel sensor", () => {
  it("heel is modelled, its size learnt and its zero not", () => {
    const fit = fitWithout(["heel"]);
    expect(fit.notes).toContainEqual(expect.stringMatching(/heel was modelled/));
    // less than learnt, but more than nothing: heel shows only through what it does to other readings
    expect(informed(fit, "heelModel.fullHeel")).toBeGreaterThan(0.2);
    expect(informed(fit, "heel.zero")).toBe(0);
    expect(informed(whole, "heelModel.fullHeel")).toBe(0);
    expect(parameter(fit, "leeway.coefficient").sd).toBeGreaterThan(
      parameter(whole, "leeway.coefficient").sd,
    );
  });
});

describe("without a compass", () => {
  it("nothing is said of one, and the course over ground stands in", () => {
    const fit = fitWithout(["heading"]);
    expect(fit.notes).toContainEqual(expect.stringMatching(/^No compass/));
    for (const name of PARAMETER_NAMES.filter((one) => one.startsWith("compass.")))
      expect([name, informed(fit, name), parameter(fit, name).value]).toEqual([name, 0, 0]);
  });
});

describe("steered to the displayed angle", () => {
  it("symmetry proves nothing: it is left out, said, and the masthead offset is less certain", () => {
    const fit = fitWithout([], { steeredBy: "display" });
    expect(fit.notes).toContainEqual(expect.stringMatching(/steered to the displayed angle/));
    expect(parameter(fit, "vane.mastheadOffset").sd).toBeGreaterThan(
      1.3 * parameter(whole, "vane.mastheadOffset").sd,
    );
  });
});

describe("a rig for which leeway does not follow heel", () => {
  it("leeway is left out and said", () => {
    const fit = fitWithout([], { leewayLawHolds: false });
    expect(fit.notes).toContainEqual(expect.stringMatching(/^Leeway was left out/));
    expect(fit.settings.leeway.coefficient).toBe(0);
    expect(informed(fit, "leeway.coefficient")).toBe(0);
  });
});
