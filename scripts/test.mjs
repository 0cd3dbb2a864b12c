// Types, lint and tests: `npm test`, or `npm test -- tests/cli` for some of the tests. The last line counts them.
import { spawnSync } from "node:child_process";
import { root, setUp } from "./setUp.mjs";

await setUp();

const steps = [
  ["Types", "tsc", ["-b", "packages/core"]],
  ["Types of the tests", "tsc", ["-p", "tests"]],
  ["Lint and format", "biome", ["check", "--error-on-warnings", "."]],
  ["Tests", "vitest", ["run", ...process.argv.slice(2)]],
];

for (const [what, command, args] of steps) {
  const { status } = spawnSync("npx", ["--no-install", command, ...args], {
    cwd: root,
    stdio: "inherit",
    shell: process.platform === "win32",
  });
  if (status === 0) continue;
  if (command !== "vitest") console.error(`${what}: failed; the tests were not run.`);
  process.exit(status ?? 1);
}
