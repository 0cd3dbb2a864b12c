/**
 * Signal K deltas: which paths are read, and in which units.
 *
 * SOURCE: SignalK/specification 1.8.2, schemas/groups and samples/delta; SignalK/n2k-signalk, tests; commits in
 *   datasets/published/signalKPaths.json.
 * STATUS: read in the repositories.
 * INPUTS: each path alone in a delta; the published delta after a hello message that names its vessel.
 * MARGIN: none where the unit is ours; the rounding of one conversion in double precision elsewhere.
 */
import { describe, expect, it } from "vitest";
import data from "../../datasets/published/signalKPaths.json" with { type: "json" };
import type { QuantityName } from "../../packages/core/src/recording/readings.ts";
import { SignalKReader } from "../../packages/core/src/recording/signalKReader.ts";
import { delta } from "../support/deltas.ts";
import { agrees, published } from "../support/published.ts";
import { readWhole } from "../support/wholeLog.ts";

const read = (text: string) => readWhole(new SignalKReader({ file: "log" }), text);

/** What is read of each path: the value of the delta, our quantity, the value that it has there. */
const READ: Readonly<Record<string, readonly (readonly [told: unknown, QuantityName, value: number])[]>> = {
  "environment.wind.angleApparent": [[-0.5, "apparentWindAngle", -0.5]],
  "environment.wind.speedApparent": [[7.5, "apparentWindSpeed", 7.5]],
  "environment.wind.angleTrueWater": [[-0.7, "onboardTrueWindAngle", -0.7]],
  "environment.wind.angleTrueGround": [[-0.8, "onboardTrueWindAngle", -0.8]],
  "environment.wind.directionTrue": [[4.2, "onboardTrueWindDirection", 4.2]],
  "environment.wind.directionMagnetic": [[4.1, "onboardTrueWindDirectionMagnetic", 4.1]],
  "environment.wind.speedTrue": [[6.5, "onboardTrueWindSpeed", 6.5]],
  "environment.wind.speedOverGround": [[6.6, "onboardTrueWindSpeed", 6.6]],
  "navigation.headingMagnetic": [[4.9, "headingMagnetic", 4.9]],
  "navigation.headingCompass": [[4.8, "headingMagnetic", 4.8]],
  "navigation.headingTrue": [[5, "headingTrue", 5]],
  "navigation.magneticVariation": [[-0.1, "variation", -0.1]],
  "navigation.speedThroughWater": [[3.3, "speedThroughWater", 3.3]],
  "navigation.speedThroughWaterLongitudinal": [[-0.2, "speedThroughWater", -0.2]],
  "navigation.speedOverGround": [[3.85, "speedOverGround", 3.85]],
  "navigation.courseOverGroundTrue": [[2.971, "courseOverGround", 2.971]],
  "navigation.courseOverGroundMagnetic": [[2.9, "courseOverGroundMagnetic", 2.9]],
  "navigation.leewayAngle": [[0.05, "leeway", 0.05]],
  "performance.leeway": [[0.06, "leeway", 0.06]],
  "navigation.attitude": [
    [{ roll: 0.3, pitch: null, yaw: 4.9 }, "heel", 0.3],
    [{ roll: null, pitch: -0.05, yaw: null }, "pitch", -0.05],
  ],
  "navigation.rateOfTurn": [[-0.02, "rateOfTurn", -0.02]],
  "environment.depth.belowTransducer": [[12.5, "depthBelowTransducer", 12.5]],
  "environment.water.temperature": [[290.15, "waterTemperature", 17]],
};

describe("a path", () => {
  for (const { path, unit } of data.paths)
    published(`${path} in ${unit}`, data.source, () => {
      const told = READ[path];
      if (told === undefined) {
        const { reader } = read(delta({ [path]: 1 }));
        expect(reader.lines).toEqual({ lines: 1, used: 0, ignored: 1, problems: 0 });
      } else
        for (const [value, quantity, inSi] of told) {
          const log = read(delta({ [path]: value }));
          expect(log.reader.lines).toEqual({ lines: 1, used: 1, ignored: 0, problems: 0 });
          expect(log.value).toHaveLength(1);
          agrees(log.valuesOf(quantity)[0]!, inSi, unit === "K" ? 1e-12 : 0, "one subtraction in kelvin");
        }
    });

  it("that is none of the specification's list has no reading here", () => {
    const listed = data.paths.map(({ path }) => path);
    expect(Object.keys(READ).filter((path) => !listed.includes(path))).toEqual([]);
  });
});

describe("a delta", () => {
  const { context, timestamp, values } = data.sampleDelta;
  const sample = JSON.stringify({ context, updates: [{ timestamp, values }] });

  published("course and speed over ground", data.source, () => {
    const hello = JSON.stringify({ name: "server", version: "1.8.2", self: context });
    const log = read(`${hello}\n${sample}\n`);
    expect(log.valuesOf("courseOverGround")).toEqual([2.971]);
    expect(log.valuesOf("speedOverGround")).toEqual([3.85]);
    expect(log.time).toEqual([Date.parse(timestamp) / 1000, Date.parse(timestamp) / 1000]);
  });

  it("of a vessel that may be another's is ignored", () => {
    expect(read(sample).reader.lines).toEqual({ lines: 1, used: 0, ignored: 1, problems: 0 });
  });

  for (const { told, toTheBow } of data.windAngles)
    published(`a wind angle of ${told} rad`, data.source, () => {
      const [actual] = read(delta({ "environment.wind.angleApparent": told })).value;
      agrees(actual!, toTheBow, 1e-15, "one subtraction in double precision");
    });
});
