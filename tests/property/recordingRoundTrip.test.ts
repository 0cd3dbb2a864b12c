import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { angleBetween } from "../../packages/core/src/angles.ts";
import * as writer from "../../packages/core/src/recording/nmea0183Writer.ts";
import type { QuantityName } from "../../packages/core/src/recording/readings.ts";
import { metresPerSecond, radians } from "../../packages/core/src/units.ts";
import { agrees } from "../support/published.ts";
import { wholeLog } from "../support/wholeLog.ts";

const between = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });
const direction = between(0, 2 * Math.PI);
const angle = between(-Math.PI, Math.PI);
const speed = between(0, 40);

/** Half of the last digit written, with room for double rounding. */
const TENTH_OF_A_DEGREE = radians(0.0500001);
const HUNDREDTH_OF_A_KNOT = metresPerSecond(0.00500001);
const CENTIMETRE = 0.00500001;
/** Minutes of arc are written with five decimals. */
const PLACE = radians(0.00000500001 / 60);

type Expected = readonly [quantity: QuantityName, value: number, within: number];

function tells(sentence: string, expected: readonly Expected[]): void {
  const log = wholeLog(sentence);
  expect(log.reader.problems).toEqual([]);
  expect(log.value).toHaveLength(expected.length);
  for (const [quantity, value, within] of expected) {
    const [actual] = log.valuesOf(quantity);
    const isAngle = within === TENTH_OF_A_DEGREE || within === PLACE;
    const difference = isAngle ? angleBetween(actual!, value) : actual! - value;
    agrees(difference, 0, within, "half of the last digit that the writer writes");
  }
}

