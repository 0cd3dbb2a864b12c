/**
 * Legs and turns of open recordings (datasets/recorded, with their licences). Guards change; proves nothing: nobody published
 * what the boats did. That the wind changed sides six times, each time across the bow, can be read off the VWR sentences.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { Nmea0183Reader } from "../../packages/core/src/recording/nmea0183Reader.ts";
import type { QuantityName } from "../../packages/core/src/recording/readings.ts";
import { SecondsAligner } from "../../packages/core/src/sailing/clock.ts";
import { LagEstimator } from "../../packages/core/src/sailing/lags.ts";
import type { SecondsBlock } from "../../packages/core/src/sailing/series.ts";
import { summariseSailing } from "../../packages/core/src/sailing/summary.ts";

/** The seconds of a recording, of each quantity the source that the log names first. */
function secondsOf(name: string): SecondsBlock[] {
  const path = new URL(`../../datasets/recorded/${name}`, import.meta.url);
  const reader = new Nmea0183Reader({ file: name });
  const batches = [...reader.push(readFileSync(path)), ...reader.finish()];
  const chosen: Partial<Record<QuantityName, number>> = {};
  reader.sources.forEach(({ quantity }, index) => {
    chosen[quantity] ??= index;
  });
  const aligner = new SecondsAligner({ chosen });
  return [...batches.flatMap((batch) => aligner.push(batch)), ...aligner.finish()];
}

describe("the tidal bay of 2008", () => {
  const blocks = secondsOf("bay-start-2008.nmea");
  const { legs, turns, rows } = summariseSailing(blocks);

  it("shows its six changes of tack, between legs on alternating tacks", () => {
    expect(turns.filter(({ kind }) => kind === "tack")).toHaveLength(6);
    expect(turns.filter(({ kind }) => kind === "gybe")).toHaveLength(0);
    const tacks = legs.map(({ tack }) => tack).filter((tack, index, all) => tack !== all[index - 1]);
    expect(tacks).toEqual(["port", "starboard", "port", "starboard", "port", "starboard", "port"]);
  });

  it("gives over twenty minutes of rows, all under sail", () => {
    expect(rows.every(({ kind }) => kind === "sailing")).toBe(true);
    expect(rows.reduce((sum, { count }) => sum + count, 0)).toBeGreaterThan(1200);
  });

  it("shows a course over ground seconds behind the compass", () => {
    const estimator = new LagEstimator();
    for (const block of blocks) estimator.push(block);
    const { course, wind } = estimator.lags();
    expect(course.seconds).toBeGreaterThan(4);
    expect(Math.abs(wind.seconds)).toBeLessThan(2);
  });
});

describe("the lake evening of 2018", () => {
  const { legs, turns } = summariseSailing(secondsOf("lake-evening-2018.nmea"));

  it("is one leg on starboard, without a turn", () => {
    expect(legs.map(({ kind, tack }) => [kind, tack])).toEqual([["sailing", "starboard"]]);
    expect(turns).toEqual([]);
  });
});
