/**
 * INPUTS: an invented calibration: a normal fit of data of random information (tests/support/gaussianFits.ts).
 */
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { calibrationFileText } from "../../packages/core/src/calibration/calibrationFile.ts";
import type { QuantityName } from "../../packages/core/src/recording/readings.ts";
import { CAUTIONS } from "../../packages/core/src/report/cautions.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { calibrationFixture } from "../support/calibrationFixture.ts";
import { commandLine } from "../support/commandLine.ts";
import { drawBoat, drawInformation, gaussianFit } from "../support/gaussianFits.ts";

let folder: string;
const random = randomNumbers(30, 0);
const calibration = calibrationFixture(gaussianFit(drawBoat(random), drawInformation(random, -1), random), 0);
const all: readonly QuantityName[] = ["speedThroughWater", "heel", "speedOverGround", "courseOverGround"];
const chosen = [
  ...calibration.recording.chosen,
  ...all.map((quantity) => ({ source: { quantity, name: "X" }, why: "the only one", rate: 1 })),
];

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "bothtacks-plan-"));
  const whole = { ...calibration, recording: { ...calibration.recording, chosen } };
  await writeFile(join(folder, "a.json"), calibrationFileText(whole));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const planned = (...options: readonly string[]) => commandLine("plan", join(folder, "a.json"), ...options);
const inOneLine = (text: string): string => text.replaceAll(/\s+/g, " ");

describe("plan", () => {
  it("prints what to do, what it would tell, and cautions, no wider than a terminal", async () => {
    const { status, out, err } = await planned();
    expect({ status, err }).toEqual({ status: 0, err: "" });
    expect(inOneLine(out)).toMatch(
      /^What to sail next, in \d+ minutes.* 12 kn of wind, since none was given/,
    );
    expect(out).toMatch(/^ {2}1\. (Motor|Sail) /m);
    expect(out).toMatch(/direction between tacks, upwind +± \d+\.\d° +± \d+\.\d°/);
    for (const caution of CAUTIONS.slice(0, 2)) expect(inOneLine(out)).toContain(caution);
    expect(out).not.toMatch(/NaN|unknown|undefined/);
    expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThanOrEqual(92);
  });

  it("takes wind, minutes and a wish to stay under sail", async () => {
    const { status, out } = await planned(
      "--minutes",
      "30",
      "--wind",
      "9",
      "--wind-direction=210",
      "--under-sail",
    );
    expect(status).toBe(0);
    expect(inOneLine(out)).toContain("Reckoned for 9 kn of wind, from 210.");
    const minutes = Number(/in (\d+) minutes/.exec(out)?.[1]);
    expect(minutes).toBeLessThanOrEqual(30);
    expect(out).not.toContain("Motor");
  });

  it.each([
    ["--minutes", "7"],
    ["--minutes", "soon"],
    ["--wind", "-3"],
    ["--wind-direction", "361"],
  ])("is called wrongly with %s %s", async (option, value) => {
    const { status, err } = await planned(option, value);
    expect(status).toBe(2);
    expect(err).toContain(`${option} must be a number from`);
  });

  it("refuses what is no calibration", async () => {
    await writeFile(join(folder, "b.json"), "{}");
    const { status, err } = await commandLine("plan", join(folder, "b.json"));
    expect(status).toBe(1);
    expect(err).toContain("b.json");
  });
});
