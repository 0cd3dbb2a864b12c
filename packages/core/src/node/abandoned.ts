import { readdir, rename, rm } from "node:fs/promises";
import { hostname } from "node:os";
import { basename, dirname, join, resolve } from "node:path";

/** Where a file or folder is made before it takes its place: beside that, with who makes it in the name. */
const MARK = ".partial-";
const HOST = hostname().replace(/[^A-Za-z0-9]/g, "");

/** In the folder beside: what was at the place before, for as long as nothing is there. */
export const OLD = "old";

/** What the name of a folder beside a path begins with. */
export const besideName = (path: string): string => `${resolve(path)}${MARK}${HOST}-${process.pid}-`;

function isAlive(process_: number): boolean {
  try {
    process.kill(process_, 0);
    return true;
  } catch (error) {
    return error instanceof Error && "code" in error && error.code === "EPERM";
  }
}

/**
 * Puts right what a run that was killed left beside a path: what was there before comes back if nothing is there now, and what was
 * half made goes. Never throws: what cannot be put right stays.
 */
export async function putAbandonedRight(path: string): Promise<void> {
  const folder = dirname(resolve(path));
  const begin = `${basename(path)}${MARK}${HOST}-`;
  const names = await readdir(folder).catch((): string[] => []);
  for (const name of names.filter((one) => one.startsWith(begin))) {
    const [maker = ""] = name.slice(begin.length).split("-");
    if (!/^\d+$/.test(maker) || isAlive(Number(maker))) continue;
    const beside = join(folder, name);
    if (!names.includes(basename(path)))
      await rename(join(beside, OLD), resolve(path)).catch(() => undefined);
    await rm(beside, { recursive: true, force: true }).catch(() => undefined);
  }
}
