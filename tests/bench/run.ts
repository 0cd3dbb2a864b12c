/**
 * Reading a million NMEA 0183 sentences: this library against the plain Python loop that a user would write, as whole
 * processes, in turn, on the same log. `pnpm bench [sentences [rounds]]`. Needs the built library.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { generateLog } from "./generateLog.ts";

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
  readonly seconds: number;
  readonly printed: string;
}

function timed({ name, command, script }: Contestant, log: string): Run {
  const before = performance.now();
  const { status, stdout, stderr } = spawnSync(command, [script, log], { encoding: "utf8" });
  const seconds = (performance.now() - before) / 1000;
  if (status !== 0) throw new Error(`${name} failed:\n${stderr}`);
  return { seconds, printed: stdout.trim() };
}

const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1]!;

const hasPython = (): boolean => spawnSync("python3", ["-c", "import numpy"]).status === 0;

function compare(log: string, rounds: number): void {
  const contestants = hasPython() ? [LIBRARY, PYTHON] : [LIBRARY];
  const runs = new Map(contestants.map((contestant) => [contestant, [] as Run[]]));
  for (let round = 0; round < rounds; round++)
    for (const [contestant, of] of runs) of.push(timed(contestant, log));
  const printed = new Set([...runs.values()].flat().map((run) => run.printed));
  if (printed.size > 1) throw new Error(`the readers disagree:\n${[...printed].join("\n")}`);
  console.log(`good sentences, bad ones, sum of apparent wind in knots: ${[...printed].join()}`);
  const medians = [...runs].map(([{ name }, of]) => {
    const seconds = median(of.map((run) => run.seconds));
    console.log(
      `${name}: ${seconds.toFixed(3)} s, the median of ${of.length} (${of.map((run) => run.seconds.toFixed(3)).join(", ")})`,
    );
    return seconds;
  });
  if (medians.length === 2)
    console.log(`ratio: ${(medians[1]! / medians[0]!).toFixed(1)} times as fast as plain Python`);
  else
    console.log(
      "plain Python: skipped, since python3 with numpy was not found (apt-get install python3-numpy)",
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
