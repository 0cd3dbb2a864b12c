// INPUTS: readings of invented sensors with a known bias, lag and noise; MARGIN: what the definitions allow, beside each number.
import { describe, expect, it } from "vitest";
import { chooseSources } from "../../packages/core/src/recording/chooseSources.ts";
import { RecordingInventory } from "../../packages/core/src/recording/inventory.ts";
import { inventoryRows, secondsCovered } from "../../packages/core/src/recording/inventoryPart.ts";
import type { QuantityName, Readings, Source } from "../../packages/core/src/recording/readings.ts";
import { SourcePairs, sourcePairs } from "../../packages/core/src/sailing/sourcePairs.ts";
import { swappedWinds, WindOrder } from "../../packages/core/src/sailing/windOrder.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { radians } from "../../packages/core/src/units.ts";
import { agrees } from "../support/published.ts";

const START = Date.UTC(2031, 5, 14, 12) / 1000;

type Told = readonly [time: number, source: number, value: number];

const readingsOf = (told: readonly Told[]): Readings => ({
  length: told.length,
  time: Float64Array.from(told, ([time]) => START + time),
  source: Uint16Array.from(told, ([, source]) => source),
  value: Float64Array.from(told, ([, , value]) => value),
});

const sourcesOf = (quantity: QuantityName, ...names: readonly string[]): readonly Source[] =>
  names.map((name) => ({ quantity, name }));

/** A heading that swings to and fro, across north. */
const heading = (time: number): number => radians(5) + radians(40) * Math.sin(time / 12);

const SECONDS = 3600;

/** Two compasses once a second: the second reads more by 3°, 2 s later, and either with noise. */
function twoCompasses(from: number, to: number, noise: number): readonly Told[] {
  const random = randomNumbers(7, from);
  return Array.from({ length: to - from }, (_, n) => from + n).flatMap((time): readonly Told[] => [
    [time + 0.1, 0, heading(time) + noise * random.normal()],
    [time + 0.6, 1, heading(time - 2) + radians(3) + noise * random.normal()],
  ]);
}

const compared = (...logs: readonly (readonly Told[])[]) =>
  sourcePairs(
    logs.map((told) => {
      const pairs = new SourcePairs();
      pairs.add(readingsOf(told), sourcesOf("headingMagnetic", "HC HDG", "II HDM"));
      return pairs.finish();
    }),
  );

describe("two sensors of one quantity", () => {
  it("are compared by bias, spread and noise", () => {
    const noise = radians(0.5);
    const [pair] = compared(twoCompasses(0, SECONDS, noise));
    expect(pair).toMatchObject({ names: ["HC HDG", "II HDM"], seconds: SECONDS });
    agrees(
      pair!.bias,
      radians(3),
      radians(0.2),
      "a swing of 40° over a number of periods that is not whole, once 2 s late",
    );
    const swing = radians(40) * 2 * Math.sin(1 / 12);
    agrees(
      pair!.spread,
      Math.sqrt(swing ** 2 / 2 + 2 * noise ** 2),
      radians(0.1),
      "rms of the difference of two sines 2 s apart, and of two noises; 3600 seconds",
    );
    const swingStep = (swing * 2 * Math.sin(1 / 24)) ** 2 / 2;
    agrees(
      pair!.noise,
      Math.sqrt(2 * noise ** 2 + swingStep / 2),
      0.05 * noise,
      "3600 steps tell a standard deviation to 2 %",
    );
  });

  it("tell by their turns how far one is behind the other", () => {
    /** By 60° to and fro, in some 6 s, every 40 s. */
    const turns = (time: number): number => radians(30) * Math.tanh(8 * Math.sin((Math.PI * time) / 40));
    const random = randomNumbers(8, 1);
    const told = Array.from({ length: 1200 }, (_, time): readonly Told[] => [
      [time, 0, turns(time) + radians(0.5) * random.normal()],
      [time + 0.5, 1, turns(time - 2) + radians(0.5) * random.normal()],
    ]);
    agrees(
      compared(told.flat())[0]!.lag.seconds,
      2,
      0.15,
      "the parabola through three whole seconds of a peak some 4 s wide; noise of a twentieth of the rates",
    );
  });

  it("of which one has port and starboard swapped are told, in whichever order", () => {
    const turns = (time: number): number => radians(60) * Math.tanh(8 * Math.sin((Math.PI * time) / 40));
    const told = (sides: readonly [number, number]) => {
      const random = randomNumbers(9, 1);
      return Array.from({ length: 1200 }, (_, time): readonly Told[] => [
        [time, 0, sides[0] * turns(time) + radians(1) * random.normal()],
        [time + 0.5, 1, sides[1] * turns(time) + radians(1) * random.normal()],
      ]).flat();
    };
    const isOpposite = (sides: readonly [number, number]) => compared(told(sides))[0]!.isOpposite;
    expect(isOpposite([1, 1])).toBe(false);
    expect(isOpposite([-1, -1])).toBe(false);
    expect(isOpposite([1, -1])).toBe(true);
    expect(isOpposite([-1, 1])).toBe(true);
  });

  it("tell the same in two logs as in one, but for what lies across the seam", () => {
    const half = SECONDS / 2;
    const [whole] = compared(twoCompasses(0, SECONDS, 0));
    const [parts] = compared(twoCompasses(0, half, 0), twoCompasses(half, SECONDS, 0));
    agrees(parts!.bias, whole!.bias, 1e-12, "the same seconds summed in another order");
    agrees(parts!.lag.seconds, whole!.lag.seconds, 0.01, "a dozen seconds of 3600 lie across the seam");
  });

  it("are not compared where they never talk at one time, and others are not compared at all", () => {
    const apart = Array.from({ length: 200 }, (_, n): Told => [n, n < 100 ? 0 : 1, 0.1 * n]);
    expect(compared(apart)).toEqual([]);
    const depths = new SourcePairs();
    depths.add(readingsOf(twoCompasses(0, 60, 0)), sourcesOf("depthBelowTransducer", "A", "B"));
    expect(depths.finish()).toEqual([]);
  });
});

