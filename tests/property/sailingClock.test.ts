/**
 * Properties of the common clock (M35). Expected values follow from the definitions by hand; no published source.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Readings } from "../../packages/core/src/recording/readings.ts";
import { SecondsAligner, type SecondsAlignerOptions } from "../../packages/core/src/sailing/clock.ts";
import { CHANNELS, type Channel, type SecondsBlock } from "../../packages/core/src/sailing/series.ts";
import { radians } from "../../packages/core/src/units.ts";

type Reading = readonly [time: number, source: number, value: number];

const readingsOf = (readings: readonly Reading[]): Readings => ({
  length: readings.length,
  time: Float64Array.from(readings, ([time]) => time),
  source: Uint16Array.from(readings, ([, source]) => source),
  value: Float64Array.from(readings, ([, , value]) => value),
});

/** Every channel over all blocks, and the times. */
function joined(blocks: readonly SecondsBlock[]): Record<Channel | "time", number[]> {
  const columns = Object.fromEntries(
    CHANNELS.map((channel) => [channel, blocks.flatMap((block) => [...block.columns[channel]])]),
  ) as Record<Channel, number[]>;
  return { ...columns, time: blocks.flatMap((block) => [...block.time]) };
}

function aligned(
  readings: readonly Reading[],
  options: SecondsAlignerOptions,
  batch = Number.POSITIVE_INFINITY,
) {
  const aligner = new SecondsAligner(options);
  const blocks: SecondsBlock[] = [];
  for (let from = 0; from < readings.length; from += batch)
    blocks.push(...aligner.push(readingsOf(readings.slice(from, from + batch))));
  blocks.push(...aligner.finish());
  return { blocks, columns: joined(blocks), counts: aligner.counts };
}

const START = 1_700_000_000;
const chosen = {
  apparentWindAngle: 0,
  apparentWindSpeed: 1,
  heel: 2,
  speedOverGround: 3,
  courseOverGround: 4,
};

/** A log of readings with times that never go back, now and then with long silences. */
const log = fc
  .array(
    fc.tuple(
      fc.oneof(
        { weight: 30, arbitrary: fc.double({ min: 0, max: 0.9, noNaN: true }) },
        fc.constant(7),
        fc.constant(300),
      ),
      fc.nat(5),
      fc.double({ min: -3, max: 3, noNaN: true }),
    ),
    { minLength: 1, maxLength: 400 },
  )
  .map((steps) => {
    let time = START;
    return steps.map(([wait, source, value]): Reading => {
      time += wait;
      return [time, source, value];
    });
  });

