/**
 * The lesson of the wind triangle, run in Node.
 *
 * SOURCE: the true-wind test set of S. R. Smith and M. A. Bourassa, as in datasets/published/trueWind.json, with its place.
 * STATUS: numbers read in the repository named there.
 * INPUTS: records of a ship that goes where she points, typed into the page's boxes; the rest by hand.
 * MARGIN: the source's tolerance; else rounding, since the expected values are worked out here by another way: cosine law
 *   and complex numbers instead of components.
 */
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import data from "../../datasets/published/trueWind.json" with { type: "json" };
import windTriangle from "../../packages/notebooks/notebooks/the-wind-triangle.md";
import { meetingPicture } from "../../packages/notebooks/src/course/puff.ts";
import { picture } from "../../packages/notebooks/src/drawings/picture.ts";
import { isRight, numberTyped, type Question } from "../../packages/notebooks/src/exercises/exercise.ts";
import { type HeadlessRun, runNotebook } from "../../packages/notebooks/src/run/runNotebook.ts";
import { numberIn, outcomes } from "../support/notebook.ts";
import { agrees, published } from "../support/published.ts";

const ROUNDING = "rounding of a few operations";
const rad = (angle: number): number => (angle * Math.PI) / 180;
const deg = (angle: number): number => (angle * 180) / Math.PI;
const apart = (one: number, other: number): number => Math.abs(((one - other + 540) % 360) - 180);

let run: HeadlessRun;
beforeAll(async () => {
  run = await runNotebook(windTriangle);
});

const { fsuTestSet } = data;
fsuTestSet.records.forEach((record, index) => {
  if (record.cogDeg !== record.headingDeg) return;
  published(`record ${index + 1} typed into the page`, fsuTestSet.source, async () => {
    const typed = await runNotebook(windTriangle, {
      shownHeading: record.headingDeg,
      shownAngle: record.relWindDirDeg,
      shownSpeed: record.relWindSpeed,
      shownLog: record.sog,
    });
    const within = fsuTestSet.toleranceInSource;
    agrees(numberIn(typed, "foundSpeed"), record.expect.trueSpeed, within, "the tolerance of the source");
    const direction = numberIn(typed, "foundDirection");
    if (record.expect.calm) expect(direction).toBeNaN();
    else agrees(apart(direction, record.expect.trueDirDeg), 0, within, "the tolerance of the source");
  });
});

describe("the numbers of the page", () => {
  it("felt wind by the law of cosines", () => {
    const felt = Math.sqrt(12 ** 2 + 7 ** 2 + 2 * 12 * 7 * Math.cos(rad(60)));
    agrees(numberIn(run, "feltSpeed"), felt, 1e-12, ROUNDING);
    agrees(numberIn(run, "feltAngle"), deg(Math.acos((12 * Math.cos(rad(60)) + 7) / felt)), 1e-12, ROUNDING);
  });

  it("the jump between the tacks: the wind that is left when 8 % too little is taken away, by its sine and cosine", () => {
    // what is left over is 0.08 · 7 kn from ahead: (w cos β + 0.56, w sin β) against (w cos β, w sin β)
    const made = deg(Math.atan2(12 * Math.sin(rad(45)), 12 * Math.cos(rad(45)) + 0.08 * 7));
    agrees(numberIn(run, "jump"), 2 * (made - 45), 1e-11, ROUNDING);
  });

  it("3° at the vane are more at 45° to the wind, by turning the felt wind as a complex number", () => {
    const [ahead, across] = [12 * Math.cos(rad(45)) + 7, 12 * Math.sin(rad(45))];
    const [cosine, sine] = [Math.cos(rad(3)), Math.sin(rad(3))];
    const turned = Math.atan2(across * cosine + ahead * sine, ahead * cosine - across * sine - 7);
    agrees(numberIn(run, "turnedByVane"), deg(turned) - 45, 1e-11, ROUNDING);
  });

  it("the wind over the ground: 12 kn from 060°, less a stream of 2 kn that sets east", async () => {
    const { ground } = run.names() as { ground: { direction: number; speed: number } };
    const [east, north] = [12 * Math.sin(rad(60)) - 2, 12 * Math.cos(rad(60))];
    agrees(deg(ground.direction), deg(Math.atan2(east, north)), 1e-11, ROUNDING);
    agrees((ground.speed * 3600) / 1852, Math.hypot(east, north), 1e-12, ROUNDING);
  });

  it("the answers of the exercises: 6, 8 and 10; atan; atan", () => {
    const asked = run
      .cells()
      .flatMap(({ shown }) => shown)
      .flatMap((one) => (typeof one === "object" && "asked" in one ? [one.asked as Question] : []));
    const expected = [
      10,
      deg(Math.atan2(10, 20 * Math.cos(rad(30)) - 7)),
      deg(Math.atan2(10 / Math.SQRT2 - 2, 10 / Math.SQRT2)),
    ];
    expect(asked).toHaveLength(3);
    asked.forEach((question, index) => {
      agrees(question.answer, expected[index]!, 1e-12, ROUNDING);
      expect(isRight(expected[index]! + 0.9 * question.within, question)).toBe(true);
      expect(isRight(expected[index]! - 1.1 * question.within, question)).toBe(false);
      expect(isRight(Number.NaN, question)).toBe(false);
    });
    expect(isRight(395.5, asked[2]!)).toBe(true);
    expect(isRight(395.5, asked[1]!)).toBe(false);
  });

  it("are taken with a comma or a point, and with their unit; what is no number is none", () => {
    const typed = ["10", "10,5 kn", "036°", "−2.5", "-.5", "12 %", " 7. "].map(numberTyped);
    expect(typed).toEqual([10, 10.5, 36, -2.5, -0.5, 12, 7]);
    for (const none of ["", "abc", "1e3", "1,5,2", "10 minutes", "kn"])
      expect(numberTyped(none), none).toBeNaN();
  });
});

