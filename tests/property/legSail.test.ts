/**
 * Sails made directly as rows (M172, M173).
 * INPUTS: laws drawn over some widths of their priors; a drawn scenario.
 * MARGIN: substitution ends at 1e-13, so states come back to 1e-11; a row's wind wanders with the variance that M44 gives it, which a sample of
 * n rows shows to √(2/n) of it, four of these being allowed.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wrapAngle } from "../../packages/core/src/angles.ts";
import { averagedStep } from "../../packages/core/src/fit/averagedWander.ts";
import { unknownBoatReadings } from "../../packages/core/src/sensors/boatReadings.ts";
import { boatStateOf, underSail, unknownBoatState } from "../../packages/core/src/sensors/boatState.ts";
import { exactLaws } from "../../packages/core/src/sensors/lawErrors.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import { drawLegScenario } from "../../packages/core/src/simulate/drawLegScenario.ts";
import { lawfulReadings } from "../../packages/core/src/simulate/lawfulReadings.ts";
import { legSail } from "../../packages/core/src/simulate/legSail.ts";
import { legWeather } from "../../packages/core/src/simulate/legWeather.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { radians } from "../../packages/core/src/units.ts";
import { between, heading, settings } from "../support/boats.ts";

const laws = fc.record({
  sidesMeet: between(0, 1),
  deficitFalling: between(-0.2, 0.3),
  leewayPower: between(-0.4, 0.4),
  leewaySkew: between(-0.2, 0.2),
  windage: between(-0.01, 0.02),
  thirdSine: between(-0.01, 0.01),
  thirdCosine: between(-0.01, 0.01),
  compassDrift: between(-1e-5, 1e-5),
});

const ways = fc.record({
  heading,
  speedAhead: between(2, 5),
  heel: between(-0.5, 0.5),
  windEast: between(4, 9),
  windNorth: between(4, 9),
  currentEast: between(-1, 1),
  currentNorth: between(-1, 1),
});

describe("readings by the fit's own laws (M172)", () => {
  it("bring the state back, under sail and under power, with heel shown and modelled", () => {
    fc.assert(
      fc.property(ways, settings, laws, fc.boolean(), fc.boolean(), (way, set, law, sailsUp, shown) => {
        const heelIs = shown ? "reading" : "modelled";
        const circumstances = { ...underSail, sailsUp, heelIs, sinceMiddle: 3600 } as const;
        const readings = lawfulReadings(way, circumstances, set, law, unknownBoatReadings());
        fc.pre(readings.stw > 0 && readings.aws > 0 && !Number.isNaN(readings.awa));
        const state = boatStateOf(readings, circumstances, set, unknownBoatState(), law);
        expect(Math.abs(wrapAngle(state.heading - way.heading))).toBeLessThan(1e-11);
        expect(Math.abs(state.speedAhead - way.speedAhead)).toBeLessThan(1e-11);
        expect(Math.abs(state.overWaterEast - way.windEast)).toBeLessThan(1e-9);
        expect(Math.abs(state.overWaterNorth - way.windNorth)).toBeLessThan(1e-9);
        expect(Math.abs(state.currentEast - way.currentEast)).toBeLessThan(1e-9);
        if (shown) expect(Math.abs(state.heel - way.heel)).toBeLessThan(1e-11);
      }),
    );
  });
});

const drawn = (without: readonly ("heel" | "gps" | "paddle")[] = []) =>
  drawLegScenario(12, {
    settings: noCorrections,
    laws: exactLaws,
    strength: "fresh",
    course: "triangle",
    tide: true,
    without,
    seconds: 3600,
    motoring: true,
  });

describe("sails at the level of legs (M172)", () => {
  it("are the same to the last bit from the same scenario, rise in time and hold both tacks", () => {
    const { rows } = legSail(drawn());
    expect(legSail(drawn()).rows).toEqual(rows);
    rows.slice(1).forEach(({ start }, before) => {
      expect(start).toBeGreaterThanOrEqual(rows[before]!.start + rows[before]!.duration);
    });
    expect(new Set(rows.map(({ tack }) => tack)).size).toBe(2);
    expect(new Set(rows.map(({ kind }) => kind)).size).toBe(2);
  });
  it("lack the channels that are missing, and no others", () => {
    const { mean } = legSail(drawn(["heel", "paddle"])).rows[0]!;
    expect([mean.heel, mean.stw].every(Number.isNaN)).toBe(true);
    expect([mean.awa, mean.aws, mean.heading, mean.east, mean.north].every(Number.isFinite)).toBe(true);
    expect(legSail(drawn(["gps"])).rows[0]!.mean.east).toBeNaN();
  });
  it("have a wind that wanders from row to row as the fit takes it to", () => {
    const [slow, fast, turbulenceSeconds] = [radians(0.1), radians(4), 25];
    const scenario = drawn();
    const weather = legWeather(
      {
        ...scenario,
        wind: { ...scenario.wind, direction: 1, directionWander: { slow, fast }, turbulenceSeconds },
        current: { east: 0, north: 0, wander: { slow: 0, fast: 0 } },
      },
      3,
      randomNumbers(5, 0),
    );
    const rows = 4000;
    const means = Array.from({ length: rows }, () => {
      let sum = 0;
      for (let moment = 0; moment < 10; moment++) {
        const { windEast, windNorth } = weather();
        sum += wrapAngle(Math.atan2(windEast, windNorth) - 1) / 10;
      }
      return sum;
    });
    const steps = means.slice(1).map((value, before) => value - means[before]!);
    const step = { onMean: 0, onEnd: 0, meanVariance: 0, endVariance: 0, covariance: 0 };
    averagedStep(30, turbulenceSeconds, step);
    const variance = step.meanVariance + step.onMean ** 2;
    const neighbours = step.onMean ** 2;
    const expected = (slow ** 2 * 30 * 2) / 3 + 2 * fast ** 2 * (variance - neighbours);
    const found = steps.reduce((sum, value) => sum + value ** 2, 0) / steps.length;
    expect(Math.abs(found / expected - 1)).toBeLessThan(4 * Math.sqrt(2 / rows));
  });
});
