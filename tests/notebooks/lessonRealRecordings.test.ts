/**
 * The lesson of the real recordings, run in Node.
 * INPUTS: the open recordings of datasets/recorded. What is expected is counted in the files by other means (lines, and sentences by
 * their names), or is what the text of the lesson says; MARGIN: none, or how
 * far the text's round words reach.
 */
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import type { Calibrated } from "../../packages/core/src/job/answerOf.ts";
import lesson from "../../packages/notebooks/notebooks/real-recordings.md";
import { RECORDINGS } from "../../packages/notebooks/src/course/recordings.ts";
import { type HeadlessRun, runNotebook } from "../../packages/notebooks/src/run/runNotebook.ts";
import { numberIn, outcomes } from "../support/notebook.ts";
import { agrees } from "../support/published.ts";

const folder = new URL("../../datasets/recorded/", import.meta.url);
const textOf = (name: string): Promise<string> => readFile(fileURLToPath(new URL(name, folder)), "latin1");
const linesIn = async (name: string): Promise<number> =>
  (await textOf(name)).split("\n").filter((line) => line.trim() !== "").length;

let run: HeadlessRun;
beforeAll(async () => {
  run = await runNotebook(lesson);
});

const open = (words: string): Promise<void> => run.answer("opened", words);
const lines = (): unknown => run.names().lines;
const shown = (): string => JSON.stringify(run.cells().map((cell) => cell.shown));

describe("the recordings", () => {
  it("are the files, with the credit that lies beside each and the text of its licence", async () => {
    expect(RECORDINGS).toHaveLength(4);
    for (const { name, credit, licence, file } of RECORDINGS) {
      const note = await textOf(`${name}.LICENCE.txt`);
      for (const field of ["SPDX", "Source", "Commit", "Path", "Copyright", "Notes"])
        expect(note, name).toContain(credit[field]);
      expect(licence.length).toBeGreaterThan(900);
      const unzipped = new Response((await file()).stream().pipeThrough(new DecompressionStream("gzip")));
      expect(
        Buffer.from(await unzipped.arrayBuffer()).toString("latin1") === (await textOf(name)),
        name,
      ).toBe(true);
    }
  });
});

describe("each says what it can", () => {
  it("the lake: 11 minutes on one tack, a heading that is none, no correction", async () => {
    expect(new Set(outcomes(run))).toEqual(new Set(["done"]));
    expect(lines()).toMatchObject({ lines: await linesIn("lake-evening-2018.nmea"), problems: 0 });
    expect(numberIn(run, "tacks")).toBe(0);
    expect(shown()).toContain("No correction could be found.");
    expect(shown()).toContain("no compass");
  });

  it("the heel sensor: all its lines, one leg", async () => {
    await open("two minutes and a half with a heel sensor");
    expect(lines()).toMatchObject({ lines: await linesIn("heel-sentences-2018.nmea") });
    expect(shown()).toContain("1 leg, 0 tacks");
  });

  it("the river: 1,581 of 19,493 lines have problems, as the exercise says", async () => {
    await open("a river, over a bad line");
    expect(lines()).toMatchObject({ lines: 19_493, problems: 1581 });
    expect(shown()).toContain("No correction could be found.");
  });

  it("the bay: six tacks, and the numbers that the text tells", async () => {
    await open("a start in a tidal bay");
    expect(new Set(outcomes(run))).toEqual(new Set(["done"]));
    expect(lines()).toMatchObject({ lines: 16_586 });
    expect(numberIn(run, "tacks")).toBe(6);
    const { answer } = run.names().whole as Calibrated;
    if (answer.fit.status !== "solved" || answer.after === undefined)
      throw new Error("the bay must be solved");
    const { parameters } = answer.fit;
    const of = (name: string) => parameters.find((one) => one.name === name)!;
    agrees(of("speed.gain").value, -0.08, 0.01, "the text says: some 8 %");
    agrees((180 / Math.PI) * of("compass.a").value, 1, 0.5, "the text says: some 1°");
    agrees((180 / Math.PI) * of("vane.mastheadOffset").value, -4, 1, "the text says: some 4°");
    expect(Math.abs(of("compass.a").value) / (1.96 * of("compass.a").sd)).toBeLessThan(1);
    expect(answer.words.leaveAlone.join()).toContain("compass alignment");
    const [before, after] = [answer.before[0], answer.after[0]];
    expect(Math.abs(before.value)).toBeLessThan((2 * Math.PI) / 180);
    expect(Math.abs(after.value)).toBeLessThan(Math.PI / 180);
    for (const { value, sd } of [before, after]) {
      expect(1.96 * sd).toBeGreaterThan((4 * Math.PI) / 180);
      expect(Math.abs(value)).toBeLessThan(1.96 * sd);
    }
    const [speedBefore, speedAfter] = [answer.before[2], answer.after[2]];
    expect(Math.abs(speedBefore.value)).toBeGreaterThan(1.96 * speedBefore.sd);
    expect(Math.abs(speedAfter.value)).toBeLessThan(1.96 * speedAfter.sd);
    for (const name of [
      "vane.mastheadOffset",
      "speed.intercept",
      "heel.zero",
      "anemometer.gain",
      "anemometer.threshold",
    ])
      expect(of(name).informed, name).toBeLessThan(0.5);
  });
});
