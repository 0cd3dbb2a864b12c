import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { FileProblem } from "../../packages/core/src/node/fileProblem.ts";
import { logFile } from "../../packages/core/src/node/logFile.ts";
import { writeFileWhole, writeFolderWhole } from "../../packages/core/src/node/writeWhole.ts";

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "bothtacks-files-"));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

const files = { "a.json": "{}", "b.csv": "x\n" };

describe("a folder", () => {
  it("is written whole, parents too, with nothing left beside it", async () => {
    const out = join(folder, "season", "day");
    await writeFolderWhole(out, files, false);
    expect((await readdir(out)).sort()).toEqual(["a.json", "b.csv"]);
    expect(await readdir(join(folder, "season"))).toEqual(["day"]);
  });

  it("may be there and empty", async () => {
    const out = join(folder, "out");
    await mkdir(out);
    await writeFolderWhole(out, files, false);
    expect(await readFile(join(out, "b.csv"), "utf8")).toBe("x\n");
  });

  it("is replaced only when asked to, and only when it holds nothing else", async () => {
    const out = join(folder, "out");
    await writeFolderWhole(out, files, false);
    await expect(writeFolderWhole(out, { ...files, "a.json": "2" }, false)).rejects.toThrow("not empty");
    await writeFolderWhole(out, { ...files, "a.json": "2" }, true);
    expect(await readFile(join(out, "a.json"), "utf8")).toBe("2");
    await writeFile(join(out, "diary.txt"), "mine");
    await expect(writeFolderWhole(out, files, true)).rejects.toThrow("something else, too (diary.txt)");
    expect(await readFile(join(out, "a.json"), "utf8")).toBe("2");
    expect(await readdir(folder)).toEqual(["out"]);
  });

  it("is refused in words where a file stands in the way", async () => {
    await writeFile(join(folder, "file"), "");
    await expect(writeFolderWhole(join(folder, "file"), files, false)).rejects.toThrow(FileProblem);
    await expect(writeFolderWhole(join(folder, "file", "out"), files, false)).rejects.toThrow(
      "a part of this path is a file, not a folder",
    );
    expect(await readdir(folder)).toEqual(["file"]);
  });
});

describe("a file", () => {
  it("is written whole or not at all", async () => {
    const path = join(folder, "out.csv");
    await writeFileWhole(path, ["a\n", "b\n"], false);
    expect(await readFile(path, "utf8")).toBe("a\nb\n");
    async function* broken() {
      yield "half";
      throw new Error("the log ended badly");
    }
    await expect(writeFileWhole(path, broken(), true)).rejects.toThrow("the log ended badly");
    expect(await readFile(path, "utf8")).toBe("a\nb\n");
    expect(await readdir(folder)).toEqual(["out.csv"]);
  });

  it("is not written over unless asked to", async () => {
    const path = join(folder, "out.csv");
    await writeFile(path, "old");
    await expect(writeFileWhole(path, ["new"], false)).rejects.toThrow("is there already");
    await expect(writeFileWhole(folder, ["new"], true)).rejects.toThrow("is a folder");
    expect(await readFile(path, "utf8")).toBe("old");
  });
});

describe("a log file", () => {
  it("can be read more than once", async () => {
    const path = join(folder, "a.nmea");
    await writeFile(path, "some bytes");
    const log = await logFile(path);
    expect(log.bytes).toBe(10);
    for (const _ of [1, 2]) {
      let length = 0;
      for await (const chunk of log.chunks) length += chunk.length;
      expect(length).toBe(10);
    }
  });

  it("is refused in words when it is none", async () => {
    await expect(logFile(join(folder, "absent"))).rejects.toThrow("absent: there is no such file or folder");
    await expect(logFile(folder)).rejects.toThrow("is a folder");
  });
});
