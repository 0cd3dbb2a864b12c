import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { commandLine } from "../support/commandLine.ts";

const recorded = (name: string): string =>
  fileURLToPath(new URL(`../../datasets/recorded/${name}`, import.meta.url));
const LAKE = recorded("lake-race-2018.csv.gz");
const MAPPING = recorded("lake-race-2018.columns.json");

let folder: string;
const inFolder = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "bothtacks-columns-"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe("a log in columns that are not plain", () => {
  it("is refused by check, calibrate and apply in one line that says what to write", async () => {
    for (const outcome of [
      await commandLine("check", LAKE),
      await commandLine("calibrate", LAKE, "--out", inFolder("out")),
    ]) {
      expect(outcome.status).toBe(1);
      expect(outcome.err).toMatch(/^bothtacks: [^\n]+\n$/);
      expect(outcome.err).toContain(
        'the unit of column "aws" is not told; write "aws": {"quantity":"apparentWindSpeed","unit":"kn"}',
      );
    }
  });

  it("gives a mapping file to fill in, which is refused until it is", async () => {
    const path = inFolder("columns.json");
    const outcome = await commandLine("columns", LAKE, "--out", path);
    expect(outcome).toEqual({ status: 0, out: `${path}: 4 × "?" to be filled in.\n`, err: "" });
    const refused = await commandLine("check", LAKE, "--columns", path);
    expect(refused.status).toBe(1);
    expect(refused.err).toMatch(/columns\.json: time\.as\.format: expected /);
    const again = await commandLine("columns", LAKE, "--out", path);
    expect(again.err).toContain("is there already");
  });

  it("is read with the mapping file", async () => {
    const rows = Array.from({ length: 120 }, (_, second) => `${second},-30,10.5,,5.5,,`);
    await writeFile(inFolder("short.csv"), `t,awa,aws,hdg_true,boat_speed,cog,sog\n${rows.join("\n")}\n`);
    const { status, out } = await commandLine(
      "check",
      inFolder("short.csv"),
      "--columns",
      MAPPING,
      "--no-cache",
    );
    expect(status).toBe(0);
    expect(out).toContain("121 lines: 120 used, 1 ignored, 0 with problems. They are CSV rows.");
  });
});

describe("a mapping file", () => {
  it("is not there, or is something else", async () => {
    await writeFile(inFolder("boat.json"), '{"schema": "bothtacks-boat", "version": 1}');
    const absent = await commandLine("check", LAKE, "--columns", inFolder("absent.json"));
    expect(absent).toMatchObject({ status: 1, out: "" });
    expect(absent.err).toContain("there is no such file");
    const other = await commandLine("check", LAKE, "--columns", inFolder("boat.json"));
    expect(other.err).toContain('schema: expected "bothtacks-columns", received "bothtacks-boat"');
  });

  it("cannot be begun for what is no table", async () => {
    const outcome = await commandLine("columns", recorded("README.md"), "--out", inFolder("none.json"));
    expect(outcome).toMatchObject({ status: 1, out: "" });
    expect(outcome.err).toContain("not parted into fields");
  });
});
