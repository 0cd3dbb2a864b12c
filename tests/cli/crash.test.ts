// INPUTS: runs that are killed, or whose disk takes no more (a limit of the shell on the size of files stands for a full disk).
// Expected: what was there before, or what a run that was left alone writes.
import { spawn } from "node:child_process";
import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { requireFolderFree, writeFolderWhole } from "../../packages/core/src/node/writeWhole.ts";
import { commandLine, commandLineKeeping } from "../support/commandLine.ts";
import { seasonFolder } from "../support/seasonFolder.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const FROM_SOURCE = ["--conditions=bothtacks-source", "--import", "tsx"];
const MAIN = join(root, "packages", "core", "src", "cli", "main.ts");

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "bothtacks-crash-"));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

const inFolder = (...names: readonly string[]): string => join(folder, ...names);

interface Ended {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs a program, and kills it as soon as it should be; undefined: never. */
async function ended(
  command: string,
  args: readonly string[],
  isTime?: (out: string) => Promise<boolean>,
): Promise<Ended> {
  const env = { ...process.env, BOTHTACKS_CACHE: inFolder("cache") };
  const child = spawn(command, args, { cwd: root, env });
  let [out, err, isOver] = ["", "", false];
  child.stdout.on("data", (chunk) => {
    out += chunk;
  });
  child.stderr.on("data", (chunk) => {
    err += chunk;
  });
  const end = new Promise<number | null>((resolve, reject) => {
    child.on("error", reject);
    child.on("close", resolve);
  }).finally(() => {
    isOver = true;
  });
  while (isTime && !isOver) {
    if (await isTime(out)) child.kill("SIGKILL");
    await new Promise((resolve) => setTimeout(resolve, 1));
  }
  return { status: await end, out, err };
}

describe("a run that is killed while it replaces a folder over and over", () => {
  const NAMES = ["a.txt", "b.txt"];

  it("leaves a whole folder, of one writing, and nothing beside it once the next run has begun", async () => {
    const out = inFolder("out");
    const program = `
      import { writeFolderWhole } from "./packages/core/src/node/writeWhole.ts";
      for (let n = 0; ; n++) {
        const text = String(n).padStart(8, "0").repeat(1_000_000);
        await writeFolderWhole(${JSON.stringify(out)}, { "a.txt": text, "b.txt": text }, true);
        process.stdout.write(".");
      }`;
    // a writing takes tens of milliseconds: so long after one has ended it is killed in the midst of another
    for (const milliseconds of [3, 8, 13, 18, 23]) {
      const { out: dots } = await ended(
        process.execPath,
        [...FROM_SOURCE, "--input-type=module", "--eval", program],
        async (so) => {
          if (so.length < 2) return false;
          await new Promise((resolve) => setTimeout(resolve, milliseconds));
          return true;
        },
      );
      expect(dots.length).toBeGreaterThanOrEqual(2);
      await requireFolderFree(out, NAMES, true);
      const [a, b] = await Promise.all(NAMES.map((name) => readFile(join(out, name), "utf8")));
      expect(a!.length).toBe(8_000_000);
      expect(a === b).toBe(true);
      expect(await readdir(folder)).toEqual(["out"]);
    }
  });

  it("two such at once: one stands whole, the other is told", async () => {
    const out = inFolder("out");
    const write = (text: string) => writeFolderWhole(out, { "a.txt": text, "b.txt": text }, true);
    for (let round = 0; round < 20; round++) {
      const both = await Promise.allSettled([write("one"), write("other")]);
      for (const one of both)
        if (one.status === "rejected")
          expect(String(one.reason)).toContain("another run wrote there meanwhile");
      const [a, b] = await Promise.all(NAMES.map((name) => readFile(join(out, name), "utf8")));
      expect(a).toBe(b);
      expect(await readdir(folder)).toEqual(["out"]);
    }
  });
});

describe("a season's run that is killed", () => {
  it.each([1, 5])(
    "when %i files of its cache are there leaves no page, and the next run finishes",
    async (files) => {
      await seasonFolder(inFolder("season"), { share: 0.3 });
      const [page, cache] = [inFolder("page.html"), inFolder("cache")];
      const args = ["check", inFolder("season"), "--out", page];
      const whole = async (): Promise<readonly string[]> =>
        (await readdir(cache, { recursive: true }).catch((): string[] => [])).filter(
          (name) => /-[0-9a-f]{40}$/.test(name) && name.includes("/"),
        );
      await ended(
        process.execPath,
        [...FROM_SOURCE, MAIN, ...args],
        async () => (await whole()).length >= files,
      );
      expect((await whole()).length).toBeGreaterThanOrEqual(files);
      expect(await readdir(folder)).not.toContain("page.html");
      const next = await commandLineKeeping({ cacheFolder: cache }, ...args);
      expect(next).toMatchObject({ status: 0, err: "" });
      const alone = await commandLine("check", inFolder("season"));
      expect(next.out.startsWith(alone.out)).toBe(true);
      expect(await readFile(page, "utf8")).toContain("</html>");
    },
  );
});

describe("a disk that takes no more", () => {
  it("is told in one line, and what was there before stays", async () => {
    await seasonFolder(inFolder("season"), { share: 0.3 });
    const [log, page] = [inFolder("season", "1.log"), inFolder("page.html")];
    await commandLine("check", log, "--out", page);
    const before = await readFile(page, "utf8");
    const limited = ["-c", 'ulimit -f 400; exec "$0" "$@"', process.execPath, ...FROM_SOURCE, MAIN];
    const { status, err } = await ended("sh", [...limited, "check", log, "--out", page, "--replace"]);
    expect(status).toBe(1);
    expect(err).toBe(`bothtacks: ${page}: the file would be larger than is allowed\n`);
    expect(await readFile(page, "utf8")).toBe(before);
    expect((await readdir(folder)).sort()).toEqual(["cache", "page.html", "season"]);
  });
});
