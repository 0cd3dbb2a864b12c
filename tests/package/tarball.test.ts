import { execFile } from "node:child_process";
import { mkdtemp, readFile, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { seasonFolder } from "../support/seasonFolder.ts";

const run = promisify(execFile);
const root = fileURLToPath(new URL("../..", import.meta.url));
const core = join(root, "packages", "core");
const tool = (name: string): string => join(root, "node_modules", ".bin", name);

/** The package as it would be published: built, packed, unpacked, with nothing of the workspace beside it. */
describe("the package as published", () => {
  let folder: string;
  let installed: string;

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), "bothtacks-package-"));
    const { packageManager }: { packageManager: string } = JSON.parse(
      await readFile(join(root, "package.json"), "utf8"),
    );
    await run(tool("tsc"), ["-b", core]);
    await run("npx", ["--yes", packageManager, "pack", "--pack-destination", folder], { cwd: core });
    await run("tar", ["-xzf", "bothtacks-core-0.1.0.tgz"], { cwd: folder });
    installed = join(folder, "package");
    await symlink(join(core, "node_modules"), join(installed, "node_modules"));
    await writeFile(join(folder, "package.json"), JSON.stringify({ type: "module", private: true }));
    await symlink(installed, join(folder, "core"));
  });

  afterAll(() => rm(folder, { recursive: true, force: true }));

  it("names only files that it holds, and none of the workspace's own condition", async () => {
    const manifest: { exports: Record<string, Record<string, string>>; bin: Record<string, string> } =
      JSON.parse(await readFile(join(installed, "package.json"), "utf8"));
    const paths = [...Object.values(manifest.exports).flatMap(Object.values), ...Object.values(manifest.bin)];
    expect(paths.length).toBeGreaterThanOrEqual(5);
    for (const path of paths)
      expect((await readFile(join(installed, String(path)))).length).toBeGreaterThan(0);
    expect(JSON.stringify(manifest)).not.toContain("bothtacks-source");
  });

  it("runs in plain Node", async () => {
    const script = `
      import { metresPerSecond } from "./package/dist/index.js";
      console.log(metresPerSecond(3600 / 1852));`;
    const { stdout } = await run(process.execPath, ["--input-type=module", "--eval", script], {
      cwd: folder,
    });
    expect(stdout).toBe("1\n");
    const { stdout: version } = await run(process.execPath, [
      join(installed, "dist", "cli", "main.js"),
      "--version",
    ]);
    expect(version).toBe("0.1.0\n");
  });

  it("reads the logs of a folder in threads of its own program", async () => {
    await seasonFolder(join(folder, "season"));
    const check = [join(installed, "dist", "cli", "main.js"), "check", "season"];
    const env = { ...process.env, BOTHTACKS_CACHE: join(folder, "cache") };
    const one = await run(process.execPath, [...check, "--threads", "1", "--no-cache"], { cwd: folder, env });
    const two = await run(process.execPath, [...check, "--threads", "2"], { cwd: folder, env });
    const again = await run(process.execPath, check, { cwd: folder, env });
    expect(one.stdout).toContain("season/later/3.log");
    expect([two, again]).toEqual([one, one]);
  });

  it("keeps degrees out of places for radians, for whoever compiles against it", async () => {
    await writeFile(
      join(folder, "user.ts"),
      `import { degrees, radians, type Radians } from "./package/dist/index.js";
       export const half: Radians = radians(180);
       export const again: number = degrees(half);
       // @ts-expect-error degrees are not radians
       export const wrong: Radians = degrees(half);\n`,
    );
    const options = ["--noEmit", "--strict", "--module", "nodenext", "--moduleResolution", "nodenext"];
    const compiled = run(tool("tsc"), [...options, "--target", "es2023", "user.ts"], { cwd: folder });
    await expect(compiled.catch((error: { stdout: string }) => error.stdout)).resolves.toMatchObject({
      stdout: "",
    });
  });
});
