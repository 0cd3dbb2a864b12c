import { copyFile, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { angleBetween } from "../../packages/core/src/angles.ts";
import type { Calibration } from "../../packages/core/src/calibration/calibration.ts";
import { calibrationFromFile } from "../../packages/core/src/calibration/calibrationFile.ts";
import { toKeyInFromFile } from "../../packages/core/src/calibration/recordFiles.ts";
import { settingsInFile } from "../../packages/core/src/calibration/settingsFile.ts";
import { goodLog } from "../support/boatLogs.ts";
import { commandLine, type Outcome } from "../support/commandLine.ts";
import { agrees } from "../support/published.ts";
import { wholeCsv } from "../support/wholeCsv.ts";
import { wholeLog } from "../support/wholeLog.ts";

const demo = (name: string): string => fileURLToPath(new URL(`../../datasets/demo/${name}`, import.meta.url));

let folder: string;
const inFolder = (...names: readonly string[]): string => join(folder, ...names);
const calibrationIn = async (name: string): Promise<Calibration> =>
  calibrationFromFile(await readFile(inFolder(name, "calibration.json"), "utf8"), name);

let first: Outcome;
let second: Outcome;

/**
 * The demonstration recording calibrated; then the same sail simulated again with all that was found keyed into the instruments,
 * and that log calibrated in its turn.
 */
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "bothtacks-rounds-"));
  await mkdir(inFolder("boat"));
  await copyFile(demo("boat.json"), inFolder("boat", "boat.json"));
  const boat = ["--boat", inFolder("boat")];
  first = await commandLine("calibrate", demo("demo.nmea.gz"), ...boat, "--out", inFolder("first"));
  const { fit } = await calibrationIn("first");
  const scenario: { log: object } = JSON.parse(await readFile(demo("scenario.json"), "utf8"));
  const log = { ...scenario.log, active_settings: settingsInFile(fit.settings) };
  await writeFile(inFolder("scenario.json"), JSON.stringify({ ...scenario, log }));
  await commandLine("simulate", inFolder("scenario.json"), "--out", inFolder("keyed.nmea"));
  const from = ["--from", inFolder("first", "calibration.json"), "--out", inFolder("second")];
  second = await commandLine("calibrate", inFolder("keyed.nmea"), ...from);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe("calibrating a recording", () => {
  it("prints the answer and writes calibration, tables and report", async () => {
    expect(first).toMatchObject({ status: 0, err: "" });
    expect(first.out).toContain("Key in");
    expect((await readdir(inFolder("first"))).sort()).toEqual([
      "calibration.json",
      "report.html",
      "tables.csv",
    ]);
  });

  it("brings the tacks together: what is left is within its interval, what was there is not", async () => {
    const { before, after } = await calibrationIn("first");
    expect(Math.abs(before[0].value)).toBeGreaterThan(3 * before[0].sd);
    expect(Math.abs(after[0].value)).toBeLessThan(1.96 * after[0].sd);
  });
});

describe("the boat's history", () => {
  it("keeps the calibration and what is to be keyed in, rounded", async () => {
    const kept = await readdir(inFolder("boat", "history"));
    expect(kept.sort()).toEqual(["20260613T110500Z-calibration.json", "20260613T110500Z-to-key-in.json"]);
    const text = await readFile(inFolder("boat", "history", kept[0]!), "utf8");
    expect(text).toBe(await readFile(inFolder("first", "calibration.json"), "utf8"));
    expect(first.out).toContain("Once it is keyed in: bothtacks entered");
    const { settings } = toKeyInFromFile(
      await readFile(inFolder("boat", "history", kept[1]!), "utf8"),
      "to-key-in.json",
    );
    const { fit } = await calibrationIn("first");
    agrees(
      settings.active.vane.mastheadOffset,
      fit.settings.vane.mastheadOffset,
      0.5 / 57.29,
      "half a degree",
    );
  });

  it("tells the state of each sensor, and what was entered makes it keyed in", async () => {
    const proposal = inFolder("boat", "history", "20260613T110500Z-to-key-in.json");
    const before = await commandLine("state", "--boat", inFolder("boat"));
    expect(before).toMatchObject({ status: 0, err: "" });
    expect(before.out).toMatch(/masthead offset.*holds, not keyed in/);
    const at = ["--at", "2026-06-14T08:00Z"];
    const entered = await commandLine("entered", proposal, "--boat", inFolder("boat"), ...at);
    expect(entered).toMatchObject({ status: 0, err: "" });
    // 2.4° in truth, in whole degrees
    expect(entered.out).toMatch(/vane\.masthead_offset_deg: 0 to [23]\n/);
    const after = await commandLine("state", "--boat", inFolder("boat"), "--page", inFolder("state.html"));
    expect(after.out).toMatch(/masthead offset.*holds, keyed in/);
    expect(Math.max(...after.out.split("\n").map((line) => line.length))).toBeLessThanOrEqual(92);
    expect(await readFile(inFolder("state.html"), "utf8")).toContain("The whole boat");
  });
});

