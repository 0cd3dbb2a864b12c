import { spawn } from "node:child_process";
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";

/** The project's root folder. */
export const root = fileURLToPath(new URL("..", import.meta.url));

const OLDEST_NODE = [20, 19];

/** The folder that the user called from: npm itself runs scripts in the root. */
export const callersFolder = process.env.INIT_CWD ?? process.cwd();

/** Ends the process with one line when this Node is too old to run the project. */
function requireNode() {
  const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
  const [oldestMajor, oldestMinor] = OLDEST_NODE;
  if (major > oldestMajor || (major === oldestMajor && minor >= oldestMinor)) return;
  console.error(`bothtacks needs Node ${OLDEST_NODE.join(".")} or later; this is ${process.versions.node}.`);
  process.exit(1);
}

const text = (path) =>
  readFile(new URL(path, new URL("../", import.meta.url)), "utf8").catch(() => undefined);

/** Whether node_modules holds exactly what the lock file names: pnpm leaves a copy of it when it has finished. */
async function isInstalled() {
  const [wanted, installed] = await Promise.all([
    text("pnpm-lock.yaml"),
    text("node_modules/.pnpm/lock.yaml"),
  ]);
  return wanted !== undefined && wanted === installed;
}

/** The package manager at the version that package.json pins. */
async function packageManager() {
  return JSON.parse((await text("package.json")) ?? "{}").packageManager;
}

/** Runs a command in the root; resolves with its exit status and all that it printed. */
function run(command, args) {
  return new Promise((resolve) => {
    // `npm run --silent` would silence the installation's errors as well
    const env = { ...process.env, npm_config_loglevel: "error" };
    const child = spawn(command, args, { cwd: root, env, shell: process.platform === "win32" });
    let output = "";
    for (const stream of [child.stdout, child.stderr]) stream.on("data", (chunk) => (output += chunk));
    child.on("error", (error) => resolve({ status: 1, output: String(error.message) }));
    child.on("close", (status) => resolve({ status: status ?? 1, output }));
  });
}

/**
 * Makes a fresh clone ready to run: installs what the lock file names, once. Ends the process when that fails.
 *
 * @param {{ silent?: boolean }} options silent: no word while it works
 */
export async function setUp({ silent = false } = {}) {
  requireNode();
  if (await isInstalled()) return;
  if (!silent) console.error("Setting up (only the first time) …");
  const install = ["install", "--frozen-lockfile", "--config.confirmModulesPurge=false"];
  const { status, output } = await run("npx", ["--yes", await packageManager(), ...install]);
  if (status === 0) return;
  console.error(`${output}\nSetting up failed: the packages could not be installed.`);
  process.exit(1);
}
