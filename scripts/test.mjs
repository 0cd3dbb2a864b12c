// Types, lint and tests: `npm test`, or `npm test -- tests/cli` for some of the tests. The last line counts them.
import { spawnSync } from "node:child_process";
import { root, setUp } from "./setUp.mjs";

await setUp();

const steps = [
  ["Types", "tsc", ["-b", "packages/core"]],
  ["Types of the notebooks", "tsc", ["-p", "packages/notebooks"]],
  ["Cells of the notebooks", "node", ["scripts/notebooks.mjs", "check"]],
  ["Types of the tests", "tsc", ["-p", "tests"]],
  ["Lint and format", "biome", ["check", "--error-on-warnings", "."]],
  ["Tests", "vitest", ["run", ...process.argv.slice(2)]],
];

for (const [what, command, args] of steps) {
  const [program, first] = command === "node" ? [process.execPath, []] : ["npx", ["--no-install", command]];
  const { status } = spawnSync(program, [...first, ...args], {
    cwd: root,
    stdio: "inherit",
    shell: process.platform === "win32" && program === "npx",
  });
  if (status === 0) continue;
  if (command !== "vitest") console.error(`${what}: failed; the tests were not run.`);
  process.exit(status ?? 1);
}