interface Point {
  readonly right: number;
  readonly up: number;
}
const pointIn = (of: HeadlessRun, name: string): Point => of.names()[name] as Point;

it("the puff meets the boat, and its bearing stands until then", async () => {
  const bearings: number[] = [];
  for (const share of [0, 37, 99, 100]) {
    await run.answer("sailed", { trueAngle: 60, trueSpeed: 12, boatSpeed: 7, share });
    const [puff, boat] = [pointIn(run, "puff"), pointIn(run, "boat")];
    const [right, up] = [puff.right - boat.right, puff.up - boat.up];
    if (share < 100) bearings.push(deg(Math.atan2(right, up)));
    else agrees(Math.hypot(right, up), 0, 1e-12, ROUNDING);
  }
  for (const bearing of bearings) agrees(bearing, numberIn(run, "feltAngle"), 1e-9, ROUNDING);
});

it("runs wherever the sliders stand, and draws no number that is none", async () => {
  const seen = new Set<string>();
  await fc.assert(
    fc.asyncProperty(
      fc.record({
        sailed: fc.record({
          trueAngle: fc.integer({ min: -180, max: 180 }),
          trueSpeed: fc.integer({ min: 0, max: 30 }),
          boatSpeed: fc.integer({ min: 0, max: 20 }),
          share: fc.integer({ min: 0, max: 100 }),
        }),
        heading: fc.integer({ min: 0, max: 355 }),
        set: fc.integer({ min: 0, max: 355 }),
        drift: fc.integer({ min: 0, max: 6 }),
        seenFrom: fc.constantFrom("the water", "the ground"),
      }),
      async (given) => {
        const anywhere = await runNotebook(windTriangle, given);
        expect(new Set(outcomes(anywhere))).toEqual(new Set(["done"]));
        const pictures = anywhere
          .cells()
          .flatMap(({ shown }) => shown.filter((one) => typeof one === "object" && "markup" in one));
        seen.add(given.seenFrom);
        pictures.push(picture(meetingPicture(given.sailed)));
        expect(JSON.stringify(pictures)).not.toMatch(/[" ]-?NaN/);
      },
    ),
    {
      numRuns: 60,
      examples: [
        [
          {
            sailed: { trueAngle: 180, trueSpeed: 7, boatSpeed: 7, share: 50 },
            heading: 0,
            set: 0,
            drift: 0,
            seenFrom: "the water",
          },
        ],
        [
          {
            sailed: { trueAngle: 0, trueSpeed: 0, boatSpeed: 0, share: 0 },
            heading: 0,
            set: 0,
            drift: 0,
            seenFrom: "the ground",
          },
        ],
      ],
    },
  );
  expect(seen.size).toBe(2);
});
