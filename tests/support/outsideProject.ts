import { execFile } from "node:child_process";
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";

const run = promisify(execFile);

/** The workspace, and its library. */
export const root = fileURLToPath(new URL("../../", import.meta.url));
export const core = join(root, "packages", "core");

const packageManager = async (): Promise<string> => {
  const manifest: { readonly packageManager: string } = JSON.parse(
    await readFile(join(root, "package.json"), "utf8"),
  );
  return manifest.packageManager;
};

/** Builds the library, packs it as it would be published into a folder; the path of the tarball. */
export async function packedLibrary(folder: string): Promise<string> {
  await run("npx", ["--yes", await packageManager(), "pack", "--pack-destination", folder], { cwd: core });
  return join(folder, "bothtacks-core-0.1.0.tgz");
}

/** Makes a folder a project of its own that depends on a tarball and nothing else. */
export async function dependOn(tarball: string, folder: string): Promise<void> {
  const manifest = { name: "outside", private: true, dependencies: { "@bothtacks/core": `file:${tarball}` } };
  await writeFile(join(folder, "package.json"), JSON.stringify(manifest));
}

/** Installs by npm, from its cache where it can. */
export const npmInstall = (folder: string): Promise<unknown> =>
  run("npm", ["install", "--no-audit", "--no-fund", "--prefer-offline", "--loglevel=error"], { cwd: folder });

/** Installs by pnpm, from its store where it can. */
export const pnpmInstall = async (folder: string): Promise<unknown> =>
  run("npx", ["--yes", await packageManager(), "install", "--prefer-offline", "--ignore-workspace"], {
    cwd: folder,
  });

/** What a command printed; where it failed, what it printed on its way. */
export const outputOf = (
  command: string,
  options: readonly string[],
  folder: string,
): Promise<{ readonly status: number; readonly output: string }> =>
  run(command, [...options], { cwd: folder }).then(
    ({ stdout }) => ({ status: 0, output: stdout }),
    (error: { readonly code?: number; readonly stdout?: string; readonly stderr?: string }) => ({
      status: error.code ?? 1,
      output: `${error.stdout ?? ""}${error.stderr ?? ""}`,
    }),
  );
