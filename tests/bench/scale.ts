/**
 * How time and memory grow with a season: `pnpm season [SENTENCES …]`, by default 5, 10 and 20 million. For each size the logs of a
 * season are written, then checked, checked again, and calibrated, as whole processes. Needs the built library,
 * and some 1.5 GB of disk for 20 million.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { writeSeason } from "./season.ts";

/** What a season may need at most, bytes. */
const MOST_MEMORY = 400e6;

const PROGRAM = fileURLToPath(new URL("peak.mjs", import.meta.url));

interface Run {
  readonly seconds: number;
  /** Of all processors together, s. */
  readonly processors: number;
  readonly bytes: number;
}

/** Runs a command in a process of its own. @throws Error where it fails */
function measured(folder: string, ...args: readonly string[]): Run {
  const peak = join(folder, "peak.txt");
  const env = { ...process.env, BOTHTACKS_CACHE: join(folder, "cache") };
  const before = performance.now();
  const { status, stderr } = spawnSync(process.execPath, [PROGRAM, peak, ...args], { encoding: "utf8", env });
  if (status !== 0) throw new Error(`${args.join(" ")} failed:\n${stderr}`);
  const seconds = (performance.now() - before) / 1000;
  const used: Omit<Run, "seconds"> = JSON.parse(readFileSync(peak, "utf8"));
  return { seconds, ...used };
}

function line(name: string, { seconds, processors, bytes }: Run, millions: number): void {
  const over = bytes > MOST_MEMORY ? ", more than wanted" : "";
  console.log(
    `  ${name}: ${seconds.toFixed(1)} s; processors ${processors.toFixed(1)} s, ${(processors / millions).toFixed(2)} s for a million; at most ${(bytes / 1e6).toFixed(0)} MB${over}`,
  );
}

function measure(sentences: number): void {
  const folder = mkdtempSync(join(tmpdir(), "bothtacks-season-"));
  try {
    const season = join(folder, "season");
    const { days, bytes } = writeSeason(season, sentences);
    const millions = sentences / 1e6;
    console.log(`${millions} million sentences, ${(bytes / 1e6).toFixed(0)} MB, ${days} days`);
    line("check, for the first time", measured(folder, "check", season), millions);
    line("check again", measured(folder, "check", season), millions);
    line("calibrate", measured(folder, "calibrate", season, "--out", join(folder, "out")), millions);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const given = process.argv.slice(2).map(Number);
for (const sentences of given.length > 0 ? given : [5e6, 10e6, 20e6]) measure(sentences);
