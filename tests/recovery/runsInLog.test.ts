/**
 * Straight runs under power found in a log (M134), and the speed sensor found from them.
 * INPUTS: the demo's boat, water and faults (datasets/demo/scenario.json) with another plan: runs there and back at two speeds.
 * MARGIN: the sensor's own interval, which holds the truth 95 times in 100.
 */
import { describe, expect, it } from "vitest";
import demo from "../../datasets/demo/scenario.json" with { type: "json" };
import { runsAmongPieces, runsInLog } from "../../packages/core/src/fit/runsInLog.ts";
import { speedFromRuns } from "../../packages/core/src/fit/speedFromRuns.ts";
import { straightPieces } from "../../packages/core/src/fit/straightPieces.ts";
import { summariseSailing } from "../../packages/core/src/sailing/summary.ts";
import { scenarioFromFile } from "../../packages/core/src/simulate/scenarioFile.ts";
import { simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { secondsOfSail } from "../../packages/core/src/simulate/simulatedSeconds.ts";
import { METRES_PER_SECOND_IN_A_KNOT as KNOT } from "../../packages/core/src/units.ts";
import { handmadeRow } from "../support/handmadeRows.ts";
import { agrees } from "../support/published.ts";

const run = (heading_deg: number, speed_kn: number) => ({
  kind: "motor",
  heading_deg,
  speed_kn,
  seconds: 240,
});

/** Rows of an outing under power. */
function rowsOf(plan: readonly unknown[]) {
  const text = JSON.stringify({ ...demo, plan });
  return summariseSailing(secondsOfSail(simulatedSail(scenarioFromFile(text, "runs.json")))).rows;
}

describe("runs in a log", () => {
  it("tell the speed sensor, the current taken out", () => {
    const plan = [4.5, 4.5, 6.5, 6.5].flatMap((speed) => [run(228, speed), run(48, speed)]);
    const runs = runsInLog(rowsOf(plan));
    expect(runs.length).toBeGreaterThanOrEqual(6);
    expect(new Set(runs.map(({ way }) => way)).size).toBe(2);
    const found = speedFromRuns(runs, { deviation: 0.05 * KNOT, stream: 2 * KNOT });
    if (found.status === "unsolved") throw new Error(found.reason);
    for (const { reading, gain, half } of found.gains) {
      // upright under power both tacks' gains meet; the deficit of 0.2 kn at 5 kn falls in half with speed
      const truth = 0.95 + (0.1 * KNOT * (1 + (5 * KNOT) / (0.95 * reading))) / reading;
      agrees(gain, truth, half, "the sensor's own interval");
      expect(half).toBeLessThan(0.04);
    }
  });

  it("are found in a log of runs alone whatever the wind, and not where much else was sailed", () => {
    // beam reaching, by her wind: to the recognition of motoring she sails
    const straight = (heading: number, from: number, seconds: number) =>
      Array.from({ length: seconds }, (_, at) => ({
        time: from + at,
        heading,
        variation: 0,
        stw: 2.8,
        east: 3 * Math.sin(heading) + 0.2,
        north: 3 * Math.cos(heading),
        awa: 1.2,
        aws: 6,
      }));
    const log = [...straight(1, 0, 240), ...straight(1 + Math.PI, 300, 240)];
    const runs = runsAmongPieces(straightPieces(log));
    expect(runs.map(({ way }) => way)).toEqual([1, -1]);
    for (const { distance, start, end, way, wind, ahead } of runs) {
      const speed = 3 + way * 0.2 * Math.sin(1);
      agrees(distance / (end - start), speed, 1e-9, "exact but for rounding");
      agrees(wind, 6, 1e-9, "likewise");
      agrees(ahead, Math.cos(1.2), 1e-9, "likewise");
    }
    const mixed = [...log, ...straight(2.4, 600, 400), ...straight(2.4, 1100, 400)];
    expect(runsAmongPieces(straightPieces(mixed))).toEqual([]);
    // a circle of four minutes is no leg
    const circle = log.map((second, at) => ({ ...second, heading: (at * Math.PI) / 120 }));
    expect(runsAmongPieces(straightPieces(circle))).toEqual([]);
  });

  it("are none where she motored one way, or along no line twice", () => {
    const leg = (number: number, heading: number) =>
      [0, 1, 2].map((at) =>
        handmadeRow({
          leg: number,
          at: 120 * number + 30 * at,
          kind: "motoring",
          mean: {
            heading,
            stw: 3,
            east: 3 * Math.sin(heading),
            north: 3 * Math.cos(heading),
            awa: 0.1,
            aws: 5,
          },
        }),
      );
    expect(runsInLog([...leg(0, 1), ...leg(1, 1.05)])).toEqual([]);
    expect(runsInLog([...leg(0, 1), ...leg(1, 2.6)])).toEqual([]);
    expect(runsInLog([...leg(0, 1), ...leg(1, 1 + Math.PI)])).toHaveLength(2);
    expect(runsInLog([])).toEqual([]);
  });

  it("are no circles, one to each side though they be", () => {
    const circle = (turns: number) => ({ kind: "circle", turns, rate_deg_per_s: 3, speed_kn: 5 });
    expect(runsInLog(rowsOf([circle(1), circle(-1), circle(1), circle(-1)]))).toEqual([]);
  });
});
