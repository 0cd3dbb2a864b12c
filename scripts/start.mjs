// The main job from a fresh clone: `npm start` on the demo recording, `npm start -- LOG…` on a log of your own.
// Prints the answer, then serves the notebooks and the report; `npm start -- --once` ends after the answer with its exit status.
import { readdir } from "node:fs/promises";
import { basename, join, resolve } from "node:path";
import { runFromSource } from "./fromSource.mjs";
import { serveAll } from "./serveAll.mjs";
import { callersFolder, root, setUp } from "./setUp.mjs";

const REPORT = "report.html";

const once = process.argv.includes("--once");
const given = process.argv.slice(2).filter((word) => word !== "--once");
const firstOption = given.findIndex((word) => word.startsWith("-"));
const [logs, options] =
  firstOption < 0 ? [given, []] : [given.slice(0, firstOption), given.slice(firstOption)];

/** The invented recording that comes with the project, and its boat. */
async function demo() {
  const folder = join(root, "datasets", "demo");
  const logs = (await readdir(folder)).filter((name) => /\.nmea(\.gz)?$/.test(name)).sort();
  return [...logs.map((name) => join(folder, name)), "--boat", join(folder, "boat.json")];
}

await setUp();
await runFromSource();
const { runInTerminal } = await import("../packages/core/src/cli/terminal.ts");

process.chdir(callersFolder);
const out = join(root, "out", logs[0] === undefined ? "demo" : basename(resolve(logs[0])));
const job = logs.length > 0 ? given : [...(await demo()), ...options];
process.exitCode = await runInTerminal(["calibrate", ...job, "--out", out, "--replace"]);

if (process.exitCode === 0 && !once) {
  const { address } = await serveAll(out);
  console.log(`\nThe notebooks: ${address}\nThe report:    ${address}${REPORT}   (Ctrl-C ends both)`);
}
