/**
 * Stand-alone fits of the other sensors (M127 to M133): recovery and coverage.
 * INPUTS: drawn here from known truths.
 * MARGIN: as each says; a coverage of 95 % counted over 300 trials has a standard deviation of 1.3 %.
 */
import { describe, expect, it } from "vitest";
import { anemometerAgainstReference } from "../../packages/core/src/fit/anemometerAgainstReference.ts";
import { anemometerInCalm } from "../../packages/core/src/fit/anemometerInCalm.ts";
import { attitudeZero } from "../../packages/core/src/fit/attitudeZero.ts";
import { correlatedMean } from "../../packages/core/src/fit/correlatedMean.ts";
import { linearCalibration } from "../../packages/core/src/fit/linearCalibration.ts";
import { positionAtBerth } from "../../packages/core/src/fit/positionAtBerth.ts";
import { channelFromReading, channelReadingOf } from "../../packages/core/src/sensors/linearChannel.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { radians } from "../../packages/core/src/units.ts";
import { agrees } from "../support/published.ts";

const { between, normal } = randomNumbers(127, 0);
const TRIALS = 300;

/** A standard deviation about one that was stated, spread as if known from four readings. */
const aboutAsStated = (stated: number): number =>
  stated * Math.sqrt(4 / [0, 0, 0, 0].reduce((sum) => sum + normal() ** 2, 0));

function held(holds: () => boolean, from = 0.92, to = 0.98): void {
  const share = Array.from({ length: TRIALS }, holds).filter(Boolean).length / TRIALS;
  expect(share).toBeGreaterThanOrEqual(from);
  expect(share).toBeLessThanOrEqual(to);
}

/** A series that forgets with a time constant, of standard deviation 1. */
function wandering(count: number, constant: number): Float64Array {
  const keep = Math.exp(-1 / constant);
  let value = normal();
  return Float64Array.from({ length: count }, () => {
    value = keep * value + Math.sqrt(1 - keep * keep) * normal();
    return value;
  });
}

describe("a linear channel", () => {
  it("holds its offset and gain 93 to 97 in 100 with four points", () => {
    held(() => {
      const [offset, gain, scatter] = [normal(), 1 + 0.1 * normal(), aboutAsStated(0.2)];
      const points = [5, 10, 15, 25].map((reading) => ({
        reading,
        truth: channelFromReading(reading, { offset, gain }) + scatter * normal(),
      }));
      const found = linearCalibration(points, { deviation: 0.2 });
      if (found.status === "unsolved") throw new Error(found.reason);
      return Math.abs(found.offset - offset) < found.offsetHalf;
    });
  });

  it("goes there and back, and refuses one reading", () => {
    const channel = { offset: -3.2, gain: 0.97 };
    agrees(channelReadingOf(channelFromReading(11, channel), channel), 11, 1e-12, "rounding");
    const twice = [
      { reading: 12, truth: 12.4 },
      { reading: 12, truth: 12.6 },
    ];
    expect(linearCalibration(twice, { deviation: 0.1 })).toEqual({
      status: "unsolved",
      reason: "one reading",
    });
    expect(linearCalibration([], { deviation: 0.1 })).toEqual({ status: "unsolved", reason: "no point" });
    const found = linearCalibration(twice, { deviation: 0.1, gain: { mean: 1, sd: 0.01 } });
    if (found.status === "unsolved") throw new Error(found.reason);
    agrees(found.middle.truth, 12.5, 1e-9, "the mean of both");
    agrees(found.gain, 1, 1e-9, "nothing told of it");
  });
});

describe("a mean of what hangs together", () => {
  it("has the standard deviation that it says, over 40 correlation times and more", () => {
    held(() => {
      const { mean, deviation, isLong } = correlatedMean(wandering(1200, 10), 1);
      expect(isLong).toBe(true);
      return Math.abs(mean) < 1.96 * deviation;
    }, 0.9);
  });

  it("says that a short stay does not show its correlation", () => {
    expect(correlatedMean(wandering(60, 40), 1).isLong).toBe(false);
    expect(correlatedMean([1, Number.NaN], 1).mean).toBeNaN();
  });
});

