// Types, lint and tests: `npm test`, or `npm test -- tests/cli` for some of the tests. The last line counts them.
import { spawn } from "node:child_process";
import { join } from "node:path";
import { root, setUp } from "./setUp.mjs";

await setUp();

const isWindows = process.platform === "win32";

/** A tool of the workspace, without the half second that it takes to ask for it. */
const tool = (name) => join(root, "node_modules", ".bin", isWindows ? `${name}.cmd` : name);

/** Runs a program in the root; resolves with its exit status, and with what it printed where that was kept back. */
function run(command, args, stdio) {
  return new Promise((resolve) => {
    const child = spawn(command, args, { cwd: root, stdio, shell: isWindows });
    let output = "";
    for (const stream of [child.stdout, child.stderr]) stream?.on("data", (chunk) => (output += chunk));
    child.on("error", (error) => resolve({ status: 1, output: `${error.message}\n` }));
    child.on("close", (status) => resolve({ status: status ?? 1, output }));
  });
}

const checks = [
  ["Types", tool("tsc"), ["-b", "packages/core"]],
  ["Types of the notebooks", tool("tsc"), ["-p", "packages/notebooks"]],
  ["Cells of the notebooks", process.execPath, ["scripts/notebooks.mjs", "check"]],
  ["Types of the tests", tool("tsc"), ["-p", "tests"]],
  ["Lint and format", tool("biome"), ["check", "--error-on-warnings", "."]],
];

// none needs what another one makes, and each leaves a core idle for part of its time
const done = await Promise.all(
  checks.map(async ([what, command, args]) => ({ what, ...(await run(command, args, "pipe")) })),
);
const failed = done.filter(({ status }) => status !== 0);
for (const { what, output } of failed) console.error(`${output}${what}: failed; the tests were not run.`);
if (failed.length > 0) process.exit(1);

const { status } = await run(tool("vitest"), ["run", ...process.argv.slice(2)], "inherit");
process.exit(status);
