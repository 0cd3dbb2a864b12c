import { describe, expect, it } from "vitest";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import { INDEX_OF, vectorOf } from "../../packages/core/src/fit/settingsVector.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { nearestSettings } from "../../packages/core/src/simulate/nearestSettings.ts";
import { BENDS } from "../support/bentSails.ts";
import { requireSolved, rootMeanSquare, seenSail } from "../support/scoredSails.ts";

const BOATS = [7000, 7001, 7007].map((seed) => {
  const scenario = drawScenario(seed, { motoring: false });
  return { scenario, rows: seenSail(scenario).sailing.rows };
});

/** Errors of parameters over the standard deviations that the fit gives them, with the laws left a little free and taken at their word. */
function standardisedErrors(
  { scenario, rows }: (typeof BOATS)[number],
  lawsExact: boolean,
): readonly number[] {
  const context = { heelSign: "auto", steeredBy: "sails", leewayLawHolds: true, lawsExact } as const;
  const { parameters } = requireSolved(fitBoat(rows, context));
  const truth = vectorOf(nearestSettings(scenario.faults));
  return (["speed.gainDifference", "compass.b", "compass.c"] as const).map((name) => {
    const { value, sd } = parameters[INDEX_OF[name]]!;
    return (value - truth[INDEX_OF[name]]!) / sd;
  });
}

/** Errors over standard deviations of what a compass that drifts in the course of the day is mistaken for. */
function errorsOfDrift(lawsExact: boolean): readonly number[] {
  const bend = BENDS.find(({ name }) => name === "a compass that drifts")!;
  return [7001, 54001, 54002].flatMap((seed) => {
    const drawn = drawScenario(seed);
    const { rows } = seenSail(bend.bent(drawn)).sailing;
    const { parameters } = requireSolved(
      fitBoat(rows, { heelSign: "auto", steeredBy: "sails", leewayLawHolds: true, lawsExact }),
    );
    const truth = vectorOf(nearestSettings(drawn.faults));
    return parameters
      .filter(({ name }) => name.startsWith("compass."))
      .map(({ name, value, sd }) => {
        return (value - truth[INDEX_OF[name]]!) / sd;
      });
  });
}

describe("laws that leave something out (M29)", () => {
  it("do not pass for faults of the sensors: without them free, errors are far beyond their intervals", () => {
    const pooled = (lawsExact: boolean): number =>
      rootMeanSquare(BOATS.flatMap((boat) => standardisedErrors(boat, lawsExact)));
    // 9 errors, correlated in a boat; were they 3 independent ones with right intervals, 1.7 would be passed less than
    // once in 20 times, and 2 once in 100 (χ² with 3 degrees of freedom: 7.81 at 5 %, 11.34 at 1 %; scipy 1.17.1)
    expect(pooled(false)).toBeLessThan(1.7);
    expect(pooled(true)).toBeGreaterThan(2);
  }, 180_000);

  it("nor does a compass that turns by 3° in the course of the day", () => {
    // 18 errors: were they 6 independent ones with right intervals, 1.67 would be passed once in 100 times and 1.75 once in 200 (χ²
    // with 6 degrees of freedom 16.81 and 18.55; scipy 1.17.1)
    expect(rootMeanSquare(errorsOfDrift(false))).toBeLessThan(1.67);
    expect(rootMeanSquare(errorsOfDrift(true))).toBeGreaterThan(1.75);
  }, 180_000);
});
