import { mkdir, mkdtemp, readdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { commandLine, commandLineProcess, type Outcome } from "../support/commandLine.ts";

/** Repeatable bytes without any meaning. */
function noise(length: number): Uint8Array {
  let state = 1;
  return Uint8Array.from({ length }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state >>> 24;
  });
}

const PNG = Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 0x0d, ...noise(500)]);
const words = "It was a fine afternoon and nobody wrote down a single number.\n".repeat(200);

const LOGS: Readonly<Record<string, Uint8Array | string>> = {
  "empty.nmea": "",
  "binary.nmea": noise(50_000),
  "endless-line.nmea": "x".repeat(3_000_000),
  "zeros.nmea": new Uint8Array(100_000),
  "picture.png": PNG,
  "paper.pdf": `%PDF-1.7\n%\xe2\xe3\n${words}`,
  "prose.txt": words,
  "cut.nmea.gz": gzipSync(noise(50_000)).subarray(0, 20_000),
  "not-gzip.nmea.gz": Uint8Array.from([0x1f, 0x8b, ...noise(2000)]),
  "empty.nmea.gz": gzipSync(""),
  "header-cut.nmea.gz": gzipSync(words).subarray(0, 6),
};

let folder: string;
const inFolder = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "bothtacks-garbage-"));
  for (const [name, content] of Object.entries(LOGS)) await writeFile(inFolder(name), content);
  await writeFile(inFolder("newer.json"), '{"schema":"bothtacks-calibration","version":99}');
  await writeFile(inFolder("other.json"), '{"schema":"bothtacks-boat","version":1}');
  await writeFile(inFolder("list.json"), "[1, 2]");
  await writeFile(inFolder("boat-typo.json"), '{"mast_heigth_m": 15}');
  await mkdir(inFolder("folder"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** One line on standard error that names the file and says why, no trace, nothing on disk that was not there. */
async function expectRefusal(outcome: Outcome, status: number, named: string, because = ""): Promise<void> {
  expect(outcome.err).toMatch(/^bothtacks: [^\n]+\n$/);
  expect(outcome.err).toContain(named);
  expect(outcome.err).toContain(because);
  expect(outcome.err).not.toMatch(/unforeseen|\bat .*\.(ts|js|mjs):\d+/);
  expect(outcome.status).toBe(status);
  const left = (await readdir(folder)).filter((name) => name.includes("out") || name.includes("partial"));
  expect(left).toEqual([]);
}

describe.each(Object.keys(LOGS))("a log that is none: %s", (name) => {
  it("is refused by check", async () => {
    await expectRefusal(await commandLine("check", inFolder(name)), 1, inFolder(name));
  });

  it("is refused by calibrate", async () => {
    const outcome = await commandLine("calibrate", inFolder(name), "--out", inFolder("out"));
    await expectRefusal(outcome, 1, inFolder(name));
  });
});

describe("what is not there, or of the wrong kind", () => {
  it.each([
    ["absent.nmea", "there is no such file or folder"],
    ["folder", "there is no file in this folder"],
  ])("%s as a log", async (name, because) => {
    await expectRefusal(await commandLine("check", inFolder(name)), 1, inFolder(name), because);
    const outcome = await commandLine("calibrate", inFolder(name), "--out", inFolder("out"));
    await expectRefusal(outcome, 1, inFolder(name), because);
  });

  it.each([
    ["newer.json", "version: expected 1, received 99"],
    ["other.json", 'schema: expected "bothtacks-calibration", received "bothtacks-boat"'],
    ["list.json", "expected a JSON object"],
    ["empty.nmea", "an empty file"],
    ["picture.png", "text that is no JSON"],
    ["absent.json", "there is no such file"],
    ["folder", "is a folder"],
  ])("%s as a calibration", async (name, because) => {
    const applied = await commandLine(
      "apply",
      inFolder(name),
      inFolder("prose.txt"),
      "--out",
      inFolder("out.csv"),
    );
    await expectRefusal(applied, 1, inFolder(name), because);
    const from = ["--from", inFolder(name), "--out", inFolder("out")];
    await expectRefusal(
      await commandLine("calibrate", inFolder("prose.txt"), ...from),
      1,
      inFolder(name),
      because,
    );
  });

  it("a gzip log that ends within its header is broken, not empty", async () => {
    const outcome = await commandLine("check", inFolder("header-cut.nmea.gz"));
    await expectRefusal(outcome, 1, inFolder("header-cut.nmea.gz"), "ends before its data begin");
  });

  it("a boat file with a misspelt field", async () => {
    const boat = ["--boat", inFolder("boat-typo.json")];
    const outcome = await commandLine("calibrate", inFolder("prose.txt"), "--out", inFolder("out"), ...boat);
    await expectRefusal(outcome, 1, inFolder("boat-typo.json"), 'did you mean "mast_height_m"?');
  });

  it("a scenario that is none", async () => {
    const outcome = await commandLine("simulate", inFolder("list.json"), "--out", inFolder("out.nmea"));
    await expectRefusal(outcome, 1, inFolder("list.json"), "expected a JSON object");
  });
});

describe("a call that is wrong", () => {
  it.each([
    [[], "no command was given"],
    [["calibrat"], "did you mean calibrate?"],
    [["calibrate", "x.nmea"], "--out DIR is missing"],
    [["calibrate", "--out", "out"], "LOG is missing"],
    [["check"], "LOG is missing"],
    [["check", "x.nmea", "--fast"], "unknown option --fast"],
    [["apply", "c.json", "x.nmea"], "--out FILE is missing"],
    [["apply", "c.json", "--out", "out.csv"], "LOG is missing"],
    [["apply", "c.json", "x.nmea", "--out", "o", "--nmea", "o"], "must name two files"],
    [["simulate", "s.json", "--out"], "--out needs a FILE"],
  ])("%j", async (args, because) => {
    await expectRefusal(await commandLine(...args), 2, because);
  });
});

describe("the process", () => {
  it("reads and names files as the caller does, and passes the exit status on", async () => {
    const garbage = await commandLineProcess(folder, "check", "picture.png");
    await expectRefusal(garbage, 1, "picture.png");
    const wrong = await commandLineProcess(folder, "calibrate", "picture.png");
    await expectRefusal(wrong, 2, "--out DIR is missing");
    const help = await commandLineProcess(folder, "help");
    expect(help).toMatchObject({ status: 0, err: "" });
    expect(help.out).toContain("calibrate");
  });
});
