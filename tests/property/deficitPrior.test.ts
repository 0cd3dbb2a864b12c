/**
 * The tied priors of boat speed (M190).
 * INPUTS: wheels drawn here as the method describes them: 0.4 kn or nothing missing at 5 kn, any share of it falling with speed, a gain of its own.
 * MARGIN: of 200,000 draws a mean is known to 0.0022 of a standard deviation, a correlation to 0.0022; five times that.
 */
import { Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { DEFICIT_PRIOR, doubtOfLine } from "../../packages/core/src/fit/deficitPrior.ts";
import {
  priorCorrelation,
  priorCovariance,
  priorSpread,
  priorWhitening,
} from "../../packages/core/src/fit/priorCovariance.ts";
import { priorSds } from "../../packages/core/src/fit/priors.ts";
import { DEFICIT_LINE } from "../../packages/core/src/sensors/lawErrors.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { metresPerSecond } from "../../packages/core/src/units.ts";
import { agrees } from "../support/published.ts";

const DRAWS = 200_000;
const WITHIN = 0.011;

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

describe("priors of intercept, gain and a deficit that falls", () => {
  const { normal, between, chance } = randomNumbers(190, 0);
  const wheels = Array.from({ length: DRAWS }, () => {
    const missing = chance(0.5) ? metresPerSecond(0.4) : 0;
    const falling = missing * between(0, 1);
    const gain = 0.06 * normal() + DEFICIT_LINE.slope * falling;
    return { intercept: missing - falling + DEFICIT_LINE.atRest * falling, gain, falling };
  });
  const of = (name: "intercept" | "gain" | "falling"): readonly number[] =>
    wheels.map((wheel) => wheel[name]);

  it("are those of wheels as common practice has them", () => {
    for (const name of ["intercept", "gain", "falling"] as const) {
      const { mean: expected, sd } = DEFICIT_PRIOR[name];
      agrees(mean(of(name)), expected, WITHIN * sd, "of so many draws");
      agrees(mean(of(name).map((value) => (value - expected) ** 2)) / sd ** 2, 1, WITHIN, "of so many draws");
    }
    const covariance = (one: "intercept" | "gain", other: "gain" | "falling"): number =>
      mean(
        wheels.map(
          (wheel) => (wheel[one] - DEFICIT_PRIOR[one].mean) * (wheel[other] - DEFICIT_PRIOR[other].mean),
        ),
      ) /
      (DEFICIT_PRIOR[one].sd * DEFICIT_PRIOR[other].sd);
    const correlation = (value: number, one: "intercept" | "gain", other: "gain" | "falling"): number =>
      value / (DEFICIT_PRIOR[one].sd * DEFICIT_PRIOR[other].sd);
    for (const [value, one, other] of [
      [DEFICIT_PRIOR.interceptAndGain, "intercept", "gain"],
      [DEFICIT_PRIOR.interceptAndFalling, "intercept", "falling"],
      [DEFICIT_PRIOR.gainAndFalling, "gain", "falling"],
    ] as const)
      agrees(covariance(one, other), correlation(value, one, other), WITHIN, "of so many draws");
  });

  it("are whitened by the inverse of what spreads them, whichever of them are free", () => {
    const all = [...priorSds().keys()];
    for (const places of [all, all.slice(1), [0, 1], [5, 0, 20, 1]]) {
      const [covariance, spread] = [priorCovariance(places), priorSpread(places)];
      expect(Matrix.sub(spread.mmul(spread.transpose()), covariance).norm()).toBeLessThan(1e-12);
      const white = priorWhitening(places).mmul(spread);
      expect(Matrix.sub(white, Matrix.eye(places.length)).norm()).toBeLessThan(1e-12);
    }
    expect(priorCorrelation("speed.gain", "speed.intercept")).toBe(
      priorCorrelation("speed.intercept", "speed.gain"),
    );
    expect(priorCorrelation("speed.gain", "compass.a")).toBe(0);
  });

  it("leave a straight line some doubt between and beyond where it crosses the curve", () => {
    const [middle, crossing] = [5, 6.83].map((speed) => doubtOfLine(metresPerSecond(speed)));
    expect(crossing).toBeLessThan(middle! / 10);
    expect(doubtOfLine(Number.NaN)).toBeNaN();
  });
});
