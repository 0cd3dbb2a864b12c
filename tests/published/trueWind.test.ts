/**
 * The wind triangle (M10) against worked examples of others.
 *
 * SOURCE: S. R. Smith, M. A. Bourassa, R. J. Sharp, 1999: Establishing More Truth in True Winds, J. Atmos. Oceanic
 *   Technol. 16, 939–952, by its authors' test set; a ship's records; flight examples. Each with its
 *   place in datasets/published/trueWind.json.
 * STATUS: numbers read in the repositories and pages named there; the paper itself in part.
 * INPUTS: the wind's direction is relative to the bow, zero-line reference 0 throughout.
 * MARGIN: half a unit of the last digit printed, unless the source states a tolerance; calms have no direction here,
 *   where the source writes 0.
 */
import { describe, expect, it } from "vitest";
import data from "../../datasets/published/trueWind.json" with { type: "json" };
import { wrapAngle } from "../../packages/core/src/angles.ts";
import { directionOf, eastOf, northOf, speedOf } from "../../packages/core/src/physics/vectors.ts";
import { apparentWind, windOverGround } from "../../packages/core/src/physics/windTriangle.ts";
import { degrees, radians } from "../../packages/core/src/units.ts";
import { agrees, published } from "../support/published.ts";

const { fsuTestSet, shipRecords, flight, components } = data;

/** Degrees from one direction to another, the short way: 360 and 0 are one direction. */
const apart = (one: number, other: number): number => degrees(wrapAngle(radians(one - other)));

type ShipRecord = {
  readonly cogDeg: number;
  readonly sog: number;
  readonly headingDeg: number;
  readonly relWindDirDeg: number;
  readonly relWindSpeed: number;
};

const windOf = (record: ShipRecord) =>
  windOverGround(
    { angle: radians(record.relWindDirDeg), speed: record.relWindSpeed },
    radians(record.headingDeg),
    { direction: radians(record.cogDeg), speed: record.sog },
  );

describe("the true wind of the Florida State University test set", () => {
  fsuTestSet.records.forEach((record, index) => {
    published(`record ${index + 1}`, fsuTestSet.source, () => {
      const wind = windOf(record);
      const because = "the tolerance of the source";
      agrees(wind.speed, record.expect.trueSpeed, fsuTestSet.toleranceInSource, because);
      if (record.expect.calm) expect(wind.direction).toBeNaN();
      else {
        agrees(
          apart(degrees(wind.direction), record.expect.trueDirDeg),
          0,
          fsuTestSet.toleranceInSource,
          because,
        );
      }
      const apparent = record.headingDeg + record.relWindDirDeg;
      agrees(apart(apparent, record.expect.apparentDirDeg), 0, fsuTestSet.toleranceInSource, because);
    });
  });

  const { missing, badRecords } = fsuTestSet;
  const orMissing = (value: number, flag: number): number => (value === flag ? Number.NaN : value);
  const readRecord = (record: ShipRecord): ShipRecord => ({
    cogDeg: orMissing(record.cogDeg, missing.course),
    sog: orMissing(record.sog, missing.courseSpeed),
    headingDeg: orMissing(record.headingDeg, missing.heading),
    relWindDirDeg: orMissing(record.relWindDirDeg, missing.relWindDir),
    relWindSpeed: orMissing(record.relWindSpeed, missing.relWindSpeed),
  });
  const badFor = (reason: RegExp) => badRecords.filter(({ why }) => reason.test(why)).map(readRecord);

  published("2 records with values missing give none", fsuTestSet.source, () => {
    const records = badFor(/missing/);
    expect(records).toHaveLength(2);
    for (const record of records)
      expect(windOf(record)).toEqual({ direction: Number.NaN, speed: Number.NaN });
  });

  published("2 records with a negative speed are refused", fsuTestSet.source, () => {
    const records = badFor(/speed < 0/);
    expect(records).toHaveLength(2);
    for (const record of records) expect(() => windOf(record)).toThrow(RangeError);
  });

  it("takes the 3 records with a negative direction, which the source refuses, as the same direction a turn on", () => {
    const records = badFor(/(course|dir|heading) < 0/);
    expect(records).toHaveLength(3);
    const turned = (angle: number): number => (angle < 0 ? angle + 360 : angle);
    for (const record of records) {
      const same = windOf({
        ...record,
        cogDeg: turned(record.cogDeg),
        headingDeg: turned(record.headingDeg),
        relWindDirDeg: turned(record.relWindDirDeg),
      });
      const because = "rounding of a turn in degrees";
      agrees(windOf(record).speed, same.speed, 1e-12, because);
      agrees(wrapAngle(windOf(record).direction - same.direction), 0, 1e-12, because);
    }
  });
});

