/**
 * The lesson of compass and variation, run in Node.
 *
 * SOURCE: the handbook's table of eight points (datasets/published/compassDeviation.json); the World Magnetic Model's test
 *   values (datasets/published/wmm2025TestValues.txt); the conversion of a compass heading on boatsafe.com.
 * INPUTS: the page's own; the rest by trigonometry in degrees. MARGIN: rounding, but where a reason is given.
 */
import { beforeAll, describe, expect, it } from "vitest";
import table from "../../datasets/published/compassDeviation.json" with { type: "json" };
import lesson from "../../packages/notebooks/notebooks/compass-and-variation.md";
import { typedDeviations } from "../../packages/notebooks/notebooks/typedDeviations.ts";
import { type HeadlessRun, runNotebook } from "../../packages/notebooks/src/run/runNotebook.ts";
import { numberIn, outcomes } from "../support/notebook.ts";
import { agrees, published } from "../support/published.ts";

const ROUNDING = "rounding of some operations";
const WMM =
  "National Centers for Environmental Information, British Geological Survey, 2024, test values of WMM2025";
const rad = (angle: number): number => (angle * Math.PI) / 180;
const deg = (angle: number): number => (angle * 180) / Math.PI;

let run: HeadlessRun;
beforeAll(async () => {
  run = await runNotebook(lesson);
});

type Series = Readonly<Record<"a" | "b" | "c" | "d" | "e" | "heelingError", number>>;
interface Fitted {
  readonly status: string;
  readonly series: Series;
  readonly deviations: Series;
}
const fittedIn = (of: HeadlessRun): Fitted => of.names().fitted as Fitted;

it("all cells run, and with them every claim of the text", () => {
  expect(new Set(outcomes(run))).toEqual(new Set(["done"]));
});

published("the handbook's table by its rules, in degrees", table.source, () => {
  const [n, ne, e, se, s, sw, w, nw] = table.deviationDeg as unknown as Readonly<Record<number, number>> &
    readonly [number, number, number, number, number, number, number, number];
  const found = run.names().byRules as Series;
  agrees(deg(found.a), (n + ne + e + se + s + sw + w + nw) / 8, 1e-12, ROUNDING);
  agrees(deg(found.b), (e - w) / 2, 1e-12, ROUNDING);
  agrees(deg(found.c), (n - s) / 2, 1e-12, ROUNDING);
  agrees(deg(found.d), (ne + sw - se - nw) / 4, 1e-12, ROUNDING);
  agrees(deg(found.e), (n + s - e - w) / 4, 1e-12, ROUNDING);
});

published(
  "the same by least squares: projections on sine and cosine, orthogonal on eight points",
  table.source,
  () => {
    const { series } = fittedIn(run);
    const projected = (wave: (heading: number) => number, over: number): number =>
      table.headingDeg.reduce((sum, heading, at) => sum + table.deviationDeg[at]! * wave(rad(heading)), 0) /
      over;
    agrees(
      deg(series.a),
      projected(() => 1, 8),
      1e-10,
      ROUNDING,
    );
    agrees(deg(series.b), projected(Math.sin, 4), 1e-10, ROUNDING);
    agrees(deg(series.c), projected(Math.cos, 4), 1e-10, ROUNDING);
    agrees(
      deg(series.d),
      projected((at) => Math.sin(2 * at), 4),
      1e-10,
      ROUNDING,
    );
    agrees(
      deg(series.e),
      projected((at) => Math.cos(2 * at), 4),
      1e-10,
      ROUNDING,
    );
  },
);

published("variation at three places of 2025", WMM, () => {
  const [north, equator, south] = run.names().publishedRows as readonly [number, number, number];
  const because = "the table prints two decimals";
  agrees(north, 1.28, 0.0051, because);
  agrees(equator, -0.16, 0.0051, because);
  agrees(south, 68.78, 0.0051, because);
});

published("compass 164°, 7° W, 5° W", "boatsafe.com, true heading 152°", () => {
  agrees(numberIn(run, "fromCompass"), 152, 0, "whole degrees");
});