describe("a second round, with the first one's corrections keyed in", () => {
  it("finds the same totals, so that increments are near zero", async () => {
    expect(second).toMatchObject({ status: 0, err: "" });
    const [one, two] = [await calibrationIn("first"), await calibrationIn("second")];
    expect(two.settings).toEqual({ base: "sensors without corrections", active: one.fit.settings });
    for (const [index, { name, value, sd }] of one.fit.parameters.entries()) {
      const again = two.fit.parameters[index]?.value ?? Number.NaN;
      // the sail is the same, but its log is rounded anew (0.1° and 0.01 kn), loses other lines and has other outliers
      expect(Math.abs(again - value) / sd, name).toBeLessThan(0.5);
    }
  });

  it("begins where the first one ended", async () => {
    const [one, two] = [await calibrationIn("first"), await calibrationIn("second")];
    // the computer on board then makes of the log what the calibration makes of the first, within a tenth of its doubt
    expect(Math.abs(two.before[0].value - one.after[0].value)).toBeLessThan(0.1 * one.after[0].sd);
  });
});

describe("applying a calibration", () => {
  const apply = (calibration: string, log: string, ...more: readonly string[]) =>
    commandLine(
      "apply",
      inFolder(calibration, "calibration.json"),
      log,
      "--replace",
      "--out",
      inFolder("out.csv"),
      ...more,
    );

  it("gives one row a second, true wind first", async () => {
    const nmea = ["--nmea", inFolder("out.nmea")];
    const outcome = await apply("first", demo("demo.nmea.gz"), "--boat", demo("boat.json"), ...nmea);
    expect(outcome).toMatchObject({ status: 0, err: "" });
    const lines = (await readFile(inFolder("out.csv"), "utf8")).trimEnd().split("\n");
    expect(lines[0]).toMatch(/^time,twd_deg,tws_kn,twa_deg,gwd_deg,gws_kn,/);
    const times = lines.slice(1).map((line) => line.slice(0, line.indexOf(",")));
    expect(times[0]).toBe("2026-06-13T11:05:00Z");
    expect(new Set(times).size).toBe(times.length);
    const seconds = times.map((time) => Date.parse(time) / 1000);
    expect(seconds.every((second, index) => index === 0 || second > (seconds[index - 1] ?? 0))).toBe(true);
    // two and a half hours, but for some seconds in which every sensor was silent
    expect(times.length).toBeGreaterThan(0.99 * 2.5 * 3600);
  });

  it("writes the same as NMEA 0183, which reads back as the log of a boat without faults", async () => {
    const [csv, nmea] = [inFolder("out.csv"), inFolder("out.nmea")];
    const log = wholeLog(await readFile(nmea, "latin1"));
    expect(log.reader.problems).toEqual([]);
    const rows = wholeCsv(await readFile(csv, "utf8"));
    for (const quantity of ["onboardTrueWindDirection", "apparentWindAngle", "speedThroughWater"] as const) {
      const [read, written] = [log.valuesOf(quantity), rows.valuesOf(quantity)];
      // rounded from the same numbers, in other words: 350° is −10°, and each is the double nearest to its digits
      expect(read.length).toBe(written.length);
      read.forEach((value, row) => {
        agrees(angleBetween(value, written[row]!), 0, 1e-9, `the same digits of ${quantity}`);
      });
    }
    await rm(nmea);
  });

  it("needs a file to write, CSV or NMEA 0183", async () => {
    const outcome = await commandLine("apply", inFolder("first", "calibration.json"), demo("demo.nmea.gz"));
    expect(outcome).toMatchObject({ status: 2, out: "" });
    expect(outcome.err).toBe("bothtacks: apply: --out FILE is missing, or --nmea FILE\n");
  });

  it("is refused where other corrections were active, or where that is not known", async () => {
    await rm(inFolder("out.csv"), { force: true });
    const unknown = await apply("first", demo("demo.nmea.gz"));
    expect(unknown).toMatchObject({ status: 1, out: "" });
    expect(unknown.err).toMatch(/^bothtacks: .*demo\.nmea\.gz: .*active_settings.*\n$/);
    const from = ["--from", inFolder("first", "calibration.json")];
    const other = await apply("first", inFolder("keyed.nmea"), ...from);
    expect(other.status).toBe(1);
    expect(other.err).toContain("other corrections were active");
    expect(await readdir(folder)).not.toContain("out.csv");
  });

  it("is allowed with a word of caution where nobody knows what was active", async () => {
    const log = inFolder("short.nmea");
    await writeFile(log, goodLog().bytes);
    const calibrated = await commandLine("calibrate", log, "--out", inFolder("unknown"));
    expect(calibrated.status).toBe(0);
    const outcome = await apply("unknown", log);
    expect(outcome.status).toBe(0);
    expect(outcome.out).toContain("Nobody said which corrections were active");
  });
});