describe("what is written is read again", () => {
  it("RMC, with its time", () => {
    const time = between(Date.UTC(1981, 0, 1) / 1000, Date.UTC(2079, 0, 1) / 1000);
    const place = fc.tuple(between(-Math.PI / 2, Math.PI / 2), between(-Math.PI, Math.PI));
    fc.assert(
      fc.property(
        time,
        place,
        speed,
        direction,
        between(-0.6, 0.6),
        (time, [latitude, longitude], sog, cog, variation) => {
          const sentence = writer.rmcSentence({ time, latitude, longitude, sog, cog, variation });
          tells(sentence, [
            ["latitude", latitude, PLACE],
            ["longitude", longitude, PLACE],
            ["speedOverGround", sog, HUNDREDTH_OF_A_KNOT],
            ["courseOverGround", cog, TENTH_OF_A_DEGREE],
            ["variation", variation, TENTH_OF_A_DEGREE],
          ]);
          agrees(wholeLog(sentence).time[0]!, time, 0.0051, "time is written in hundredths of a second");
        },
      ),
    );
  });

  it("VTG, HDG, HDT, VHW", () => {
    fc.assert(
      fc.property(direction, direction, speed, between(-0.6, 0.6), (cog, heading, sog, variation) => {
        tells(writer.vtgSentence({ cog, cogMagnetic: heading, sog }), [
          ["courseOverGround", cog, TENTH_OF_A_DEGREE],
          ["courseOverGroundMagnetic", heading, TENTH_OF_A_DEGREE],
          ["speedOverGround", sog, HUNDREDTH_OF_A_KNOT],
        ]);
        tells(writer.hdgSentence({ heading, variation }), [
          ["headingMagnetic", heading, TENTH_OF_A_DEGREE],
          ["variation", variation, TENTH_OF_A_DEGREE],
        ]);
        tells(writer.hdtSentence({ heading }), [["headingTrue", heading, TENTH_OF_A_DEGREE]]);
        tells(writer.vhwSentence({ stw: sog, headingTrue: cog, headingMagnetic: heading }), [
          ["headingTrue", cog, TENTH_OF_A_DEGREE],
          ["headingMagnetic", heading, TENTH_OF_A_DEGREE],
          ["speedThroughWater", sog, HUNDREDTH_OF_A_KNOT],
        ]);
      }),
    );
  });

  it("MWV of either wind, MWD", () => {
    fc.assert(
      fc.property(angle, speed, direction, (angle, speed, direction) => {
        tells(writer.mwvSentence({ angle, speed, reference: "R" }), [
          ["apparentWindAngle", angle, TENTH_OF_A_DEGREE],
          ["apparentWindSpeed", speed, HUNDREDTH_OF_A_KNOT],
        ]);
        tells(writer.mwvSentence({ angle, speed, reference: "T" }), [
          ["onboardTrueWindAngle", angle, TENTH_OF_A_DEGREE],
          ["onboardTrueWindSpeed", speed, HUNDREDTH_OF_A_KNOT],
        ]);
        tells(writer.mwdSentence({ direction, speed }), [
          ["onboardTrueWindDirection", direction, TENTH_OF_A_DEGREE],
          ["onboardTrueWindSpeed", speed, HUNDREDTH_OF_A_KNOT],
        ]);
      }),
    );
  });

  it("XDR of heel and pitch, ROT, DPT", () => {
    fc.assert(
      fc.property(angle, angle, between(0, 400), between(-5, 5), (heel, pitch, depth, offset) => {
        tells(writer.xdrAttitudeSentence({ heel, pitch }), [
          ["heel", heel, TENTH_OF_A_DEGREE],
          ["pitch", pitch, TENTH_OF_A_DEGREE],
        ]);
        tells(writer.dptSentence({ depth, offset }), [
          ["depthBelowTransducer", depth, CENTIMETRE],
          ["transducerOffset", offset, CENTIMETRE],
        ]);
        tells(writer.rotSentence({ rate: heel / 10 }), [["rateOfTurn", heel / 10, TENTH_OF_A_DEGREE / 60]]);
      }),
    );
  });

  it("and what is missing is not", () => {
    const none = Number.NaN;
    const sentences = [
      writer.rmcSentence({
        time: none,
        latitude: none,
        longitude: none,
        sog: none,
        cog: none,
        variation: none,
      }),
      writer.zdaSentence({ time: none }),
      writer.vtgSentence({ cog: none, sog: none }),
      writer.hdgSentence({ heading: none }),
      writer.hdtSentence({ heading: none }),
      writer.vhwSentence({ stw: none }),
      writer.mwvSentence({ angle: none, speed: none, reference: "R" }),
      writer.mwdSentence({ direction: none, speed: none }),
      writer.xdrAttitudeSentence({ heel: none, pitch: none }),
      writer.rotSentence({ rate: none }),
      writer.dptSentence({ depth: none }),
    ];
    const { reader, value } = wholeLog(sentences.join("\r\n"));
    expect(value).toEqual([]);
    expect(reader.lines).toEqual({
      lines: sentences.length,
      used: 0,
      ignored: sentences.length,
      problems: 0,
    });
  });
});

describe("what is written keeps to the standard", () => {
  it("directions stay below 360 and minutes below 60 after rounding, zero has no sign", () => {
    expect(writer.hdtSentence({ heading: radians(359.99) })).toContain(",0.0,");
    expect(writer.mwvSentence({ angle: radians(-0.01), speed: 1, reference: "R" })).toContain(",0.0,R");
    expect(writer.xdrAttitudeSentence({ heel: radians(-0.01) })).toContain(",0.0,D");
    const place = { latitude: radians(-(52 + 59.9999999 / 60)), longitude: radians(5.5) };
    expect(writer.rmcSentence({ time: 0, ...place, sog: 1, cog: 1, variation: 0 })).toContain(
      ",5300.00000,S,00530.00000,E,",
    );
  });

  it("no sentence is longer than 82 characters, line end included", () => {
    const time = Date.UTC(2031, 11, 31, 23, 59, 59) / 1000;
    const place = { latitude: radians(-89.99), longitude: radians(-179.99) };
    for (const sentence of [
      writer.rmcSentence({ time, ...place, sog: 40, cog: 6, variation: -3 }),
      writer.mwdSentence({ direction: 6, directionMagnetic: 6, speed: 40 }),
      writer.vhwSentence({ stw: 40, headingTrue: 6, headingMagnetic: 6 }),
    ])
      expect(sentence.length + 2).toBeLessThanOrEqual(82);
  });
});