describe("the numbers of the page", () => {
  it("a stream of half a knot at six turns the course by asin and writes B and C alone", async () => {
    agrees(
      numberIn(run, "worst"),
      deg(Math.asin(0.5 / 6)),
      0.02,
      "the heading of the largest lies between steps of 5°",
    );
    const sham = run.names().sham as Series;
    // toward east: the course turns east on north, so C is positive, and west on south
    expect(deg(sham.c)).toBeGreaterThan(4.7);
    agrees(deg(sham.b), 0, 1e-9, ROUNDING);
    const still = await runNotebook(lesson, { drift: 0 });
    agrees(numberIn(still, "worst"), 0, 1e-9, ROUNDING);
  });

  it("0.2° a degree at 20° of heel part the tacks by 8° on north", () => {
    agrees(numberIn(run, "tacksApart"), -8, 1e-9, ROUNDING);
  });

  it("A and variation are found as their sum", async () => {
    const other = await runNotebook(lesson, { askew: 1, keyedIn: -4 });
    agrees(numberIn(other, "hereSays"), numberIn(run, "hereSays"), 1e-9, ROUNDING);
    const moved = numberIn(run, "thereSays") - numberIn(run, "hereSays");
    agrees(moved, numberIn(run, "farWest") - numberIn(run, "variation"), 1e-9, ROUNDING);
  });
});

describe("a circle typed in", () => {
  it("with heel, on both tacks: the heeling error comes back", async () => {
    const lines = [0, 60, 120, 180, 240, 300].flatMap((heading) =>
      [20, -20].map((heel) => {
        const off = 1 + 6 * Math.sin(rad(heading)) + (2 + 0.25 * heel) * Math.cos(rad(heading));
        return `${heading} ${off.toFixed(6)} ${heel}`;
      }),
    );
    const { series } = fittedIn(await runNotebook(lesson, { typed: lines.join("\n") }));
    agrees(series.heelingError, 0.25, 1e-6, "six decimals were typed");
    agrees(deg(series.b), 6, 1e-5, "six decimals were typed");
    agrees(deg(series.c), 2, 1e-5, "six decimals were typed");
  });

  it("may come in a file, which counts in place of what is typed", async () => {
    const lines = [0, 60, 120, 180, 240, 300].map((heading) => `${heading} 2.5E`).join("\n");
    const { series } = fittedIn(await runNotebook(lesson, { dropped: [new File([lines], "circle.txt")] }));
    agrees(deg(series.a), 2.5, 1e-6, "rounding of a solved system of five");
  });

  it("of four headings is refused in words, and nothing below waits for it", async () => {
    const four = await runNotebook(lesson, { typed: "N 10.5E\nE 11.5E\nS 5.5W\nW 12.5W" });
    expect(new Set(outcomes(four))).toEqual(new Set(["done"]));
    expect(four.names().why).toMatch(/^Five terms need five headings/);
  });

  it("may have the side apart from the number, and small letters", () => {
    const { seen, hasHeels, problem } = typedDeviations("n 10.5 E -20\nsw 8 w 15\n350° 2.5° W\t1");
    expect([problem, hasHeels]).toEqual(["", true]);
    for (const [at, [heading, deviation, heel]] of (
      [
        [0, 10.5, -20],
        [225, -8, 15],
        [350, -2.5, 1],
      ] as const
    ).entries()) {
      agrees(deg(seen[at]!.heading), heading, 1e-12, ROUNDING);
      agrees(deg(seen[at]!.deviation), deviation, 1e-12, ROUNDING);
      agrees(deg(seen[at]!.heel!), heel, 1e-12, ROUNDING);
    }
  });

  it("is told which line is wrong", () => {
    expect(typedDeviations("N 1\nNNE 2").problem).toMatch(/Line 2: "NNE" is no number/);
    expect(typedDeviations("10").problem).toMatch(/Line 1: needs/);
    expect(typedDeviations("# at the quay\nN 200E").problem).toMatch(/Line 2: "200E" is too large/);
    expect(typedDeviations("10 1 5\n20 2").problem).toMatch(/on all lines or on none/);
    const [one] = typedDeviations("350 −2,5").seen;
    agrees(deg(one!.deviation), -2.5, 1e-12, ROUNDING);
    agrees(deg(typedDeviations("350° 2.5W").seen[0]!.deviation), -2.5, 1e-12, ROUNDING);
  });
});

it("runs wherever the inputs stand", async () => {
  for (const given of [
    { a: -6, b: 12, c: 12, d: 6, e: -6, drift: 2, motoring: 3, set: 345, perHeel: -0.4, heel: 0 },
    { latitude: -80, longitude: 180, year: 2015, goodTo: 10 },
  ])
    expect(new Set(outcomes(await runNotebook(lesson, given)))).toEqual(new Set(["done"]));
});
