/**
 * What the fit is made of keeps its word: settings and vector are each other's inverse (M47), nominal states are means of
 * their class (M48), spread points share mean and covariance (M49), agreements find what was put in (M61).
 * MARGIN: rounding, as said; the agreements' own standard errors where there is noise.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wrapAngle } from "../../packages/core/src/angles.ts";
import type { WanderScales } from "../../packages/core/src/fit/boatFit.ts";
import { impliedStates } from "../../packages/core/src/fit/impliedState.ts";
import { nominalStates } from "../../packages/core/src/fit/nominalState.ts";
import { BOAT_PRIORS } from "../../packages/core/src/fit/priors.ts";
import { settingsOf, vectorOf } from "../../packages/core/src/fit/settingsVector.ts";
import { spreadPoints } from "../../packages/core/src/fit/spreadPoints.ts";
import { agreementsOf } from "../../packages/core/src/judge/agreements.ts";
import { MOMENT_CHANNELS, type MomentChannel } from "../../packages/core/src/sailing/legRow.ts";
import { PARAMETER_NAMES } from "../../packages/core/src/sensors/parameterNames.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { radians } from "../../packages/core/src/units.ts";
import { handmadeRow } from "../support/handmadeRows.ts";

const ALL_THERE = { compass: true, paddle: true, gps: true, heel: true };

const CHANNELS = MOMENT_CHANNELS.length;
const place = (channel: MomentChannel): number => MOMENT_CHANNELS.indexOf(channel);
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("settings and their vector (M47)", () => {
  const vectors = fc
    .tuple(...PARAMETER_NAMES.map(() => between(-4, 4)))
    .map((moves) =>
      PARAMETER_NAMES.map((name, index) => BOAT_PRIORS[name].mean + moves[index]! * BOAT_PRIORS[name].sd),
    );

  it("are each other's inverse", () => {
    fc.assert(
      fc.property(vectors, fc.constantFrom(1 as const, -1 as const), (vector, sign) => {
        const settings = settingsOf(vector, sign);
        expect(settings.heel.sign).toBe(sign);
        vectorOf(settings).forEach((value, index) => {
          expect(Math.abs(value - vector[index]!)).toBeLessThan(1e-14);
        });
      }),
    );
  });

  it("gains differ by tack as the difference says, their mean being the gain's", () => {
    const vector = new Float64Array(PARAMETER_NAMES.length);
    vector[PARAMETER_NAMES.indexOf("speed.gain")] = Math.log(1.05);
    vector[PARAMETER_NAMES.indexOf("speed.gainDifference")] = 0.02;
    const { gainStarboard, gainPort } = settingsOf(vector, 1).speed;
    expect(gainStarboard / gainPort).toBeCloseTo(Math.exp(0.02), 14);
    expect(Math.sqrt(gainStarboard * gainPort)).toBeCloseTo(1.05, 14);
  });
});

describe("nominal states (M48)", () => {
  const beat = (leg: number, at: number, awa: number, aws: number) =>
    handmadeRow({
      leg,
      at,
      mean: { awa: radians(awa), aws, stw: 3, heading: radians(200 + awa), heel: radians(-awa / 2) },
    });

  it("average each class of tack and point of sailing, and leave the others alone", () => {
    const rows = [beat(0, 0, 30, 8), beat(0, 30, 34, 9), beat(1, 100, -31, 8), beat(2, 200, 140, 5)];
    const [one, two, port, run] = nominalStates(rows, ALL_THERE);
    // midway between 30° and 34°, to a tenth of a degree: less than a vane resolves
    for (const state of [one!, two!]) {
      expect(state[place("awa")]).toBeGreaterThan(radians(31.9));
      expect(state[place("awa")]).toBeLessThan(radians(32.1));
      expect(state[place("aws")]).toBeCloseTo(8.5, 2);
      expect(state[place("heel")]).toBeCloseTo(radians(-16), 3);
      expect(state[place("east")]).toBeNaN();
    }
    expect(port![place("awa")]).toBe(radians(-31));
    expect(run![place("aws")]).toBe(5);
  });

  it("know nothing of the row's own leg where there are others, and keep heading and course", () => {
    const sailed = (own: number) =>
      Array.from({ length: 8 }, (_, index) => {
        const leg = Math.floor(index / 2);
        const row = beat(leg, index * 60, index === 2 ? own : 32, index === 2 ? own / 4 : 8);
        return { ...row, mean: { ...row.mean, east: 1 + index / 10, north: -2 } };
      });
    const rows = sailed(38);
    const [quiet, shifted] = [nominalStates(sailed(32), ALL_THERE)[2]!, nominalStates(rows, ALL_THERE)[2]!];
    for (const channel of ["awa", "aws", "stw", "heel"] as const) {
      expect(shifted[place(channel)]).toBeCloseTo(quiet[place(channel)]!, 12);
    }
    expect(shifted[place("heading")]).toBe(rows[2]!.mean.heading);
    const course = Math.atan2(shifted[place("east")]!, shifted[place("north")]!);
    expect(course).toBeCloseTo(Math.atan2(rows[2]!.mean.east, rows[2]!.mean.north), 12);
  });

  it("average wind angles dead astern the short way, each on its own tack", () => {
    const [one, two] = nominalStates([beat(0, 0, 179, 6), beat(0, 30, -177, 6)], ALL_THERE);
    expect(one![place("awa")]).toBeCloseTo(radians(179), 12);
    expect(two![place("awa")]).toBeCloseTo(radians(-177), 12);
    const states = nominalStates([beat(0, 0, 178, 6), beat(0, 30, 176, 6)], ALL_THERE);
    for (const state of states)
      expect(Math.abs(wrapAngle(state[place("awa")]! - radians(177)))).toBeLessThan(0.001);
  });
});

describe("spread points (M49)", () => {
  const factors = fc.array(between(-0.5, 0.5), { minLength: CHANNELS ** 2, maxLength: CHANNELS ** 2 });
  const missing = fc.subarray([...MOMENT_CHANNELS], { maxLength: 3 });
  /** F Fᵀ is a covariance whatever F is; with something of its own for each channel it has a firm factor. */
  const product = (factor: readonly number[]) =>
    Float64Array.from({ length: CHANNELS ** 2 }, (_, index) => {
      const [row, column] = [Math.floor(index / CHANNELS), index % CHANNELS];
      let sum = row === column ? 0.01 : 0;
      for (let k = 0; k < CHANNELS; k++) sum += factor[row * CHANNELS + k]! * factor[column * CHANNELS + k]!;
      return sum;
    });

  it("have the mean and the covariance of the row, in the channels that it has", () => {
    fc.assert(
      fc.property(factors, missing, (factor, absent) => {
        const covariance = product(factor);
        const mean = Object.fromEntries(
          MOMENT_CHANNELS.map((channel, index) => [
            channel,
            absent.includes(channel) ? Number.NaN : index + 1,
          ]),
        );
        for (const channel of absent) {
          for (let other = 0; other < CHANNELS; other++) {
            covariance[place(channel) * CHANNELS + other] = Number.NaN;
            covariance[other * CHANNELS + place(channel)] = Number.NaN;
          }
        }
        const points = spreadPoints(handmadeRow({ leg: 0, at: 0, mean, covariance }));
        expect(points).toHaveLength(2 * (CHANNELS - absent.length));
        const average = (of: (point: Float64Array) => number): number =>
          points.reduce((sum, point) => sum + of(point), 0) / points.length;
        for (let row = 0; row < CHANNELS; row++) {
          const here = mean[MOMENT_CHANNELS[row]!]!;
          if (Number.isNaN(here)) {
            expect(points.every((point) => Number.isNaN(point[row]))).toBe(true);
            continue;
          }
          expect(average((point) => point[row]!)).toBeCloseTo(here, 12);
          for (let column = 0; column < CHANNELS; column++) {
            const there = mean[MOMENT_CHANNELS[column]!]!;
            if (Number.isNaN(there)) continue;
            const found = average((point) => (point[row]! - here) * (point[column]! - there));
            expect(found).toBeCloseTo(covariance[row * CHANNELS + column]!, 12);
          }
        }
      }),
    );
  });

  it("know of channels in lockstep, whose covariance is singular", () => {
    const covariance = new Float64Array(CHANNELS ** 2);
    for (const row of [1, 2])
      for (const column of [1, 2]) covariance[row * CHANNELS + column] = row * column * 0.3;
    const points = spreadPoints(
      handmadeRow({ leg: 0, at: 0, mean: { awa: 0.5, aws: 7, stw: 3 }, covariance }),
    );
    for (const point of points) expect(point[2]! - 3).toBeCloseTo(2 * (point[1]! - 7), 9);
    const variance = points.reduce((sum, point) => sum + (point[1]! - 7) ** 2, 0) / points.length;
    expect(variance).toBeCloseTo(0.3, 12);
  });

  it("lie on the mean where a channel stood still", () => {
    const points = spreadPoints(handmadeRow({ leg: 0, at: 0, mean: { awa: 0.5, aws: 7 } }));
    for (const point of points) expect([point[0], point[1]]).toEqual([0.5, 7]);
  });
});

