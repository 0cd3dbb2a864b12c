/**
 * Readers and damaged logs: `pnpm fuzz [count [seed]]`, 100,000 for each reader, the seed of the day. The same tests as those of
 * every run, with more logs; a failure names the log by its number and seed. What takes longer than an hour hangs.
 */
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const HOUR = 3_600_000;
const DAY = 24 * HOUR;

const [count = "100000", seed = String(Math.floor(Date.now() / DAY))] = process.argv.slice(2);
if (!/^\d+$/.test(count) || !/^\d+$/.test(seed)) {
  console.error("fuzz: call it as: pnpm fuzz [COUNT [SEED]], whole numbers");
  process.exit(2);
}

const root = fileURLToPath(new URL("..", import.meta.url));
const vitest = fileURLToPath(new URL("../node_modules/vitest/vitest.mjs", import.meta.url));
console.log(`${count} damaged logs for each reader, seed ${seed}`);
const { status } = spawnSync(
  process.execPath,
  [vitest, "run", "tests/property/damaged", "--testTimeout", String(HOUR)],
  {
    cwd: root,
    env: { ...process.env, FUZZ_COUNT: count, FUZZ_SEED: seed },
    stdio: "inherit",
    timeout: 2 * HOUR,
  },
);
process.exitCode = status ?? 1;