describe("the wind called apparent", () => {
  const sources: readonly Source[] = [
    { quantity: "speedOverGround", name: "GP RMC" },
    { quantity: "onboardTrueWindAngle", name: "WI MWV T" },
    { quantity: "apparentWindAngle", name: "WI MWV R" },
  ];
  /** On a boat that makes so many m/s: true wind at 60° and 6 m/s, and the apparent wind that follows. */
  const told = (speed: number, isSwapped: boolean) => {
    const order = new WindOrder();
    const apparent = Math.atan2(6 * Math.sin(radians(60)), 6 * Math.cos(radians(60)) + speed);
    const [one, other] = isSwapped ? [apparent, radians(60)] : [radians(60), apparent];
    const readings = Array.from({ length: 1000 }, (_, n): readonly Told[] => [
      [n, 0, speed],
      [n + 0.2, 1, n % 2 ? one : -one],
      [n + 0.4, 2, n % 2 ? other : -other],
    ]);
    order.add(readingsOf(readings.flat()), sources);
    return swappedWinds([order.finish()]);
  };

  it("comes from further ahead than the true one, or they bear each other's names", () => {
    expect(told(3, false)).toEqual([]);
    expect(told(3, true)).toEqual([{ apparent: "WI MWV R", onboardTrue: "WI MWV T", share: 1 }]);
  });

  it("tells nothing on a boat that hardly moves", () => {
    expect(told(0.5, true)).toEqual([]);
  });
});

describe("a heading", () => {
  const leapsOf = (told: readonly Told[]): number => {
    const inventory = new RecordingInventory();
    inventory.add(readingsOf(told), sourcesOf("headingMagnetic", "HC HDG"));
    return inventory.rows[0]!.leaps;
  };

  it("that changes faster than a boat can turn is counted, not one that turns fast", () => {
    const turning = (rate: number) =>
      Array.from({ length: 200 }, (_, n): Told => [n / 2, 0, radians(rate) * (n / 2)]);
    expect(leapsOf(turning(50))).toBe(0);
    expect(leapsOf(turning(70))).toBe(99);
    const thrown = Array.from({ length: 100 }, (_, n): Told => [n, 0, n === 50 ? radians(100) : 0]);
    expect(leapsOf(thrown)).toBe(2);
  });

  it("may be anywhere after a silence", () => {
    expect(
      leapsOf([
        [0, 0, 0],
        [1, 0, 0],
        [4, 0, Math.PI],
        [5, 0, Math.PI],
      ]),
    ).toBe(0);
  });
});

describe("sources in several logs", () => {
  const sources = sourcesOf("apparentWindSpeed", "WI MWV R");
  const partOf = (from: number, count: number) => {
    const inventory = new RecordingInventory();
    inventory.add(
      readingsOf(Array.from({ length: count }, (_, n): Told => [from + n / 2, 0, 5 + Math.sin(from + n)])),
      sources,
    );
    return inventory.part;
  };

  it("add up: nights between them are no silence", () => {
    const parts = [partOf(0, 401), partOf(86_400, 201)];
    const [row] = inventoryRows(parts);
    expect(row).toMatchObject({ readings: 602, gapSeconds: 0, heardSeconds: 300, rate: 2, start: START });
    expect(row!.end).toBe(START + 86_400 + 100);
    expect(row!.spans).toEqual([
      { start: START, seconds: 200 },
      { start: START + 86_400, seconds: 100 },
    ]);
    expect(secondsCovered(parts)).toBe(300);
    expect(secondsCovered([...parts, partOf(100, 401)])).toBe(400);
  });

  it("nor is a pause within one, a night or the leap of a clock that was set; what one is silent for on either side of it is", () => {
    const winds = sourcesOf("apparentWindSpeed", "WI MWV R", "II VWR");
    const leap = 1_000_000_000;
    // the first from 0 to 200 s, and from the leap on for 300 s; the second falls silent at 100 s, and begins 100 s later
    const told: Told[] = [];
    for (let time = 0; time <= 200; time++) told.push([time, 0, Math.sin(time)]);
    for (let time = 0; time <= 100; time++) told.push([time, 1, Math.cos(time)]);
    for (let time = 0; time <= 300; time++) told.push([leap + time, 0, Math.sin(time)]);
    for (let time = 100; time <= 300; time++) told.push([leap + time, 1, Math.cos(time)]);
    const inventory = new RecordingInventory();
    inventory.add(readingsOf([...told].sort(([one], [other]) => one - other)), winds);
    const [first, second] = inventory.rows;
    expect(first).toMatchObject({ gaps: [], gapSeconds: 0, heardSeconds: 500 });
    expect(first!.spans).toEqual([
      { start: START, seconds: 200 },
      { start: START + leap, seconds: 300 },
    ]);
    expect(second!.gaps).toEqual([
      { start: START + 100, seconds: 100 },
      { start: START + leap, seconds: 100 },
    ]);
    expect(second).toMatchObject({ gapSeconds: 200, heardSeconds: 300 });
    expect(secondsCovered([inventory.part])).toBe(500);
    // by the time that it covers, the second is alive for three fifths of it
    const { chosen } = chooseSources(inventory.rows, {}, secondsCovered([inventory.part]));
    expect(chosen.map(({ source }) => source.name)).toEqual(["WI MWV R"]);
  });
});
