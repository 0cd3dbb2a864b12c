import { execFile } from "node:child_process";
import { access, constants, mkdir, mkdtemp, rename, rm } from "node:fs/promises";
import { homedir } from "node:os";
import { delimiter, dirname, join } from "node:path";
import { promisify } from "node:util";
import { type Browser, chromium } from "playwright-core";

const run = promisify(execFile);

/** The last resort: a Chromium for Linux inside an npm package, installed outside the project when needed. */
const PACKAGED = { name: "@sparticuz/chromium", version: "147.0.0" };

const NAMES_ON_PATH = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

const NONE =
  "No Chromium was found that starts. Install one, then run the tests again:\n" +
  "  npx playwright-core install --with-deps chromium\n" +
  "or, on Debian:\n" +
  "  apt-get update && apt-get install -y chromium\n" +
  "or name one in the variable BOTHTACKS_BROWSER.";

const isExecutable = (path: string): Promise<boolean> =>
  access(path, constants.X_OK).then(
    () => true,
    () => false,
  );

/** Whether it runs at all: a binary whose libraries are missing is as good as none. */
const starts = async (path: string): Promise<boolean> => {
  try {
    await run(path, ["--version"], { timeout: 30_000 });
    return true;
  } catch {
    return false;
  }
};

const onPath = (): readonly string[] =>
  (process.env.PATH ?? "")
    .split(delimiter)
    .flatMap((folder) => NAMES_ON_PATH.map((name) => join(folder, name)));

/** Prints the path of the browser that it unpacks into TMPDIR. */
const UNPACK = `import("${PACKAGED.name}").then(async ({ default: it }) => console.log(await it.executablePath()))`;

/** Installs and unpacks in a folder beside, then renames, so that two test files at once do no harm. */
async function installPackaged(folder: string): Promise<void> {
  await mkdir(dirname(folder), { recursive: true });
  const beside = await mkdtemp(`${folder}-`);
  try {
    const name = `${PACKAGED.name}@${PACKAGED.version}`;
    const options = ["--silent", "--no-audit", "--no-fund", "--prefix", beside];
    await run("npm", ["install", ...options, name], { cwd: beside });
    const env = { ...process.env, TMPDIR: beside };
    await run(process.execPath, ["--input-type=module", "--eval", UNPACK], { cwd: beside, env });
    await rename(beside, folder);
  } finally {
    await rm(beside, { recursive: true, force: true });
  }
}

/** Path of the packaged browser, installed into the user's cache the first time. */
async function packaged(): Promise<string> {
  if (process.platform !== "linux" || process.arch !== "x64")
    throw new Error("The package is for Linux on x64.");
  const caches = process.env.XDG_CACHE_HOME ?? join(homedir(), ".cache");
  const folder = join(caches, "bothtacks", `chromium-${PACKAGED.version}`);
  const path = join(folder, "chromium");
  // where another test file was faster, renaming fails and its browser is there
  if (!(await isExecutable(path))) await installPackaged(folder).catch(() => undefined);
  return path;
}

/**
 * A browser for playwright-core: the one that BOTHTACKS_BROWSER names, else the first on the PATH, else the driver's
 * own, else a packaged one.
 *
 * @throws Error with the command to run when there is none
 */
export async function browserPath(): Promise<string> {
  const named = process.env.BOTHTACKS_BROWSER;
  if (named) {
    if (await starts(named)) return named;
    throw new Error(`BOTHTACKS_BROWSER names ${named}, which does not start.\n${NONE}`);
  }
  for (const path of [...onPath(), chromium.executablePath()])
    if ((await isExecutable(path)) && (await starts(path))) return path;
  const last = await packaged().catch(() => undefined);
  if (last !== undefined && (await starts(last))) return last;
  throw new Error(NONE);
}

/** Nothing is asked of the network by the browser itself. */
export const BROWSER_ARGUMENTS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** A headless browser that asks nothing of the network by itself. Close it after use. */
export async function openBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: await browserPath(), headless: true, args: BROWSER_ARGUMENTS });
}