describe("at the dock", () => {
  it("finds the position's offset, no better than satellites allow", () => {
    const place = { latitude: radians(54), longitude: radians(10) };
    const positions = Array.from({ length: 600 }, () => ({
      latitude: place.latitude + (3 + normal()) / 6_371_000,
      longitude: place.longitude - (4 + normal()) / (6_371_000 * Math.cos(place.latitude)),
    }));
    const found = positionAtBerth(positions, 1, place, 1);
    agrees(found.north, 3, 0.2, "4 standard errors of 600 positions of 1 m");
    agrees(found.east, -4, 0.2, "likewise");
    agrees(found.distance, 5, 0.3, "both");
    expect(found.half).toBeGreaterThan(1.96 * Math.hypot(1.5, 1) - 1e-9);
  });

  it("finds the zero of a boat that lies still, and refuses one that does not", () => {
    const still = Float64Array.from(wandering(300, 5), (value) => radians(2 + 0.4 * value));
    const found = attitudeZero(still, 1, radians(0.3));
    if (found.status === "unsolved") throw new Error(found.reason);
    agrees(found.zero, radians(2), found.half, "its own interval");
    const rolling = still.map((value) => 12 * value);
    expect(attitudeZero(rolling, 1, radians(0.3))).toEqual({ status: "unsolved", reason: "not at rest" });
    expect(attitudeZero(still.slice(0, 20), 1, radians(0.3))).toEqual({
      status: "unsolved",
      reason: "too short",
    });
  });
});

/** Ten-minute means of two sources of one wind, from light to fresh. */
function twoSources(threshold: number, gain: number, from: number, to: number) {
  const slow = wandering(64, 12);
  const [one, other] = [wandering(64, 1), wandering(64, 1)];
  return Array.from(slow, (value, at) => {
    const wind = (from + to) / 2 + ((to - from) / 2) * (0.8 * Math.sin(at / 9) + 0.07 * value);
    const reading = (wind + 0.25 * one[at]! - threshold) / gain;
    return { reading: Math.max(0.05, reading), reference: Math.max(0, wind + 0.25 * gain * other[at]!) };
  });
}

describe("anemometer against a second source", () => {
  const options = { errorRatio: 1, referenceGain: 0 };
  it("holds threshold and gain 93 to 97 in 100, with errors in both", () => {
    const share = { gain: 0, threshold: 0 };
    for (let trial = 0; trial < TRIALS; trial++) {
      const [threshold, gain] = [0.4 + 0.2 * normal(), 1 + 0.06 * normal()];
      const found = anemometerAgainstReference(twoSources(threshold, gain, 2, 12), options);
      if (found.status === "unsolved") throw new Error(found.reason);
      if (Math.abs(found.gain - gain) < found.gainHalf) share.gain++;
      if (Math.abs(found.threshold - threshold) < found.thresholdHalf) share.threshold++;
    }
    for (const count of Object.values(share)) {
      expect(count / TRIALS).toBeGreaterThanOrEqual(0.92);
      expect(count / TRIALS).toBeLessThanOrEqual(0.98);
    }
  });

  it("refuses without a reference, without a range of speeds, for two different winds", () => {
    expect(anemometerAgainstReference([], options)).toMatchObject({ reason: "no reference" });
    const steady = twoSources(0.4, 1, 7.8, 8.2);
    expect(anemometerAgainstReference(steady, options)).toMatchObject({ reason: "no range of speeds" });
    const one = twoSources(0.4, 1, 2, 12);
    const mixed = one.map(({ reading }, at) => ({ reading, reference: one[(at + 20) % 64]!.reference }));
    expect(anemometerAgainstReference(mixed, options)).toMatchObject({ reason: "not one wind" });
    expect(anemometerAgainstReference(one.slice(0, 9), options)).toMatchObject({
      reason: "too few intervals",
    });
  });
});

describe("anemometer in a calm", () => {
  const options = { deviation: 0.1, speedGain: 0 };
  const runs = (threshold: number, gain: number, wind: number, error: () => number) =>
    [2, 2, 3, 3, 3.6, 3.6].map((speed, at) => {
      const way = at % 2 === 0 ? (1 as const) : (-1 as const);
      return { speed, way, reading: (speed + way * wind - threshold + error()) / gain };
    });
  it("holds its gain 93 to 97 in 100, whatever little wind there is", () => {
    held(() => {
      const [threshold, gain] = [0.4 + 0.2 * normal(), 1 + 0.06 * normal()];
      const [wind, scatter] = [between(-0.6, 0.6), aboutAsStated(0.1)];
      const found = anemometerInCalm(
        runs(threshold, gain, wind, () => scatter * normal()),
        options,
      );
      return found.status === "solved" && Math.abs(found.gain - gain) < found.gainHalf;
    });
  });
  it("refuses one way, cups that stand still, and what is no calm", () => {
    const calm = runs(0.4, 1, 0.2, () => 0);
    const there = calm.filter(({ way }) => way === 1);
    expect(anemometerInCalm(there, options)).toMatchObject({ reason: "one way" });
    const standing = calm.map((run) => ({ ...run, reading: 0 }));
    expect(anemometerInCalm(standing, options)).toMatchObject({ reason: "no runs" });
    expect(
      anemometerInCalm(
        runs(0.4, 1, 1.2, () => 0),
        options,
      ),
    ).toMatchObject({ reason: "no calm" });
  });
});
