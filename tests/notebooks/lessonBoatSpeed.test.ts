/**
 * The lesson of boat speed, run in Node.
 * INPUTS: the page's own; the mean of means as published (datasets/published/speedTrials.json); runs typed in that are worked out
 * here from a stated current. MARGIN: rounding, but where a reason is given.
 */
import { beforeAll, describe, expect, it } from "vitest";
import data from "../../datasets/published/speedTrials.json" with { type: "json" };
import lesson from "../../packages/notebooks/notebooks/boat-speed-first.md";
import { streamAt, type TidalTrial, tidalRuns } from "../../packages/notebooks/notebooks/tidalRuns.ts";
import { typedRuns } from "../../packages/notebooks/notebooks/typedRuns.ts";
import { type HeadlessRun, runNotebook } from "../../packages/notebooks/src/run/runNotebook.ts";
import { numberIn, outcomes } from "../support/notebook.ts";
import { agrees, published } from "../support/published.ts";

const ROUNDING = "rounding of some operations";
const KNOT = 1852 / 3600;

let run: HeadlessRun;
beforeAll(async () => {
  run = await runNotebook(lesson);
});

it("all cells run, and with them every claim of the text", () => {
  expect(new Set(outcomes(run))).toEqual(new Set(["done"]));
});

published("the second exercise is the mean of means", data.meanOfMeans.source, () => {
  agrees(numberIn(run, "published"), data.meanOfMeans.expect, 1e-12, ROUNDING);
});

published("four runs in equal intervals are free of a parabola", data.fourRuns.source, async () => {
  // a stream that hardly bends within the runs is a parabola but for its third power, c‴t³/6 with c‴ of (2π/12.42)³ · 0.1 kn/h³
  const gentle = await runNotebook(lesson, { stream: 0.1, after: 0, count: 4, turning: 1 });
  agrees(numberIn(gentle, "byMeans"), 6, 5e-4, "intervals differ by the time that 0.1 kn of stream makes");
  agrees(
    numberIn(gentle, "bySquares"),
    6,
    2e-4,
    "the third power of the stream over 0.8 h: 0.1 · 0.13 · 0.5/6 kn",
  );
});

describe("the numbers of the page", () => {
  it("what hangs on a log that reads 6 % low: the headwind left over, 6 % of the speed, from ahead", () => {
    const speed = 7.5 * (1 - Math.exp(-14 / 7)) * (0.75 + 0.25 * Math.sin((42 * Math.PI) / 180) ** 2);
    const angle = (42 * Math.PI) / 180;
    const made = Math.atan2(14 * Math.sin(angle), 14 * Math.cos(angle) + 0.06 * speed);
    agrees(numberIn(run, "jump"), (2 * (made - angle) * 180) / Math.PI, 1e-9, ROUNDING);
    agrees(numberIn(run, "phantom"), 0.06 * speed, 1e-12, ROUNDING);
    agrees(numberIn(run, "leewayShare"), -11.64, 1e-9, ROUNDING);
  });

  it("a run's distance is what boat and stream make of its time, by summing many short steps", () => {
    const trial: TidalTrial = { speed: 6, stream: 2, after: 0.5, count: 4, turning: 5 };
    for (const { start, end, way } of tidalRuns(trial)) {
      const steps = 20_000;
      const step = (end - start) / steps;
      let covered = 0;
      for (let at = 0; at < steps; at++)
        covered += (6 + way * streamAt(trial, start + (at + 0.5) * step)) * KNOT * step;
      agrees(covered, 1852, 1e-3, "midpoint rule, and a time found to a microsecond");
    }
  });

  it("in a steady stream: miles over time are the harmonic mean", () => {
    // 3 h after slack the stream of 12.42 h is near its top, 2 kn · sin(2π · 3.1/12.42) = 2.00
    const runs = tidalRuns({ speed: 6, stream: 2, after: 2.9, count: 2, turning: 1 });
    const speeds = runs.map(({ start, end }) => 1852 / (end - start) / KNOT);
    agrees(speeds[0]!, 8, 0.01, "cos of 0.1 h in 12.42 h");
    agrees(speeds[1]!, 4, 0.01, "cos of 0.3 h in 12.42 h");
  });

  it("one factor at 6 kn leaves 0.2 kn at 3 kn, for an intercept of 0.4 kn", () => {
    // factor 6/(5.6/g); at 3 kn it shows 2.6/g · 6g/5.6
    agrees(numberIn(run, "leftAtThree"), (2.6 * 6) / 5.6 - 3, 1e-9, ROUNDING);
  });
});

