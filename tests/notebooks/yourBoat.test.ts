/**
 * The page "Your boat" without a page: its notebook run in Node, its bench worked on the demo recording.
 *
 * INPUTS: the demo recording with its boat file, and the files that the command line writes for them.
 * MARGIN: none where the same engine did both; the files are the same text.
 */
import { copyFile, mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ANSWER_FILES } from "../../packages/core/src/job/answerFiles.ts";
import { plotlySource } from "../../packages/core/src/node/plotlySource.ts";
import notebook from "../../packages/notebooks/notebooks/your-boat.md";
import type { Answered } from "../../packages/notebooks/src/boat/bench.ts";
import type { YourBoat } from "../../packages/notebooks/src/boat/yourBoat.ts";
import { runNotebook } from "../../packages/notebooks/src/run/runNotebook.ts";
import { commandLineProcess } from "../support/commandLine.ts";
import { outcomes } from "../support/notebook.ts";

const demoFolder = fileURLToPath(new URL("../../datasets/demo/", import.meta.url));

let folder: string;
let boat: YourBoat;
let answered: Answered;
const shares: number[] = [];

const isYourBoat = (value: unknown): value is YourBoat =>
  typeof value === "object" && value !== null && "bench" in value;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "your-boat-"));
  for (const name of ["demo.nmea.gz", "boat.json"])
    await copyFile(join(demoFolder, name), join(folder, name));
  const run = await runNotebook(notebook);
  expect(outcomes(run)).toEqual(["done"]);
  const found = run.names().boat;
  if (!isYourBoat(found)) throw new TypeError("the notebook must name its bench `boat`");
  boat = found;
  boat.bench.listen(({ doing }) => {
    if (doing?.what.startsWith("reading")) shares.push(doing.share);
  });
  await boat.bench.openDemo(boat.demo);
  const { answered: found2, trouble } = boat.bench.state;
  if (!found2) throw new Error(trouble);
  answered = found2;
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe("the demo recording", () => {
  it("is read with a share done that rises from 0 to 1", () => {
    expect(shares.length).toBeGreaterThan(2);
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    expect(shares[0]).toBeGreaterThan(0);
    expect(shares.at(-1)).toBe(1);
  });

  it("leaves the same files as the command line, byte for byte", async () => {
    const job = ["calibrate", "demo.nmea.gz", "--boat", "boat.json", "--out", "out"];
    const { status, err } = await commandLineProcess(folder, ...job);
    expect(err).toBe("");
    expect(status).toBe(0);
    const written = (name: string): Promise<string> => readFile(join(folder, "out", name), "utf8");
    const { made } = JSON.parse(await written("calibration.json")) as { made: string };
    const own = (name: (typeof ANSWER_FILES)[number]) => boat.bench.fileText(name, plotlySource);
    const { made: here } = JSON.parse((await own("calibration.json")) ?? "") as { made: string };
    expect(Math.abs(Date.parse(here) / 1000 - answered.made)).toBeLessThan(1);
    for (const name of ANSWER_FILES)
      expect((await own(name))?.replaceAll(here, made) === (await written(name)), name).toBe(true);
  });
});