describe("the common clock (M35)", () => {
  it("gives the same seconds, bit for bit, however the readings are batched", () => {
    fc.assert(
      fc.property(log, fc.integer({ min: 1, max: 50 }), (readings, batch) => {
        expect(aligned(readings, { chosen }, batch)).toEqual(aligned(readings, { chosen }));
      }),
    );
  });

  it("writes each second once, in order, and none that no channel has", () => {
    fc.assert(
      fc.property(log, (readings) => {
        const { columns } = aligned(readings, { chosen });
        expect(columns.time.every((time, index) => index === 0 || time > columns.time[index - 1]!)).toBe(
          true,
        );
        const known = columns.time.map((_, index) =>
          CHANNELS.some((channel) => !Number.isNaN(columns[channel][index]!)),
        );
        expect(known.every(Boolean)).toBe(true);
      }),
    );
  });

  it("averages the readings within a second, angles as vectors", () => {
    const readings: Reading[] = [
      [START + 0.1, 0, radians(179)],
      [START + 0.3, 1, 4],
      [START + 0.6, 0, radians(-179)],
      [START + 0.8, 1, 6],
    ];
    const { columns } = aligned(readings, { chosen });
    expect(columns.aws).toEqual([5]);
    expect(Math.abs(columns.awa[0]!)).toBeCloseTo(Math.PI, 12);
  });

  it("bridges readings 5 s apart by the straight line, the short way round, and leaves 6 s open", () => {
    const readings: Reading[] = [
      [START, 0, radians(175)],
      [START + 5, 0, radians(-175)],
      [START + 11, 0, radians(-175)],
    ];
    const { columns } = aligned(readings, { chosen });
    expect(columns.time).toEqual([0, 1, 2, 3, 4, 5, 11].map((second) => START + second));
    expect(columns.awa[2]).toBeCloseTo(radians(179), 12);
    expect(columns.awa[3]).toBeCloseTo(radians(-179), 12);
  });

  it("leaves out a lone spike and counts it, but keeps a jump that stays", () => {
    const steady = Array.from({ length: 40 }, (_, index): Reading => [START + index, 1, index < 20 ? 6 : 13]);
    const spiked = steady.map(
      ([time, source, value], index): Reading => [time, source, index === 9 ? 40 : value],
    );
    expect(aligned(steady, { chosen }).counts.spikes.apparentWindSpeed).toBe(0);
    const { columns, counts } = aligned(spiked, { chosen });
    expect(counts.spikes.apparentWindSpeed).toBe(1);
    expect(columns.aws).toEqual(steady.map(([, , value]) => value));
  });

  it("makes a velocity over ground of speed and course, nothing of a boat that lies still without one", () => {
    const { columns } = aligned(
      [
        [START, 3, 2],
        [START, 4, radians(90)],
        [START + 30, 3, 0.2],
        [START + 60, 3, 2],
      ],
      { chosen },
    );
    expect(columns.east[0]).toBeCloseTo(2, 12);
    expect(columns.north[0]).toBeCloseTo(0, 12);
    expect([columns.east[1], columns.north[1]]).toEqual([0, 0]);
    expect(columns.time).toEqual([START, START + 30]);
  });

  it("turns a magnetic course by the variation at the place", () => {
    const magnetic = { speedOverGround: 0, courseOverGroundMagnetic: 1, latitude: 2, longitude: 3 };
    const variationAt = (latitude: number, longitude: number) => latitude + longitude;
    const { columns } = aligned(
      [
        [START, 2, 0.3],
        [START, 3, 0.2],
        [START, 0, 3],
        [START, 1, 1],
      ],
      { chosen: magnetic, variationAt },
    );
    expect(columns.variation).toEqual([0.5]);
    expect(Math.atan2(columns.east[0]!, columns.north[0]!)).toBeCloseTo(1.5, 12);
  });

  it("takes the variation of the log where no model is given, and NaN where there is neither", () => {
    const readings: Reading[] = [
      [START, 0, 1],
      [START, 1, radians(-4)],
    ];
    expect(
      aligned(readings, { chosen: { headingMagnetic: 0, variation: 1 } }).columns.variation[0],
    ).toBeCloseTo(radians(-4), 12);
    expect(aligned(readings, { chosen: { headingMagnetic: 0 } }).columns.variation[0]).toBeNaN();
  });

  it("takes the variation of the log, as last told, where the model does not reach to the date", () => {
    const chosen = { headingMagnetic: 0, variation: 1, latitude: 2, longitude: 3 };
    const readings: Reading[] = [
      [START, 2, 0.3],
      [START, 3, 0.2],
      [START, 0, 1],
      [START, 1, radians(-4)],
      [START + 30, 0, 1],
      [START + 650, 0, 1],
    ];
    const { columns } = aligned(readings, { chosen, variationAt: () => Number.NaN });
    expect(columns.variation[0]).toBeCloseTo(radians(-4), 12);
    expect(columns.variation[1]).toBeCloseTo(radians(-4), 12);
    expect(columns.variation[2]).toBeNaN();
  });

  it("prefers the magnetic compass, and says which north a heading is from", () => {
    const readings: Reading[] = [
      [START, 0, 1],
      [START, 1, 2],
    ];
    const both = aligned(readings, { chosen: { headingMagnetic: 0, headingTrue: 1 } }).blocks[0]!;
    expect(both.headingIsTrue).toBe(false);
    expect(both.columns.heading[0]).toBeCloseTo(1, 12);
    const gyro = aligned(readings, { chosen: { headingTrue: 1 } }).blocks[0]!;
    expect(gyro.headingIsTrue).toBe(true);
    expect(gyro.columns.heading[0]).toBeCloseTo(2, 12);
  });

  it("gives the rate of heel where two or more readings fall within the second, else NaN", () => {
    const fast = [0, 0.25, 0.5, 0.75].map((part): Reading => [START + part, 2, 0.1 + 0.2 * part]);
    expect(aligned(fast, { chosen }).columns.heelRate[0]).toBeCloseTo(0.2, 12);
    expect(aligned(fast.slice(0, 1), { chosen }).columns.heelRate[0]).toBeNaN();
  });

  it("counts readings without a time, and refuses a source that is no index", () => {
    expect(aligned([[Number.NaN, 0, 1]], { chosen }).counts.untimed).toBe(1);
    expect(() => new SecondsAligner({ chosen: { heel: -1 } })).toThrow(RangeError);
  });
});
