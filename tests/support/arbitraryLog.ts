import fc from "fast-check";
import {
  dptSentence,
  hdgSentence,
  mwvSentence,
  rmcSentence,
  vhwSentence,
  xdrAttitudeSentence,
  zdaSentence,
} from "../../packages/core/src/recording/nmea0183Writer.ts";
import { bytesOf } from "./wholeLog.ts";

const START = Date.UTC(2031, 5, 14, 23, 58) / 1000;

const between = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });

/** A sentence of a boat's log, at some second after a start just before midnight. */
const sentence = (second: number): fc.Arbitrary<string> =>
  fc.oneof(
    fc
      .tuple(between(-1.5, 1.5), between(-3, 3), between(0, 8), between(0, 6.28))
      .map(([latitude, longitude, sog, cog]) =>
        rmcSentence({ time: START + second, latitude, longitude, sog, cog, variation: -0.1 }),
      ),
    fc.constant(zdaSentence({ time: START + second })),
    fc
      .tuple(between(-3.1, 3.1), between(0, 20))
      .map(([angle, speed]) => mwvSentence({ angle, speed, reference: "R" })),
    between(0, 6.28).map((heading) => hdgSentence({ heading, variation: 0.02 })),
    between(0, 8).map((stw) => vhwSentence({ stw })),
    fc
      .tuple(between(-0.6, 0.6), between(-0.2, 0.2))
      .map(([heel, pitch]) => xdrAttitudeSentence({ heel, pitch })),
    between(1, 99).map((depth) => dptSentence({ depth })),
  );

/** What else stands in logs: noise, blank lines, comments, stamps, damaged and unchecked sentences. */
const noise: fc.Arbitrary<string> = fc.oneof(
  fc.constantFrom(
    "",
    "# comment",
    "$GPGSV,1,1,00*79",
    "!AIVDM,1,1,,A,abc,0*00",
    "03,M*3C",
    "$IIHDM,303,M*3D",
    "$WIMWV,0",
    "$",
  ),
  fc.string({ maxLength: 30 }),
  fc.uint8Array({ maxLength: 30 }).map((bytes) => String.fromCharCode(...bytes)),
  fc.integer({ min: 1000, max: 1100 }).map((length) => `$${"A".repeat(length)}`),
);

/** A whole log as bytes: mostly sound, times going forward, any line ends. */
export const arbitraryLog: fc.Arbitrary<Uint8Array> = fc
  .array(fc.tuple(fc.nat({ max: 5 }), fc.constantFrom("\n", "\r\n", "\r")), { maxLength: 60 })
  .chain((lines) => {
    const texts = lines.map(([kind], index) => (kind === 0 ? noise : sentence(index)));
    return fc
      .tuple(...texts)
      .map((all) => bytesOf(all.map((text, index) => text + lines[index]![1]).join("")));
  });

/** Sizes of chunks that are used in turn. */
export const chunkSizes: fc.Arbitrary<readonly number[]> = fc.array(fc.integer({ min: 1, max: 90 }), {
  minLength: 1,
  maxLength: 8,
});
