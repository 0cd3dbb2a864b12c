/**
 * NMEA 0183 sentences: what they tell (M31), their checksums (M30).
 *
 * SOURCE: ntpsec/gpsd, www/NMEA.adoc; SignalK/nmea0183-signalk, ktuukkan/marine-api and Knio/pynmea2, tests and
 *   documentation; places and commits in datasets/published/nmea0183Samples.json.
 * STATUS: read in the repositories; second-hand for the standard, which is not public.
 * INPUTS: each sentence alone in a log.
 * MARGIN: for values printed in SI or rad, half a unit of the last digit printed; for values as they stand in the
 *   sentence, the rounding of one or two conversions in double precision.
 */
import { describe, expect, it } from "vitest";
import data from "../../datasets/published/nmea0183Samples.json" with { type: "json" };
import { nmea0183Checksum, nmea0183Sentence } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import { QUANTITIES, type QuantityName } from "../../packages/core/src/recording/readings.ts";
import { metresPerSecond, radians } from "../../packages/core/src/units.ts";
import { agrees, published } from "../support/published.ts";
import { wholeLog } from "../support/wholeLog.ts";

type Told = readonly [value: number, unit: string];

const SI: Readonly<Record<string, (value: number) => number>> = {
  deg: radians,
  rad: (value) => value,
  "deg/min": (value) => radians(value) / 60,
  kn: metresPerSecond,
  "m/s": (value) => value,
  m: (value) => value,
  nmi: (value) => value * 1852,
  "°C": (value) => value,
};

const toldBy = (
  tells: Readonly<Record<string, readonly (number | string)[]>>,
): readonly [QuantityName, Told][] =>
  QUANTITIES.flatMap((quantity) => {
    const told = tells[quantity];
    return told ? [[quantity, [Number(told[0]), String(told[1])]]] : [];
  });

/** Half a unit of the last decimal printed, where the source converted and rounded; else room for double rounding. */
const margin = ([value, unit]: Told): number =>
  unit === "rad" || unit === "m/s"
    ? 0.5000001 * 10 ** -(String(value).split(".")[1]?.length ?? 0)
    : 4 * Number.EPSILON * Math.max(1, Math.abs(SI[unit]!(value)));

describe("what a sentence tells", () => {
  for (const { sentence, readAt, tells } of data.valid) {
    const told = toldBy(tells as Readonly<Record<string, readonly (number | string)[]>>);
    published(`${sentence}`, readAt, () => {
      const log = wholeLog(sentence);
      expect(log.reader.lines.problems).toBe(0);
      expect(log.value).toHaveLength(told.length);
      for (const [quantity, value] of told) {
        const [actual, ...more] = log.valuesOf(quantity);
        expect(more).toEqual([]);
        agrees(actual!, SI[value[1]]!(value[0]), margin(value), "digits printed, or double rounding");
      }
    });
  }
});

describe("when it tells it", () => {
  for (const [sentence, time] of Object.entries(data.times)) {
    const { readAt } = data.valid.find((one) => one.sentence === sentence)!;
    published(`${sentence} at ${time}`, readAt, () => {
      const { time: times } = wholeLog(`${sentence}\n${nmea0183Sentence("HCHDM,100,M")}\n`);
      agrees(times.at(-1)! - Date.parse(time) / 1000, 0.5, 0.5, "the reading comes within the second after");
    });
  }
});

describe("checksums", () => {
  for (const { sentence, readAt } of data.valid)
    published(`of ${sentence}`, readAt, () => {
      const [body, printed] = sentence.slice(1).split("*");
      expect(nmea0183Checksum(body!)).toBe(Number.parseInt(printed!, 16));
    });

  for (const { sentence, right } of data.wrongChecksum)
    it(`${sentence} was published with a wrong checksum and makes no reading`, () => {
      const { reader, value } = wholeLog(sentence);
      expect(value).toEqual([]);
      expect(reader.lines).toEqual({ lines: 1, used: 0, ignored: 0, problems: 1 });
      expect(reader.problems).toEqual([
        { kind: "checksum", file: "log.nmea", line: 1, received: sentence, expected: `checksum ${right}` },
      ]);
    });
});
