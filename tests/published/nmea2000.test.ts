/**
 * NMEA 2000 frames: what they tell.
 *
 * SOURCE: canboat/canboatjs, test/pgns; field layout canboat/canboat, docs/canboat.json; commits in
 *   datasets/published/nmea2000Frames.json.
 * STATUS: read in the repositories; second-hand for the standard, which is not public.
 * INPUTS: each frame alone in a log, in each of the three forms that a line may have.
 * MARGIN: half a unit of the last digit printed; what is printed whole is exact up to the rounding of a conversion.
 */
import { describe, expect } from "vitest";
import data from "../../datasets/published/nmea2000Frames.json" with { type: "json" };
import { Nmea2000Reader } from "../../packages/core/src/recording/nmea2000Reader.ts";
import { QUANTITIES } from "../../packages/core/src/recording/readings.ts";
import { radians } from "../../packages/core/src/units.ts";
import { candumpLine, listedLine, packedLine } from "../support/canLines.ts";
import { agrees, published } from "../support/published.ts";
import { readWhole } from "../support/wholeLog.ts";

const decimals = (value: number): number => String(value).split(".")[1]?.length ?? 0;

describe.each([
  ["packed", packedLine],
  ["spaced", candumpLine],
  ["listed", listedLine],
])("a frame in a line, %s", (_, lineOf) => {
  for (const { pgn, bytes, tells } of data.frames)
    published(`PGN ${pgn}: ${bytes}`, data.source, () => {
      const frame = { pgn, source: 42, data: bytes.split(",").map((byte) => Number.parseInt(byte, 16)) };
      const log = readWhole(new Nmea2000Reader({ file: "log" }), `${lineOf(frame, 1_500_000_000)}\n`);
      expect(log.reader.lines).toMatchObject({ lines: 1, problems: 0 });
      expect(log.value).toHaveLength(Object.keys(tells).length);
      for (const [name, [printed, unit]] of Object.entries<readonly (number | string)[]>(tells)) {
        const value = Number(printed);
        const quantity = QUANTITIES.find((one) => one === name)!;
        const [actual, ...more] = log.valuesOf(quantity);
        expect(more).toEqual([]);
        const [inSi, half] = [value, 0.5 * 10 ** -decimals(value)].map(
          unit === "deg" ? radians : (one) => one,
        );
        agrees(actual!, inSi!, half! * 1.000001, "half a unit of the last digit printed");
      }
    });
});
