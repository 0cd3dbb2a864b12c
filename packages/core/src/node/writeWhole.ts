import { createWriteStream } from "node:fs";
import { mkdir, mkdtemp, readdir, rename, rm, rmdir, stat, writeFile } from "node:fs/promises";
import { dirname, join, resolve } from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { besideName, OLD, putAbandonedRight } from "./abandoned.ts";
import { FileProblem, fileProblem } from "./fileProblem.ts";

/** File names and their contents. */
export type Files = Readonly<Record<string, string | Uint8Array>>;

const namesIn = async (folder: string): Promise<readonly string[] | undefined> => {
  try {
    return await readdir(folder);
  } catch (error) {
    if (error instanceof Error && "code" in error && error.code === "ENOENT") return undefined;
    throw fileProblem(folder, error);
  }
};

/**
 * Makes sure that a folder may be written as a whole: absent or empty, or, when replacing, holding nothing but files
 * of the names to be written. What a run that was killed left beside it is put right first.
 *
 * @throws FileProblem saying why not
 * @example
 * await requireFolderFree(`${folder}/none`, ["calibration.json"], false); // throws where one is there
 */
export async function requireFolderFree(
  folder: string,
  names: readonly string[],
  replace: boolean,
): Promise<void> {
  await putAbandonedRight(folder);
  const present = (await namesIn(folder)) ?? [];
  if (present.length === 0) return;
  if (!replace) throw new FileProblem(folder, "the folder is not empty; name another, or give --replace");
  const foreign = present.find((name) => !names.includes(name));
  if (foreign !== undefined)
    throw new FileProblem(folder, `will not be replaced, since it holds something else, too (${foreign})`);
}

/**
 * Makes sure that a file may be written: absent, or a file that may be replaced. What a run that was killed left beside it is
 * put right first.
 *
 * @throws FileProblem saying why not
 * @example
 * await requireFileFree(`${folder}/none.csv`, false); // throws where it is there
 */
export async function requireFileFree(path: string, replace: boolean): Promise<void> {
  await putAbandonedRight(path);
  const status = await stat(path).catch(() => undefined);
  if (status === undefined) return;
  if (!status.isFile()) throw new FileProblem(path, status.isDirectory() ? "is a folder" : "is no file");
  if (!replace) throw new FileProblem(path, "is there already; name another, or give --replace");
}

/** Does work in a new folder beside a path; takes it away afterwards, whatever happens. */
async function besidePath(path: string, work: (beside: string) => Promise<void>): Promise<void> {
  const target = resolve(path);
  let beside: string | undefined;
  try {
    await mkdir(dirname(target), { recursive: true });
    beside = await mkdtemp(besideName(path));
    await work(beside);
  } catch (error) {
    throw error instanceof Error && "code" in error ? fileProblem(path, error) : error;
  } finally {
    if (beside !== undefined) await rm(beside, { recursive: true, force: true });
  }
}

/** Moves a folder to another place, if there is one; another run may do the same meanwhile. */
async function outOfTheWay(folder: string, place: string): Promise<void> {
  try {
    const present = await namesIn(folder);
    if (present?.length === 0) await rmdir(folder);
    else if (present) await rename(folder, place);
  } catch (error) {
    if (!(error instanceof Error && "code" in error && error.code === "ENOENT")) throw error;
  }
}

/**
 * Writes a folder whole or not at all: files are written beside it, then take its place in one step.
 *
 * @throws FileProblem; what was there before stays
 * @example
 * await writeFolderWhole(`${folder}/answer`, { "calibration.json": "{}" }, true);
 */
export async function writeFolderWhole(folder: string, files: Files, replace: boolean): Promise<void> {
  await requireFolderFree(folder, Object.keys(files), replace);
  await besidePath(folder, async (beside) => {
    const [fresh, old] = [join(beside, "new"), join(beside, OLD)];
    await mkdir(fresh);
    for (const [name, content] of Object.entries(files)) await writeFile(join(fresh, name), content);
    await outOfTheWay(folder, old);
    await rename(fresh, folder).catch(async (error: unknown) => {
      await rename(old, folder).catch(() => undefined);
      throw error;
    });
  });
}

/**
 * Writes a file whole or not at all, from pieces that come one by one.
 *
 * @throws FileProblem, or what the pieces throw; what was there before stays
 * @example
 * await writeFileWhole(`${folder}/wind.csv`, ["time,tws_kn\n", "0,12.0\n"], true);
 */
export async function writeFileWhole(
  path: string,
  pieces: AsyncIterable<string | Uint8Array> | Iterable<string | Uint8Array>,
  replace: boolean,
): Promise<void> {
  await requireFileFree(path, replace);
  await besidePath(path, async (beside) => {
    const fresh = join(beside, "new");
    await pipeline(Readable.from(pieces, { objectMode: true }), createWriteStream(fresh));
    await rename(fresh, path);
  });
}