describe("runs typed in", () => {
  const solved = (of: HeadlessRun) => of.names().own as Record<string, number> & { status: string };

  it("the invented table gives back what it was made with: 0.4 kn and 1.05", () => {
    const own = solved(run);
    expect(own.status).toBe("solved");
    agrees(own.gain!, 1.05, 2 * own.gainDeviation!, "two standard deviations of the fit");
    agrees(own.intercept!, 0.4 * KNOT, 2 * own.interceptDeviation!, "two standard deviations of the fit");
  });

  it("8 kn there and 4 kn back are 6 kn, with the log left out, past midnight", async () => {
    const typed = "23:55:00 00:02:30 there\n00:10:00;00:25:00;back\n";
    const own = solved(await runNotebook(lesson, { typed }));
    agrees(own.speed!, 6 * KNOT, 1e-9, ROUNDING);
    agrees(own.deviation!, (0.05 * KNOT) / Math.SQRT2, 1e-9, ROUNDING);
  });

  it("may come in a file, which counts in place of what is typed", async () => {
    const lines = "23:55:00 00:02:30 there\n00:10:00;00:25:00;back\n";
    const own = solved(await runNotebook(lesson, { dropped: [new File([lines], "runs.txt")] }));
    agrees(own.speed!, 6 * KNOT, 1e-9, ROUNDING);
  });

  it("are refused in words where they go one way, are too few or all alike", async () => {
    const why = async (typed: string): Promise<unknown> => {
      const refused = await runNotebook(lesson, { typed });
      expect(new Set(outcomes(refused))).toEqual(new Set(["done"]));
      return refused.names().why;
    };
    expect(await why("10:00:00 10:10:00 there 5\n10:12:00 10:22:00 there 6")).toMatch(/one way/);
    expect(await why("10:00:00 10:10:00 there 5\n10:12:00 10:22:00 back 6")).toMatch(/Too few/);
    expect(
      await why("10:00:00 10:10:00 there 5\n10:12:00 10:22:00 back 5\n10:30:00 10:39:00 there 5"),
    ).toMatch(/another speed/);
    expect(await why("")).toMatch(/Too few/);
  });

  it("may pass midnight, have notes between them, and be written in capitals", () => {
    const { runs, problem } = typedRuns(
      "# Tuesday\n23:55:00 00:05:00 There\n00:10:00\t00:21:00\tBACK\n",
      1852,
    );
    expect(problem).toBe("");
    expect(runs.map(({ start, end, way }) => [start, end, way])).toEqual([
      [86100, 86700, 1],
      [87000, 87660, -1],
    ]);
  });

  it("that scatter by far more than they were said to are sent back to be looked through", async () => {
    const runs = [
      "10:00:00 10:10:00 there",
      "10:12:00 10:22:00 back",
      "10:24:00 10:34:00 there",
      "10:36:00 10:46:00 back",
    ];
    const shown = async (more: string): Promise<string> => {
      const typed = [...runs, more].join("\n");
      return JSON.stringify((await runNotebook(lesson, { typed })).cells());
    };
    expect(await shown("10:48:00 10:58:00 there")).not.toContain("look for a slip");
    // four miles and a half in place of the mile
    expect(await shown("10:48:00 10:50:13 there")).toContain("look for a slip");
  });

  it("are told which line is no run", () => {
    const told: [string, RegExp][] = [
      ["10:00 10:10:00 there", /Line 1: "10:00" is no time/],
      ["10:00:00 10:10:00 there\n10:00:00 10:10:00 up", /Line 2: "up" must be/],
      ["# by the mark\n\n25:00:00 10:10:00 there", /Line 3: "25:00:00" is no time/],
      ["10:00:60 10:10:00 there", /"10:00:60" is no time/],
      ["10:10:00 10:00:00 there", /Line 1: the run ends before it starts/],
      ["10:00:00 10:10:00 there\n10:05:00 10:15:00 back", /Line 2: starts before the run above it has ended/],
      ["10:00:00 10:10:00", /Line 1: needs a start/],
      ["10:00:00 10:10:00 there x", /no reading/],
      ["10:00:00 10:00:00 there", /ends when it starts/],
      ["10:00:00 10:10:00 there 5\n10:20:00 10:30:00 back", /on all lines or on none/],
    ];
    for (const [text, words] of told)
      expect(typedRuns(text, 1852)).toMatchObject({ runs: [], problem: expect.stringMatching(words) });
    agrees(typedRuns("10:00:00 10:10:00 there 5,4", 1852).runs[0]!.reading!, 5.4 * KNOT, 1e-12, ROUNDING);
  });
});

it("runs wherever the sliders stand", async () => {
  for (const given of [
    { stream: 3, after: -3, count: 6, turning: 30 },
    { stream: 0, after: 3, count: 2, turning: 1 },
    { stream: 3, after: 3, count: 3, turning: 1, intercept: 0.8, calibratedAt: 3, logLow: 15 },
  ])
    expect(new Set(outcomes(await runNotebook(lesson, given)))).toEqual(new Set(["done"]));
});
