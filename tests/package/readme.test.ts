import { execFile } from "node:child_process";
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { describe, expect, it } from "vitest";
import { boatFromFile, UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { COMMANDS } from "../../packages/core/src/cli/commands/index.ts";

const run = promisify(execFile);
const readme = await readFile(new URL("../../README.md", import.meta.url), "utf8");

/** The first block of code in a language. */
function block(language: string): string {
  const found = readme.match(new RegExp(`\`\`\`${language}\n([\\s\\S]*?)\`\`\``));
  if (!found?.[1]) throw new Error(`README.md holds no block of ${language}`);
  return found[1];
}

describe("README.md", () => {
  it("shows what its example prints", async () => {
    const options = ["--conditions=bothtacks-source", "--import", "tsx", "--input-type=module"];
    const { stdout } = await run(process.execPath, [...options, "--eval", block("js")], {
      cwd: fileURLToPath(new URL("..", import.meta.url)),
    });
    expect(stdout).toBe(block("text"));
  });

  it("shows the boat file with its defaults", () => {
    expect(boatFromFile(block("json"), "README.md")).toEqual({ ...UNKNOWN_BOAT, computerIs: "given" });
  });

  it("names every command", () => {
    for (const { shape } of COMMANDS) expect(readme).toMatch(new RegExp(`^bothtacks ${shape.name} `, "m"));
  });

  it("stays short", () => {
    expect(readme.split("\n").length).toBeLessThan(250);
  });
});
