/**
 * Two sensors that talk in turn under one name are told apart, left out and told in words (M96); a wave is no second sensor.
 * INPUTS: a simulated log with a second wind sensor under the first one's name for a while; readings made of sines.
 * MARGIN: two minutes of the times, which are judged by the minute; the size to 0.3°, six times the rounding of the log.
 */
import { describe, expect, it } from "vitest";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import type { LogSource } from "../../packages/core/src/job/logSource.ts";
import { summariseLogs } from "../../packages/core/src/job/summariseLogs.ts";
import type { Readings, Source } from "../../packages/core/src/recording/readings.ts";
import { printedCheck } from "../../packages/core/src/report/checkText.ts";
import { recordingSection } from "../../packages/core/src/report/page/recordingSection.ts";
import { MixedStreams, mixedTroubles } from "../../packages/core/src/sailing/mixedStreams.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import type { SensorTrouble } from "../../packages/core/src/simulate/sensorTroubles.ts";
import { linesOfSail } from "../../packages/core/src/simulate/simulatedLog.ts";
import { simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { radians } from "../../packages/core/src/units.ts";

const scenario = drawScenario(8101, { seconds: 2400, motoring: false });

function logOf(troubles: readonly SensorTrouble[], length = Number.POSITIVE_INFINITY): LogSource {
  const text = [...linesOfSail(simulatedSail({ ...scenario, troubles }))].join("\r\n");
  const bytes = new TextEncoder().encode(text);
  const step = Math.min(length, bytes.length);
  return {
    name: "sail.nmea",
    chunks: {
      async *[Symbol.asyncIterator]() {
        for (let from = 0; from < bytes.length; from += step) yield bytes.subarray(from, from + step);
      },
    },
  };
}

const second: SensorTrouble = {
  kind: "second wind sensor",
  talker: "WI",
  angle: radians(6),
  factor: 1,
  at: 900,
  seconds: 600,
};

describe("two wind sensors under one name", () => {
  it("are told with their times and left out, however the log comes in", async () => {
    const { sailing, recording, health } = await summariseLogs([logOf([second])], UNKNOWN_BOAT);
    expect(sailing.troubles).toMatchObject([{ kind: "mixed", channel: "awa", remedy: "rows left out" }]);
    const [trouble] = sailing.troubles;
    expect(Math.abs(trouble!.start - scenario.start - 900)).toBeLessThan(120);
    expect(Math.abs(trouble!.end - scenario.start - 1500)).toBeLessThan(120);
    expect(Math.abs(trouble!.size - radians(6))).toBeLessThan(radians(0.3));
    const within = sailing.rows.filter(({ start }) => start >= trouble!.start && start < trouble!.end);
    expect(within).toEqual([]);
    const recorded = { recording, ...sailing };
    const said =
      /Two sensors told the wind angle under one name from \d\d:\d\d to \d\d:\d\d UTC, [56]\.\d° apart/;
    expect(printedCheck({ ...recorded, rows: sailing.rows, health }).replace(/\s+/g, " ")).toMatch(said);
    expect(recordingSection(recorded).markup.replaceAll("\u00a0", " ")).toMatch(said);
    const pieces = await summariseLogs([logOf([second], 999)], UNKNOWN_BOAT);
    expect(pieces.sailing).toEqual(sailing);
  });

  it("are told, and used, where there is hardly anything else", async () => {
    const always = { ...second, at: 0, seconds: 9000 };
    const { sailing } = await summariseLogs([logOf([always])], UNKNOWN_BOAT);
    expect(sailing.troubles).toMatchObject([{ kind: "mixed", remedy: "nothing left out" }]);
    expect(sailing.rows.length).toBeGreaterThan(30);
  });

  it("are not seen where there is one", async () => {
    const { sailing } = await summariseLogs([logOf([])], UNKNOWN_BOAT);
    expect(sailing.troubles).toEqual([]);
  });
});

describe("readings that go up and down", () => {
  const sources: readonly Source[] = [{ quantity: "apparentWindAngle", name: "WI MWV" }];
  const found = (value: (second: number) => number) => {
    const length = 600;
    const of = (from: (second: number) => number) =>
      Float64Array.from({ length }, (_, second) => from(second));
    const readings: Readings = {
      length,
      time: of((one) => one),
      source: new Uint16Array(length),
      value: of(value),
    };
    const streams = new MixedStreams();
    streams.add(readings, sources);
    return mixedTroubles([streams.finish()], sources);
  };

  it("in turn are two sensors", () => {
    expect(found((second) => 0.1 * (second % 2) + 0.03 * Math.sin(second))).toHaveLength(1);
  });

  it.each([0.3, 0.4, 0.45, 0.48])("with the waves are one (%f Hz)", (frequency) => {
    expect(found((second) => 0.1 * Math.sin(2 * Math.PI * frequency * second))).toEqual([]);
  });
});
