/**
 * Benchmarks, each beside what one would use instead, in the same run and in turn; written to packages/core/docs/benchmarks.md. Needs the
 * built library and a browser; python3 with numpy, pandas and scipy where the others are to be run. `pnpm bench [ROUNDS]`
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import { summariseSailing } from "../../packages/core/src/sailing/summary.ts";
import { anotherDay, drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { linesOfSail } from "../../packages/core/src/simulate/simulatedLog.ts";
import { simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { secondsOfSail } from "../../packages/core/src/simulate/simulatedSeconds.ts";
import { besideThis, contest, median, type Performance, pythonWith, type Times, WHOLE } from "./contest.ts";
import { generateColumns } from "./generateColumns.ts";
import { generateLog } from "./generateLog.ts";
import { generateTable } from "./generateTable.ts";
import { pageTicks } from "./pageTicks.ts";

const MILLION = 1_000_000;
const SEED = 52_040;
const LEAST_SHARE = 0.6;
const MOST_COLLECTIONS = 5;

const [rounds = 5] = process.argv.slice(2).map(Number).filter(Number.isFinite);
const python = pythonWith("numpy, pandas, scipy");
const folder = mkdtempSync(join(tmpdir(), "bothtacks-bench-"));
const page: string[] = [];
const failures: string[] = [];

const say = (...lines: readonly string[]): void => {
  page.push(...lines);
  console.log(lines.join("\n"));
};

const inSeconds = (times: Times): string => {
  const digits = median(times) < 0.1 ? 4 : 3;
  return `${median(times).toFixed(digits)} (${times[0]!.toFixed(digits)} to ${times.at(-1)!.toFixed(digits)})`;
};

/** Medians and ranges of each stage, side by side. */
function table(performances: readonly Performance[], whole = true): void {
  const [ours, theirs] = performances;
  if (ours === undefined) return;
  say(
    `| s | this library | ${theirs ? `${theirs.name} | ratio |` : ""}`,
    `| --- | --- | ${theirs ? "--- | --- |" : ""}`,
  );
  for (const [stage, times] of ours.stages) {
    if (stage === WHOLE && !whole) continue;
    const other = theirs?.stages.get(stage);
    const beside = other ? `${inSeconds(other)} | ${(median(times) / median(other)).toFixed(2)} |` : "";
    say(`| ${stage} | ${inSeconds(times)} | ${beside}`);
  }
  say(
    `| memory, MB | ${ours.megabytes.toFixed(0)} | ${theirs ? `${theirs.megabytes.toFixed(0)} | ${(ours.megabytes / theirs.megabytes).toFixed(2)} |` : ""}`,
    "",
  );
}

const ratioOf = ([ours, theirs]: readonly Performance[], stage: string): number =>
  theirs ? median(ours!.stages.get(stage)!) / median(theirs.stages.get(stage)!) : Number.NaN;

/** Both, or this library alone where there is no Python. */
function both(ours: string, theirs: string, options: readonly string[], share: number) {
  const library = {
    name: "this library",
    command: process.execPath,
    options: [besideThis(ours), ...options],
  };
  const other = { name: "Python", command: python ?? "", options: [besideThis(theirs), ...options] };
  return contest(python ? [library, other] : [library], rounds, share);
}

function timesOf(count: number, work: () => void): Times {
  return Array.from({ length: count }, () => {
    const begin = performance.now();
    work();
    return (performance.now() - begin) / 1000;
  }).sort((one, other) => one - other);
}

/** How many times faster reading must be, and at least which share of the speed of a pass over the checksums alone. */
const LEAST_TIMES = 8;
const LEAST_OF_PASS = 0.15;

const times = (other: Performance, ours: Performance): number =>
  median(other.stages.get("reading")!) / median(ours.stages.get("reading")!);

/** Readers of a log of sentences, as processes. */
function sentenceReaders(log: string) {
  const node = (name: string, script: string, ...options: readonly string[]) => ({
    name,
    command: process.execPath,
    options: [besideThis(script), ...options, log],
  });
  const loop = { name: "Python", command: python ?? "", options: [besideThis("peers/readLog.py"), log] };
  return {
    library: node("this library", "readLog.mjs"),
    pass: node("checksums alone", "peers/checksums.mjs"),
    loops: python ? [loop] : [],
    packageNamed: (name: string) => node(name, "peers/readLog.mjs", name),
  };
}

function sentencesTable([ours, ...others]: readonly Performance[]): void {
  say(
    "| | reading, s | times this library's | whole process, s | memory, MB |",
    "| --- | --- | --- | --- | --- |",
    ...[ours!, ...others].map(
      (one) =>
        `| ${one.name} | ${inSeconds(one.stages.get("reading")!)} | ${times(one, ours!).toFixed(2)} | ${inSeconds(one.stages.get(WHOLE)!)} | ${one.megabytes.toFixed(0)} |`,
    ),
    "",
  );
}

