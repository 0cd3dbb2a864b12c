// INPUTS: open recordings cut in two, given as a folder. Expected: whatever follows from reading the same bytes in one thread with
// nothing kept; results are compared by every bit of every number.
import { createHash } from "node:crypto";
import {
  mkdir,
  mkdtemp,
  readdir,
  readFile,
  rename,
  rm,
  stat,
  symlink,
  utimes,
  writeFile,
} from "node:fs/promises";
import { homedir, tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { progressWords } from "../../packages/core/src/cli/progressLine.ts";
import { type LogsSummary, summariseLogs } from "../../packages/core/src/job/summariseLogs.ts";
import { cacheFolder as folderFor } from "../../packages/core/src/node/cacheFolder.ts";
import { logsAt } from "../../packages/core/src/node/logsAt.ts";
import { type ReadingOptions, readingLogs } from "../../packages/core/src/node/readingLogs.ts";
import { checkSchema } from "../../packages/core/src/report/checkSchema.ts";
import { commandLine } from "../support/commandLine.ts";
import { seasonFolder } from "../support/seasonFolder.ts";

let folder: string;
let season: string;
let cacheFolder: string;
let plain: string;

/** What a season holds, to the last bit. */
async function found(options: ReadingOptions = {}, path = season): Promise<string> {
  const logs = await logsAt([path]);
  const reading = readingLogs(logs, { threads: 1, ...options });
  try {
    return bitsOf(await summariseLogs(logs, UNKNOWN_BOAT, { steps: reading.steps }), path);
  } finally {
    await reading.end();
  }
}

/** A number as text that tells every bit of it. */
const exact = (_: string, value: unknown): unknown =>
  typeof value === "number" ? (Object.is(value, -0) ? "-0" : String(value)) : value;

/** The hash of all but where the files lie. */
const bitsOf = (summary: LogsSummary, path: string): string =>
  createHash("sha256").update(JSON.stringify(summary, exact).replaceAll(path, "")).digest("hex");

/** The files of the cache, and their contents. */
async function kept(): Promise<ReadonlyMap<string, Buffer>> {
  const names = await readdir(cacheFolder, { recursive: true });
  const files = new Map<string, Buffer>();
  for (const name of names.sort())
    if ((await stat(join(cacheFolder, name))).isFile())
      files.set(name, await readFile(join(cacheFolder, name)));
  return files;
}

/** Where each of them lies on the disk: a file written anew lies elsewhere, for it is written beside the old one. */
async function places(): Promise<ReadonlyMap<string, bigint>> {
  const names = [...(await kept()).keys()];
  return new Map(
    await Promise.all(
      names.map(async (name) => [name, (await stat(join(cacheFolder, name), { bigint: true })).ino] as const),
    ),
  );
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "bothtacks-season-"));
  season = join(folder, "season");
  await seasonFolder(season);
  plain = await found();
});
beforeEach(() => {
  cacheFolder = join(folder, `cache-${Math.random()}`);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe("a folder", () => {
  it("stands for the logs in it and below it, in the order of their names; what is no log is named and passed over", async () => {
    const { status, out, err } = await commandLine("check", season);
    expect([status, err]).toEqual([0, ""]);
    const words = out.replaceAll(/\s+/g, " ");
    expect(words).toContain(`${season}/1.log, ${season}/2.log and ${season}/later/3.log`);
    expect(words).toMatch(/not used: \S+notes\.txt, holds no /);
  });

  it("is the same as its logs one by one, and a log given twice counts once", async () => {
    const one = await commandLine("check", season);
    const many = await commandLine("check", join(season, "1.log"), season, join(season, "2.log"));
    expect(many).toEqual(one);
  });

  it("with nothing in it, or nothing that is a log, is refused", async () => {
    const empty = join(folder, "empty");
    await mkdir(empty);
    expect((await commandLine("check", empty)).err).toContain("empty: there is no file in this folder");
    await writeFile(join(empty, "notes.txt"), "none\n");
    await writeFile(join(empty, ".hidden.log"), await readFile(join(season, "1.log")));
    const { status, err } = await commandLine("check", empty);
    expect(status).toBe(1);
    expect(err).toMatch(/notes\.txt: holds no .*\n$/);
  });

  it("does not hide that a file named by itself is no log", async () => {
    const { status, err } = await commandLine("check", join(season, "1.log"), join(season, "notes.txt"));
    expect(status).toBe(1);
    expect(err).toMatch(/notes\.txt: holds no /);
  });

  it("may hold a recording twice, plain and compressed: it counts once", async () => {
    const twice = join(folder, "twice");
    await mkdir(twice);
    await symlink(join(season, "1.log"), join(twice, "a.log"));
    await seasonFolder(join(folder, "compressed"), { gzip: true });
    await rename(join(folder, "compressed", "1.log"), join(twice, "b.log.gz"));
    const { out } = await commandLine("check", twice);
    expect(out.replaceAll(/\s+/g, " ")).toContain(`not used: ${twice}/b.log.gz, holds the same recording as`);
  });
});

describe("what is found in a season is the same to the last bit", () => {
  it("for every number of threads, compressed or not, first time and later", async () => {
    await seasonFolder(join(folder, "packed"), { gzip: true });
    expect(await found({ threads: 2, cacheFolder })).toBe(plain);
    const files = await kept();
    expect(await found({ threads: 3, cacheFolder })).toBe(plain);
    expect(await found({ threads: 1, cacheFolder, verify: true })).toBe(plain);
    expect([...(await kept()).keys()]).toEqual([...files.keys()]);
    expect(await found({ threads: 1, cacheFolder }, join(folder, "packed"))).toBe(plain);
  });

  it("when two runs use one cache at once", async () => {
    const both = await Promise.all([found({ cacheFolder }), found({ cacheFolder })]);
    expect(both).toEqual([plain, plain]);
    expect(await found({ cacheFolder })).toBe(plain);
    expect([...(await kept()).keys()].filter((name) => name.includes("partial"))).toEqual([]);
  });

  it("when files of the cache are cut, spoilt or foreign, which are then written anew", async () => {
    await found({ cacheFolder });
    const whole = await kept();
    const spoil = [
      (bytes: Buffer) => bytes.subarray(0, bytes.length - 9),
      (bytes: Buffer) => bytes.map((byte, at) => (at === bytes.length - 40 ? byte ^ 1 : byte)),
      () => Buffer.from("somebody else's\n"),
      () => Buffer.alloc(0),
    ];
    for (const spoilt of spoil) {
      for (const [name, bytes] of whole) await writeFile(join(cacheFolder, name), spoilt(bytes));
      expect(await found({ cacheFolder })).toBe(plain);
      const anew = await kept();
      expect([...anew.keys()]).toEqual([...whole.keys()]);
      for (const [name, bytes] of anew) expect(bytes.equals(spoilt(whole.get(name)!)), name).toBe(false);
      // What is whole is let be. (Not compared by its bytes with what was first written: one and the same number may be
      // written in several ways.)
      const before = await places();
      expect(await found({ cacheFolder })).toBe(plain);
      expect(await places()).toEqual(before);
    }
  });
});

describe("a log that was read before", () => {
  /** Other bytes of the same length in place of a log, with the times of the one before. */
  async function replaceUnseen(path: string): Promise<void> {
    const { atime, mtime, size } = await stat(path);
    await writeFile(path, Buffer.alloc(size, "x"));
    await utimes(path, atime, mtime);
  }

  it("is not read again while path, size and time of change stand; with verify, its content must stand too", async () => {
    const own = join(folder, "own");
    await seasonFolder(own);
    const path = join(own, "1.log");
    const whole = new Date(1_900_000_000_000);
    await utimes(path, whole, whole);
    const before = await found({ cacheFolder }, own);
    await replaceUnseen(path);
    expect(await found({ cacheFolder }, own)).toBe(before);
    expect(await found({ cacheFolder, verify: true }, own)).not.toBe(before);
  });

  it("is read again when it has grown", async () => {
    const own = join(folder, "growing");
    await seasonFolder(own);
    await found({ cacheFolder }, own);
    await writeFile(join(own, "1.log"), await readFile(join(own, "2.log")), { flag: "a" });
    expect(await found({ cacheFolder }, own)).toBe(await found({}, own));
  });

  it("overlaps another one: what both hold counts once, and that is told", async () => {
    const [own, twice] = [join(folder, "overlapping"), join(folder, "overlap")];
    await seasonFolder(own);
    await mkdir(twice);
    const [one, other] = await Promise.all(["1.log", "2.log"].map((name) => readFile(join(own, name))));
    await writeFile(join(twice, "all.log"), Buffer.concat([one!, other!]));
    await writeFile(join(twice, "half.log"), other!);
    const whole = await commandLine("check", join(twice, "all.log"), "--json");
    const both = await commandLine("check", twice, "--json");
    const sailedIn = ({ out }: typeof whole) => checkSchema.parse(JSON.parse(out)).sailed;
    expect(sailedIn(both)).toMatchObject({ ...sailedIn(whole), other_s: expect.any(Number) });
    expect(checkSchema.parse(JSON.parse(both.out)).stands_out).toEqual(
      expect.arrayContaining([expect.stringMatching(/all\.log and \S+half\.log overlap by 18 min: /)]),
    );
  });
});

describe("the folder of what is kept", () => {
  const home = homedir();
  it.each([
    [{ BOTHTACKS_CACHE: "/own", XDG_CACHE_HOME: "/caches" }, "linux", "/own"],
    [{ XDG_CACHE_HOME: "/caches" }, "linux", "/caches/bothtacks"],
    [{ XDG_CACHE_HOME: "caches" }, "linux", `${home}/.cache/bothtacks`],
    [{ BOTHTACKS_CACHE: "", XDG_CACHE_HOME: "" }, "linux", `${home}/.cache/bothtacks`],
    [{}, "darwin", `${home}/Library/Caches/bothtacks`],
    [{ LOCALAPPDATA: "/local" }, "win32", "/local/bothtacks/Cache"],
  ] as const)("with %o on %s is %s", (env, platform, expected) => {
    expect(folderFor(env, platform)).toBe(expected);
  });
});

describe("progress", () => {
  it("tells the time left once the pace is known", () => {
    expect(progressWords("fitting", Number.NaN, 0)).toBe("fitting …");
    expect(progressWords("reading", 0.5, 1000)).toBe("reading 50 %");
    expect(progressWords("reading", 0.25, 10_000)).toBe("reading 25 %, 30 s left");
    expect(progressWords("reading", 0.001, 10_000)).toBe("reading 0 %");
  });

  it("of a season goes from 0 to 1 over all its readings", async () => {
    const shares: number[] = [];
    const logs = await logsAt([season]);
    const progress = (what: string, share: number) => {
      if (what.startsWith("reading")) shares.push(share);
    };
    await summariseLogs(logs, UNKNOWN_BOAT, { progress });
    expect(shares.toSorted((a, b) => a - b)).toEqual(shares);
    expect(shares[0]).toBeGreaterThan(0);
    expect(shares.at(-1)).toBe(1);
  });
});

describe("where nothing can be kept", () => {
  it("that is told in one line, and the season is read all the same", async () => {
    const file = join(folder, "file");
    await writeFile(file, "");
    const told: string[] = [];
    const complain = (text: string) => told.push(text);
    expect(await found({ cacheFolder: file, complain })).toBe(plain);
    expect(told).toEqual([
      `${file}: a part of this path is a file, not a folder; what was read is not kept for the next time`,
    ]);
  });
});
