/**
 * Reading a million NMEA 0183 sentences: this library against the plain Python loop that a user would write; a million rows of ten
 * columns: against pandas. Whole processes, in turn, on the same log; then how fluent the page stays while it reads.
 * `pnpm bench [records [rounds]]`. Needs the built library, and a browser.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { generateLog } from "./generateLog.ts";
import { generateTable } from "./generateTable.ts";
import { pageTicks } from "./pageTicks.ts";

const besideThis = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

interface Contestant {
  readonly name: string;
  readonly command: string;
  readonly script: string;
}

/** One kind of log: how it is made, who reads it, what they find, and what the other needs. */
interface Race {
  readonly file: string;
  readonly records: string;
  readonly generate: (path: string, count: number) => number;
  readonly library: Contestant;
  readonly other: Contestant;
  readonly module: string;
  readonly found: string;
}

const library = (script: string): Contestant => ({
  name: "this library",
  command: process.execPath,
  script: besideThis(script),
});
const python = (name: string, script: string): Contestant => ({
  name,
  command: "python3",
  script: besideThis(script),
});

const RACES: readonly Race[] = [
  {
    file: "log.nmea",
    records: "sentences",
    generate: generateLog,
    library: library("readLog.mjs"),
    other: python("plain Python", "readLog.py"),
    module: "numpy",
    found: "good sentences, bad ones, sum of apparent wind in knots",
  },
  {
    file: "log.csv",
    records: "rows of ten columns",
    generate: generateTable,
    library: library("readTable.mjs"),
    other: python("pandas", "readTable.py"),
    module: "pandas",
    found: "rows, sum of apparent wind in knots",
  },
];

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

const hasModule = (name: string): boolean => spawnSync("python3", ["-c", `import ${name}`]).status === 0;

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

function compare({ library, other, module, found }: Race, log: string, rounds: number): void {
  const [ours, theirs] = medians(hasModule(module) ? [library, other] : [library], log, rounds);
  console.log(`found by all: ${ours!.found} (${found})`);
  const line = (name: string, { whole, reading }: Run) =>
    console.log(
      `${name}: whole process ${whole.toFixed(3)} s, reading alone ${reading.toFixed(3)} s (medians of ${rounds})`,
    );
  line(library.name, ours!);
  if (theirs === undefined) {
    console.log(
      `${other.name}: skipped, since python3 with ${module} was not found (apt-get install python3-${module})`,
    );
    return;
  }
  line(other.name, theirs);
  const ratio = (of: "whole" | "reading") => (theirs[of] / ours![of]).toFixed(1);
  console.log(
    `ratio: whole process ${ratio("whole")} times as fast, reading alone ${ratio("reading")} times as fast`,
  );
}

const [count = 1_000_000, rounds = 5] = process.argv.slice(2).map(Number);
const folder = mkdtempSync(join(tmpdir(), "bothtacks-bench-"));
try {
  for (const race of RACES) {
    const log = join(folder, race.file);
    const bytes = race.generate(log, count);
    console.log(`${count} ${race.records}, ${(bytes / 1e6).toFixed(1)} MB`);
    compare(race, log, rounds);
    rmSync(log);
  }
} finally {
  rmSync(folder, { recursive: true });
}
await pageTicks();