function requireTimes(other: Performance | undefined, ours: Performance, least: number): void {
  if (other === undefined || times(other, ours) >= least) return;
  failures.push(`reading NMEA 0183: ${times(other, ours).toFixed(2)} of the time of ${other.name}`);
}

function reading(): void {
  const log = join(folder, "log.nmea");
  const bytes = generateLog(log, MILLION);
  const { library, pass, loops, packageNamed } = sentenceReaders(log);
  const packages = ["nmea-simple", "nmea-simple, no XDR", "gps"].map(packageNamed);
  const performances = contest([library, pass, ...packages, ...loops], rounds, 1e-9);
  const [ours, checksums, simple, , , loop] = performances;
  say(
    "## Reading NMEA 0183",
    "",
    `A million sentences, ${(bytes / 1e6).toFixed(1)} MB, one in 10,000 with a wrong checksum, the file read included. In Python a plain loop into numpy arrays; packages of the registry get line by line, as their READMEs say, and numbers by time go into columns. A pass that checks the checksums and does nothing else is the least that reading takes.`,
    "",
  );
  sentencesTable(performances);
  say(
    "- nmea-simple has no parser for heel and pitch (XDR): it throws, which takes it longer than parsing, so it is shown without these lines, too; an empty field is 0 in what it tells",
    "- gps has no parser for wind, boat speed, heading, heel and pitch (MWV, VHW, HDG, XDR): it reads a quarter of this log, and passes over the rest",
    "",
  );
  requireTimes(loop, ours!, LEAST_TIMES);
  requireTimes(simple, ours!, LEAST_TIMES);
  requireTimes(checksums, ours!, LEAST_OF_PASS);
  readingFixes(log);
}

/** The log's fixes alone, which all can read. */
function readingFixes(log: string): void {
  const fixes = join(folder, "fixes.nmea");
  const lines = readFileSync(log, "latin1").split("\r\n");
  const wanted = lines.filter((line) => line.startsWith("RMC", 3));
  writeFileSync(fixes, wanted.map((line) => `${line}\r\n`).join(""));
  const { library, packageNamed } = sentenceReaders(fixes);
  const performances = contest([library, packageNamed("nmea-simple"), packageNamed("gps")], rounds, 1e-9);
  say("The quarter million RMC sentences of that log alone, which all of them read:", "");
  sentencesTable(performances);
  const [ours, , gps] = performances;
  requireTimes(gps, ours!, LEAST_TIMES);
  rmSync(fixes);
}

function readingColumns(): void {
  const log = join(folder, "table.csv");
  const bytes = generateTable(log, MILLION);
  say(
    "## Reading a log in columns",
    "",
    `A million rows of ten columns, ${(bytes / 1e6).toFixed(1)} MB, all numbers; in Python \`pandas.read_csv\`. This library makes readings in SI units, each with its time.`,
    "",
  );
  const performances = both("readLog.mjs", "peers/readTable.py", [log], 1e-6);
  table(performances);
  rmSync(log);
  if (ratioOf(performances, "reading") > 1) failures.push("reading columns: slower than pandas");
}

function trueWind(): void {
  const performances = both("trueWind.mjs", "peers/trueWind.py", [String(MILLION), "9"], 1e-9);
  say(
    "## True wind of a million samples, by columns",
    "",
    "`trueWindColumns` beside numpy: heel, leeway, triangle, in Python by components east and north, as one would write it. The processor's seconds, not the wall clock's.",
    "",
  );
  table(performances, false);
  const algebra = performances[1]?.stages.get("with M152's algebra");
  if (algebra)
    say(
      `With the algebra that the library uses (M152) numpy takes ${inSeconds(algebra)}: how its own wide instructions compare with the engine's.`,
      "",
    );
  if (ratioOf(performances, "true wind") > 1) failures.push("true wind by columns: slower than numpy");
}

function live(): void {
  const script = besideThis("../support/liveCollections.ts");
  const options = ["--conditions=bothtacks-source", "--import", "tsx", script, String(10 * MILLION)];
  const { stdout } = spawnSync(process.execPath, options, { encoding: "utf8" });
  const { minor, major, seconds } = JSON.parse(stdout) as Record<"minor" | "major" | "seconds", number>;
  say(
    "## Ten million live samples",
    "",
    `\`liveWindInto\` with every fault, damping and masthead motion: ${((seconds * 1e9) / (10 * MILLION)).toFixed(0)} ns a sample, ${minor} minor and ${major} major collections of garbage.`,
    "",
  );
  if (minor > MOST_COLLECTIONS) failures.push(`live: ${minor} minor collections`);
}

