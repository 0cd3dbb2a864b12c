/** Scenario files read back as they were written, and say in one line what is wrong with them. MARGIN: none, but 15 digits. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { scenarioFromFile, scenarioInFile } from "../../packages/core/src/simulate/scenarioFile.ts";
import { linesOfSail } from "../../packages/core/src/simulate/simulatedLog.ts";
import { simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { commandLine } from "../support/commandLine.ts";

const textOf = (seed: number): string =>
  JSON.stringify(scenarioInFile(drawScenario(seed, { seconds: 600, motoring: seed % 2 === 0 })));

/** The text with one field, at the path given, changed. */
function changed(text: string, path: readonly string[], value: unknown): string {
  const fields = JSON.parse(text);
  let at = fields;
  for (const part of path.slice(0, -1)) at = at[part];
  at[path.at(-1)!] = value;
  return JSON.stringify(fields);
}

describe("a scenario file", () => {
  it("reads back and writes the same", () => {
    for (const seed of [1, 2, 3, 4]) {
      const text = textOf(seed);
      expect(JSON.stringify(scenarioInFile(scenarioFromFile(text, "s.json")))).toBe(text);
    }
  });

  it.each([
    [["wind", "speed_kn"], "fast", /s\.json: wind\.speed_kn: expected a number, received "fast"/],
    [["wind", "sped_kn"], 12, /s\.json: wind: .*speed_kn/],
    [["plan"], [], /s\.json: plan: expected .*at least 1/],
    [["version"], 2, /s\.json: version: expected 1, received 2/],
    [["start"], "yesterday", /s\.json: start: .*received "yesterday"/],
  ])("with another %s is refused in words", (path, value, words) => {
    expect(() => scenarioFromFile(changed(textOf(1), path, value), "s.json")).toThrow(words);
  });
});

describe("bothtacks simulate", () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "bothtacks-simulate-"));
    writeFileSync(join(folder, "s.json"), textOf(5));
  });
  afterAll(() => rmSync(folder, { recursive: true }));
  const simulate = (...options: string[]) => commandLine("simulate", join(folder, "s.json"), ...options);

  it("writes the log of the scenario, and not over another unless told", async () => {
    const out = join(folder, "log.nmea");
    const first = await simulate("--out", out);
    expect(first).toMatchObject({ status: 0, err: "" });
    const lines = [...linesOfSail(simulatedSail(scenarioFromFile(textOf(5), "s.json")))];
    expect(readFileSync(out, "utf8")).toBe(lines.map((line) => `${line}\r\n`).join(""));
    expect((await simulate("--out", out)).status).toBe(1);
    expect((await simulate("--out", out, "--replace")).status).toBe(0);
  });

  it("says what is wrong with a scenario in one line", async () => {
    const path = join(folder, "bad.json");
    writeFileSync(path, changed(textOf(5), ["helm", "steers_by"], "ear"));
    const { status, err } = await commandLine("simulate", path, "--out", join(folder, "never.nmea"));
    expect(status).toBe(1);
    expect(err).toMatch(
      /^bothtacks: .*bad\.json: helm\.steers_by: expected one of "sails", "display", received "ear"\n$/,
    );
  });
});