describe("the true wind of a ship", () => {
  shipRecords.records.forEach((record, index) => {
    published(`record ${index + 1}`, shipRecords.source, () => {
      const wind = windOf({
        ...record,
        sog: record.sogKn * shipRecords.metresPerSecondInAKnot,
        relWindSpeed: record.relWindSpeedMs,
      });
      const because = "the source prints more than ten digits, worked in degrees";
      agrees(degrees(wind.direction), record.expect.trueDirDeg, 1e-9, because);
      agrees(wind.speed, record.expect.trueSpeedMs, 1e-10, because);
    });
  });
});

describe("the wind that carries an aircraft off its heading", () => {
  for (const record of flight.records) {
    const { source, course, expect: answer } = record;
    if (record.heading !== undefined && record.airspeed !== undefined && record.groundSpeed !== undefined) {
      const { heading, airspeed, groundSpeed } = record;
      published(`from heading ${heading} and course ${course}`, source, () => {
        const wind = windOverGround({ angle: 0, speed: airspeed }, radians(heading), {
          direction: radians(course),
          speed: groundSpeed,
        });
        const slideRule = source.includes("flight computer");
        const because = slideRule
          ? "read off a slide rule: one unit"
          : "half a unit of the last digit printed";
        agrees(degrees(wind.direction), answer.windFromDeg ?? Number.NaN, slideRule ? 1 : 5e-4, because);
        agrees(wind.speed, answer.windSpeed ?? Number.NaN, slideRule ? 1 : 5e-4, because);
      });
    } else if (record.windFromDeg !== undefined && record.windSpeed !== undefined) {
      const { windFromDeg, windSpeed } = record;
      const { headingDeg } = answer;
      const groundSpeed = record.groundSpeed ?? answer.groundSpeed;
      const airspeed = record.airspeed ?? answer.airspeed;
      if (headingDeg === undefined || groundSpeed === undefined || airspeed === undefined) continue;
      published(`wind ${windFromDeg}/${windSpeed} on course ${course} is felt from ahead`, source, () => {
        const felt = apparentWind(
          { direction: radians(windFromDeg), speed: windSpeed },
          radians(headingDeg),
          { direction: radians(course), speed: groundSpeed },
        );
        const printed = String(headingDeg).includes(".") ? 0.005 : 0.5;
        const because = "half a unit of the last digit of the heading and of the speed printed";
        agrees(degrees(felt.angle), 0, printed * 1.1, because);
        agrees(felt.speed, airspeed, printed * 1.1, because);
      });
    }
  }
});

describe("a wind's components (M9)", () => {
  const [polar, cartesian] = components;
  published("10 m/s from 225° blows toward the north-east", polar!.source, () => {
    const because = "eight decimals printed";
    agrees(-eastOf(radians(polar!.fromDeg!), polar!.speed!), polar!.expect.u!, 5e-9, because);
    agrees(-northOf(radians(polar!.fromDeg!), polar!.speed!), polar!.expect.v!, 5e-9, because);
  });
  published("speed of 10 east and 10 north", cartesian!.source, () => {
    agrees(speedOf(cartesian!.u!, cartesian!.v!), cartesian!.expect.speed!, 5e-8, "seven decimals printed");
    agrees(degrees(directionOf(cartesian!.u!, cartesian!.v!)), 45, 1e-13, "alike in both components");
  });
});