function legsAndFit(): void {
  const blocks = secondsOfSail(simulatedSail(drawScenario(SEED)));
  const seconds = blocks.reduce((sum, { length }) => sum + length, 0);
  const legs = timesOf(rounds, () => summariseSailing(blocks));
  const { rows } = summariseSailing(blocks);
  const context = { heelSign: "auto", steeredBy: "sails", leewayLawHolds: true } as const;
  const fits = timesOf(rounds, () => fitBoat(rows, context));
  say(
    "## Legs and joint fit of an afternoon",
    "",
    `${seconds} seconds of sailing, ${rows.length} rows. What a fit with scipy takes and leaves is below.`,
    "",
    "| s | this library |",
    "| --- | --- |",
    `| legs, turns and rows | ${inSeconds(legs)} |`,
    `| joint fit | ${inSeconds(fits)} |`,
    "",
  );
}

function wholeJob(): void {
  const bytes = generateColumns(folder, MILLION);
  const performances = both("wholeJob.mjs", "peers/wholeJob.py", [folder], 1e-6);
  say(
    "## A whole job",
    "",
    `A log in columns (a million rows, ${(bytes / 1e6).toFixed(1)} MB): read, true wind of each row, means over 60 s, six corrections by least squares. In Python pandas, numpy and scipy; both find the same corrections.`,
    "",
  );
  table(performances);
  const ratio = ratioOf(performances, WHOLE);
  if (ratio > LEAST_SHARE) failures.push(`whole job: ${ratio.toFixed(2)} of Python's time`);
}

/** As much of simulated sailing as makes a log of a million lines. */
function calibrate(): void {
  const first = drawScenario(SEED);
  let [lines, bytes, day] = [0, 0, 0];
  const logs: string[] = [];
  for (; lines < MILLION; day++) {
    const scenario = day === 0 ? first : anotherDay(first, SEED + day);
    const sail = simulatedSail({ ...scenario, start: first.start + 2 * 86_400 * day });
    const text = [...linesOfSail(sail), ""].join("\r\n");
    lines += text.split("\n").length - 1;
    bytes += text.length;
    logs.push(join(folder, `day${String(day).padStart(2, "0")}.nmea`));
    writeFileSync(logs.at(-1)!, text);
  }
  const main = besideThis("../../packages/core/dist/cli/main.js");
  const memory =
    'data:text/javascript,process.on("exit",()=>process.stderr.write("RSS "+process.resourceUsage().maxRSS))';
  let megabytes = Number.NaN;
  const once = (): void => {
    const out = join(folder, "answer");
    const options = ["--import", memory, main, "calibrate", ...logs, "--out", out];
    const { status, stderr } = spawnSync(process.execPath, options, { encoding: "utf8" });
    if (status !== 0) throw new Error(`calibrate failed:\n${stderr}`);
    megabytes = Number(stderr.match(/RSS (\d+)/)?.[1]) / 1024;
  };
  // minutes on a busy machine: once is enough
  const times = timesOf(1, () => once());
  say(
    "## The real calibration of a log of that size",
    "",
    `\`bothtacks calibrate\` on ${day} afternoons of simulated sailing, ${lines} lines, ${(bytes / 1e6).toFixed(1)} MB, from the start of the process to the report on disk: ${median(times).toFixed(1)} s, ${megabytes.toFixed(0)} MB (one run).`,
    "",
  );
}

function scatter(): void {
  const options = ["--conditions=bothtacks-source", "--import", "tsx", besideThis("scatterFit.ts")];
  const { stdout } = spawnSync(process.execPath, options, { encoding: "utf8" });
  say(
    "## Joint fit beside the least scatter of the wind, by scipy",
    "",
    ...stdout
      .trim()
      .split("\n")
      .map((line) => `- ${line}`),
    "",
  );
}

const versions = python
  ? spawnSync(
      python,
      [
        "-c",
        "import sys, numpy, pandas, scipy; print('Python %s, numpy %s, pandas %s, scipy %s' % (sys.version.split()[0], numpy.__version__, pandas.__version__, scipy.__version__))",
      ],
      { encoding: "utf8" },
    ).stdout.trim()
  : "no Python with numpy, pandas and scipy was found, so nothing stands beside (apt-get install python3-numpy python3-pandas python3-scipy)";

say(
  "# Benchmarks",
  "",
  "Written by `pnpm bench`; do not edit. Medians of runs in turn, with the range; ratios of medians: below 1 this library takes less.",
  "",
  `${cpus().length} cores (${cpus()[0]?.model.trim()}), load ${loadavg()[0]!.toFixed(1)} before; Node ${process.versions.node}; ${versions}.`,
  "",
);
try {
  reading();
  readingColumns();
  trueWind();
  live();
  legsAndFit();
  wholeJob();
  calibrate();
  scatter();
  say(...(await pageTicks()));
} finally {
  rmSync(folder, { recursive: true });
}
writeFileSync(
  new URL("../../packages/core/docs/benchmarks.md", import.meta.url),
  `${page.join("\n").trim()}\n`,
);
if (failures.length > 0) {
  console.error(`Not as fast as promised, on this machine and under this load:\n${failures.join("\n")}`);
  process.exitCode = 1;
}