describe("agreements (M61)", () => {
  /** Beats and runs, three rows a leg; the wind jumps with tack and point of sailing as told, besides noise. */
  function agreementsWith(tackGap: number, pointGap: number, speedGap: number, noise = 0) {
    const { normal } = randomNumbers(5, 0);
    const rows = Array.from({ length: 72 }, (_, index) => {
      const leg = Math.floor(index / 3);
      const [side, isUpwind] = [leg % 2 === 0 ? 1 : -1, leg % 8 < 4];
      const awa = side * radians(isUpwind ? 30 : 140);
      return handmadeRow({ leg, at: index * 30 + leg * 60, mean: { awa, aws: 8 } });
    });
    const states = impliedStates(rows.length);
    rows.forEach(({ tack, mean }, row) => {
      const onTack = tack === "starboard" ? 0.5 : -0.5;
      const onPoint = Math.abs(mean.awa) < 1 ? 0.5 : -0.5;
      const direction = radians(359) + onTack * tackGap + onPoint * pointGap + noise * normal();
      const speed = 7 * Math.exp(onTack * speedGap);
      states.windEast[row] = speed * Math.sin(direction);
      states.windNorth[row] = speed * Math.cos(direction);
      states.apparentAngle[row] = mean.awa;
    });
    return agreementsOf(rows, states);
  }

  it("find the gaps that were put in, through north", () => {
    fc.assert(
      fc.property(between(-0.2, 0.2), between(-0.2, 0.2), between(-0.2, 0.2), (tack, point, speed) => {
        const [direction, upwind, speeds] = agreementsWith(tack, point, speed);
        expect(direction.value).toBeCloseTo(tack, 9);
        expect(upwind.value).toBeCloseTo(point, 9);
        expect(speeds.value).toBeCloseTo(speed, 9);
      }),
      { numRuns: 20 },
    );
  });

  it("know how well they know it, and count what they rest on", () => {
    const [direction, upwind, speed] = agreementsWith(radians(4), 0, 0, radians(3));
    expect(Math.abs(direction.value - radians(4))).toBeLessThan(3 * direction.sd);
    expect(Math.abs(upwind.value)).toBeLessThan(3 * upwind.sd);
    // 72 rows with 3° of their own error alone: 2 · 3° / √72 = 0.7°; shifts and turbulence come on top
    expect(direction.sd).toBeGreaterThan(radians(0.7));
    expect(direction.sd).toBeLessThan(radians(3));
    expect([direction.contrasts, upwind.contrasts, speed.contrasts]).toEqual([23, 5, 23]);
  });

  it("are less certain in a wind that wanders more", () => {
    const rows = Array.from({ length: 30 }, (_, index) => {
      const leg = Math.floor(index / 3);
      return handmadeRow({ leg, at: index * 40, mean: { awa: radians(leg % 2 ? 35 : -35), aws: 8 } });
    });
    const states = { ...impliedStates(30), windNorth: new Float64Array(30).fill(7) };
    const wander = (by: number): WanderScales => ({
      slowDirection: 0.001 * by,
      fastDirection: 0.04 * by,
      slowLogSpeed: 0.001 * by,
      fastLogSpeed: 0.04 * by,
      fastSeconds: 25,
    });
    const [calm] = agreementsOf(rows, states, wander(1));
    const [shifty] = agreementsOf(rows, states, wander(3));
    expect(calm.value).toBeCloseTo(0, 12);
    expect(shifty.sd).toBeGreaterThan(2 * calm.sd);
  });

  it("are NaN where there is no such contrast: one tack, no rows, power alone", () => {
    const oneTack = [0, 1, 2, 3].map((leg) =>
      handmadeRow({ leg, at: leg * 60, mean: { awa: radians(leg % 2 ? 140 : 35), aws: 8 } }),
    );
    const states = { ...impliedStates(4), windNorth: new Float64Array(4).fill(7) };
    for (const { value, sd, contrasts } of [
      agreementsOf(oneTack, states)[0],
      agreementsOf(oneTack, states)[2],
    ]) {
      expect([value, sd, contrasts]).toEqual([Number.NaN, Number.NaN, 0]);
    }
    for (const rows of [[], oneTack.map((row) => ({ ...row, kind: "motoring" as const }))]) {
      for (const { value, sd, contrasts } of agreementsOf(rows, states)) {
        expect([value, sd, contrasts]).toEqual([Number.NaN, Number.NaN, 0]);
      }
    }
  });
});
