/**
 * A boat's folder: what stood in the instruments when a log was made, and what was keyed in (M135).
 * INPUTS: logs of a few sentences and settings made here.
 */
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { enteredFromFile } from "../../packages/core/src/calibration/recordFiles.ts";
import { boatOfLog } from "../../packages/core/src/cli/givenFiles.ts";
import { folderGiven, requireOneState } from "../../packages/core/src/cli/givenFolder.ts";
import { nmea0183Sentence } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import { commandLine } from "../support/commandLine.ts";

let folder: string;
const at = (...names: readonly string[]): string => join(folder, ...names);

const rmc = (date: string, time: string): string =>
  nmea0183Sentence(`GPRMC,${time},A,5400.0,N,01000.0,E,5.0,90.0,${date},,`);

/** A log of ten seconds on a day ("140631" is 14 June 2031). */
const logOn = (date: string): string =>
  Array.from({ length: 10 }, (_, second) => rmc(date, `12000${second}`)).join("\r\n");

const gain = (value: number): string =>
  JSON.stringify({ active_settings: { speed: { gain_port: value, gain_starboard: value } } });

const given = (boat: string, ...operands: readonly string[]) => ({
  operands,
  options: new Map([["boat", boat]]),
});

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "bothtacks-folder-"));
  await mkdir(at("boat"));
  await writeFile(at("boat", "boat.json"), JSON.stringify({ name: "Quince", active_settings: "none" }));
  await writeFile(at("june.nmea"), logOn("140631"));
  await writeFile(at("july.nmea"), logOn("140731"));
  await writeFile(at("august.nmea"), logOn("140831"));
  await writeFile(at("dateless.nmea"), nmea0183Sentence("IIVHW,,T,10.0,M,5.0,N,,K"));
  await writeFile(at("one.json"), gain(1.05));
  await writeFile(at("two.json"), gain(1.1));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe("what was keyed in and when", () => {
  it("is written down, each time anew, with what changed", async () => {
    const first = await commandLine("entered", at("one.json"), "--boat", at("boat"), "--at", "2031-07-01");
    expect(first).toMatchObject({ status: 0, err: "" });
    expect(first.out).toMatch(/speed\.gain_port: 1 to 1\.05/);
    const second = await commandLine(
      "entered",
      at("two.json"),
      "--boat",
      at("boat"),
      "--at=2031-08-01T10:00Z",
    );
    expect(second.out).toMatch(/speed\.gain_port: 1\.05 to 1\.1/);
    const names = (await readdir(at("boat", "history"))).sort();
    expect(names).toEqual(["20310701T000000Z-entered.json", "20310801T100000Z-entered.json"]);
    const record = enteredFromFile(await readFile(at("boat", "history", names[1]!), "utf8"), "entered");
    expect(record.madeFrom).toEqual([at("two.json")]);
  });

  it("becomes the active settings of each later log", async () => {
    const gainIn = async (log: string): Promise<number> =>
      (await boatOfLog(given(at("boat"), at(log)))).settings.active.speed.gainPort;
    expect(await gainIn("june.nmea")).toBe(1);
    expect(await gainIn("july.nmea")).toBe(1.05);
    expect(await gainIn("august.nmea")).toBe(1.1);
    // several logs count from the earliest
    const both = await boatOfLog(given(at("boat"), at("august.nmea"), at("june.nmea")));
    expect(both.settings.active.speed.gainPort).toBe(1);
    expect(both.name).toBe("Quince");
  });

  it("is refused over the time of one recording, and for a log without a date", async () => {
    const boat = await folderGiven(given(at("boat")));
    if (!boat) throw new Error("no folder");
    const recording = (start: string, end: string) => ({
      files: ["log"],
      start: Date.parse(start) / 1000,
      end: Date.parse(end) / 1000,
    });
    expect(() => requireOneState(boat, recording("2031-06-14", "2031-07-14"))).toThrow(
      /keyed in at 2031-07-01/,
    );
    expect(() => requireOneState(boat, recording("2031-07-02", "2031-07-14"))).not.toThrow();
    await expect(boatOfLog(given(at("boat"), at("dateless.nmea")))).rejects.toThrow(/no date/);
  });

  it("needs a folder, a time, and a file that tells", async () => {
    const entered = (file: string, ...options: readonly string[]) =>
      commandLine("entered", at(file), ...options);
    expect((await entered("one.json", "--boat", at("one.json"))).status).toBe(2);
    expect((await entered("one.json", "--boat", at("boat"), "--at", "yesterday")).status).toBe(2);
    expect((await entered("june.nmea", "--boat", at("boat"))).status).toBe(1);
    expect((await commandLine("state", "--boat", at("nowhere"))).status).toBe(1);
    const unknown = JSON.stringify({ active_settings: "unknown" });
    await writeFile(at("unknown.json"), unknown);
    expect((await entered("unknown.json", "--boat", at("boat"))).err).toMatch(/unknown corrections/);
  });
});

describe("exercises at the dock", () => {
  it("find the zero of heel, counted in all, and the position of a berth", async () => {
    const minute = Array.from({ length: 120 }, (_, second) => {
      const clock = `12${String(Math.floor(second / 60)).padStart(2, "0")}${String(second % 60).padStart(2, "0")}`;
      const heel = nmea0183Sentence(`IIXDR,A,${(1.5 + 0.2 * (second % 2)).toFixed(1)},D,HEEL`);
      return [nmea0183Sentence(`GPRMC,${clock},A,5400.0006,N,01000.0,E,0.0,,140631,,`), heel].join("\r\n");
    });
    await writeFile(at("dock.nmea"), minute.join("\r\n"));
    const dock = await commandLine("exercise", "dock", at("dock.nmea"));
    expect(dock).toMatchObject({ status: 0, err: "" });
    expect(dock.out).toMatch(/Heel: level, it shows 1\.6° ± 1\.0° to starboard; add −1\.6°/);
    const rolling = minute.map(
      (line, second) => `${line}\r\n${nmea0183Sentence(`IIXDR,A,${second % 20 < 10 ? 5 : -5}.0,D,PITCH`)}`,
    );
    await writeFile(at("rolling.nmea"), rolling.join("\r\n"));
    const refused = await commandLine("exercise", "dock", at("rolling.nmea"));
    expect(refused).toMatchObject({ status: 1, out: "" });
    expect(refused.err).toContain("the boat was not at rest: pitch spreads by more than 3°");
    await writeFile(
      at("berth.csv"),
      "# exercise: berth\n# latitude_deg: 54\n# longitude_deg: 10\n# place_m: 1\n",
    );
    const berth = await commandLine("exercise", "berth", at("berth.csv"), at("dock.nmea"));
    expect(berth).toMatchObject({ status: 0, err: "" });
    // 0.0006' of latitude are 1.1 m
    expect(berth.out).toMatch(/agree with the berth: 1\.1 m off, ± 3\.5 m/);
  });
});
