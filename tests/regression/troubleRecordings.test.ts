/**
 * Recordings that are known (the demo, and the open recordings with their licences) have no sensor in trouble. Guards change; proves
 * nothing: nobody published that their sensors worked. Where nothing is found rows stay as they were to the last bit, which is
 * held by identity, not by values.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { sailingWithoutSteps } from "../../packages/core/src/fit/stepTroubles.ts";
import { summariseLogs } from "../../packages/core/src/job/summariseLogs.ts";
import { sailingWithout } from "../../packages/core/src/sailing/troubleCure.ts";

const RECORDINGS = [
  "demo/demo.nmea.gz",
  "recorded/bay-start-2008.nmea",
  "recorded/lake-evening-2018.nmea",
  "recorded/heel-sentences-2018.nmea",
  "recorded/river-2016-corrupted.nmea",
];

describe("no sensor is in trouble", () => {
  it.each(RECORDINGS)("in %s", async (name) => {
    const bytes = readFileSync(new URL(`../../datasets/${name}`, import.meta.url));
    const chunks = {
      async *[Symbol.asyncIterator]() {
        yield new Uint8Array(bytes);
      },
    };
    const { sailing } = await summariseLogs([{ name, chunks }], UNKNOWN_BOAT);
    expect(sailing.rows.length).toBeGreaterThan(0);
    expect(sailing.troubles).toEqual([]);
    expect(sailing.rows.every((row) => row.strays === undefined)).toBe(true);
    expect(sailingWithout(sailing, [])).toBe(sailing);
    expect(sailingWithoutSteps(sailing)).toBe(sailing);
  });
});
