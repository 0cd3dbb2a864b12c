/**
 * What bends the simulator's physics away from the fit's: gusts with tails (M177), waves that skew the tacks (M178), a sensor that
 * drifts. What is left out, or 0, changes no bit. INPUTS: half an hour of a simulated sail. MARGIN: as said.
 */
import { describe, expect, it } from "vitest";
import { wrapAngle } from "../../packages/core/src/angles.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import type { Scenario } from "../../packages/core/src/simulate/scenario.ts";
import { scenarioFromFile, scenarioInFile } from "../../packages/core/src/simulate/scenarioFile.ts";
import { type SimulatedSail, simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { wanderOfWind } from "../../packages/core/src/simulate/wanderingWind.ts";
import { degrees, radians } from "../../packages/core/src/units.ts";
import { agrees } from "../support/published.ts";

const plain: Scenario = drawScenario(701, { seconds: 1800, motoring: false, faults: "none" });
const skewed = (skew: number): Scenario => ({ ...plain, sea: { ...plain.sea, skew } });
const gusty = (gustTails: number): Scenario => ({ ...plain, wind: { ...plain.wind, gustTails } });
const drifting: Scenario = {
  ...plain,
  troubles: [{ kind: "drifting", sensor: "compass", angle: radians(4), at: 600, seconds: 1200 }],
};

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

describe("bends of 0", () => {
  it("leave every bit of the log as it was", () => {
    const { logged } = simulatedSail(plain);
    for (const bent of [skewed(0), gusty(0)]) expect(simulatedSail(bent).logged).toEqual(logged);
  });
});

describe("gusts with tails", () => {
  const kurtosis = (values: readonly number[]): number => {
    const middle = mean(values);
    const [second, fourth] = [2, 4].map((power) => mean(values.map((value) => (value - middle) ** power)));
    return fourth! / second! ** 2;
  };
  it("are rarer and stronger, of the same standard deviation", () => {
    const length = 40_000;
    const turbulent = { ...plain.wind, turbulentDirectionSd: plain.wind.directionSd, veer: 0 };
    const [normal, tailed] = [0, 0.2].map((gustTails) => [
      ...wanderOfWind({ ...turbulent, gustTails }, length, randomNumbers(1, 1)).direction,
    ]);
    const spread = (values: readonly number[]): number => Math.sqrt(mean(values.map((value) => value ** 2)));
    agrees(spread(tailed!), spread(normal!), 1e-9, "both are brought to the standard deviation asked for");
    // some 40,000 / (2 · 25) independent values: a normal kurtosis of 3 ± √(24 / 800); of h = 0.2 it is 36 in the limit
    agrees(kurtosis(normal!), 3, 0.7, "four standard errors");
    expect(kurtosis(tailed!)).toBeGreaterThan(4.5);
  });
});

describe("waves that skew the tacks", () => {
  it("slow her and make her slide on starboard tack", () => {
    const onTack = ({ truth }: SimulatedSail, column: "speed" | "leeway", tack: 1 | -1): number =>
      mean(
        [...truth.columns[column]].filter((_, second) => {
          const angle = truth.columns.apparentAngle[second]!;
          return Math.sign(angle) === tack && Math.abs(angle) < radians(45) && second > 120;
        }),
      );
    const [even, odd] = [simulatedSail(skewed(0)), simulatedSail(skewed(0.04))];
    const share = (column: "speed" | "leeway", tack: 1 | -1): number =>
      onTack(odd, column, tack) / onTack(even, column, tack);
    agrees(share("speed", 1) / share("speed", -1), 0.96 / 1.04, 0.02, "gusts that meet her elsewhere");
    // more by 1.2 / 0.8, and as slower boats slide more by nearly the square of 1.04 / 0.96
    agrees(share("leeway", 1) / share("leeway", -1), 1.76, 0.15, "heel that differs with the apparent wind");
  });
});

describe("a compass that drifts", () => {
  it("shows ever more, evenly", () => {
    const [straight, drifted] = [simulatedSail(plain).logged, simulatedSail(drifting).logged];
    const more = (second: number): number =>
      degrees(wrapAngle(drifted.heading[4 * second]! - straight.heading[4 * second]!));
    for (const [second, angle] of [
      [300, 0],
      [600, 0],
      [1200, 2],
      [1790, 3.967],
    ] as const)
      agrees(more(second), angle, 0.1001, "two roundings to a tenth of a degree");
  });
});

it("a scenario file with bends reads back and writes the same", () => {
  const text = JSON.stringify(
    scenarioInFile({
      ...drifting,
      wind: { ...plain.wind, gustTails: 0.2 },
      sea: { ...plain.sea, skew: -0.03 },
    }),
  );
  expect(JSON.stringify(scenarioInFile(scenarioFromFile(text, "s.json")))).toBe(text);
  expect(JSON.parse(text)).toMatchObject({ wind: { gust_tails: 0.2 }, sea: { skew: -0.03 } });
});
