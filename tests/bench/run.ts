/**
 * Reading a million NMEA 0183 sentences: this library against the plain Python loop that a user would write, as whole
 * processes, in turn, on the same log; then how fluent the page stays while it reads. `pnpm bench [sentences [rounds]]`. Needs
 * the built library, and a browser.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { generateLog } from "./generateLog.ts";
import { pageTicks } from "./pageTicks.ts";

const besideThis = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

interface Contestant {
  readonly name: string;
  readonly command: string;
  readonly script: string;
}

const LIBRARY: Contestant = {
  name: "this library",
  command: process.execPath,
  script: besideThis("readLog.mjs"),
};
const PYTHON: Contestant = { name: "plain Python", command: "python3", script: besideThis("readLog.py") };

interface Run {
  /** Seconds of the whole process, and of its reading alone. */
  readonly whole: number;
  readonly reading: number;
  /** What it found, the same for all. */
  readonly found: string;
}

function timed({ name, command, script }: Contestant, log: string): Run {
  const before = performance.now();
  const { status, stdout, stderr } = spawnSync(command, [script, log], { encoding: "utf8" });
  const whole = (performance.now() - before) / 1000;
  if (status !== 0) throw new Error(`${name} failed:\n${stderr}`);
  const { found, seconds } = JSON.parse(stdout) as { found: string; seconds: number };
  return { whole, reading: seconds, found };
}

const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1]!;

const hasPython = (): boolean => spawnSync("python3", ["-c", "import numpy"]).status === 0;

/** Runs each in turn, and returns the medians in the order of the contestants. */
function medians(contestants: readonly Contestant[], log: string, rounds: number): readonly Run[] {
  const runs = contestants.map((): Run[] => []);
  for (let round = 0; round < rounds; round++)
    contestants.forEach((contestant, index) => {
      runs[index]!.push(timed(contestant, log));
    });
  const found = new Set(runs.flat().map((run) => run.found));
  if (found.size > 1) throw new Error(`the readers disagree:\n${[...found].join("\n")}`);
  return runs.map((of) => ({
    whole: median(of.map(({ whole }) => whole)),
    reading: median(of.map(({ reading }) => reading)),
    found: of[0]!.found,
  }));
}

function compare(log: string, rounds: number): void {
  const [ours, python] = medians(hasPython() ? [LIBRARY, PYTHON] : [LIBRARY], log, rounds);
  console.log(`found by all: ${ours!.found} (good sentences, bad ones, sum of apparent wind in knots)`);
  const line = (name: string, { whole, reading }: Run) =>
    console.log(
      `${name}: whole process ${whole.toFixed(3)} s, reading alone ${reading.toFixed(3)} s (medians of ${rounds})`,
    );
  line(LIBRARY.name, ours!);
  if (python === undefined) {
    console.log(
      "plain Python: skipped, since python3 with numpy was not found (apt-get install python3-numpy)",
    );
    return;
  }
  line(PYTHON.name, python);
  const ratio = (of: "whole" | "reading") => (python[of] / ours![of]).toFixed(1);
  console.log(
    `ratio: whole process ${ratio("whole")} times as fast, reading alone ${ratio("reading")} times as fast`,
  );
}

const [sentences = 1_000_000, rounds = 5] = process.argv.slice(2).map(Number);
const folder = mkdtempSync(join(tmpdir(), "bothtacks-bench-"));
try {
  const log = join(folder, "log.nmea");
  const bytes = generateLog(log, sentences);
  console.log(`${sentences} sentences, ${(bytes / 1e6).toFixed(1)} MB`);
  compare(log, rounds);
} finally {
  rmSync(folder, { recursive: true });
}
await pageTicks();
