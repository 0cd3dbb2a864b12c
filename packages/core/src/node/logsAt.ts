import { readdir, stat } from "node:fs/promises";
import { join } from "node:path";
import { FileProblem, fileProblem } from "./fileProblem.ts";
import { type LogFile, logFile } from "./logFile.ts";

/** Names that begin with a dot are the system's. */
const isHidden = (name: string): boolean => name.startsWith(".");

/** Files in a folder and in the folders in it, in the order of their names; links to folders are not followed. */
async function filesIn(folder: string): Promise<readonly string[]> {
  const entries = await readdir(folder, { withFileTypes: true }).catch((error: unknown) => {
    throw fileProblem(folder, error);
  });
  const names = entries.filter(({ name }) => !isHidden(name)).sort((a, b) => (a.name < b.name ? -1 : 1));
  const found: string[] = [];
  for (const entry of names) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) found.push(...(await filesIn(path)));
    else if (entry.isFile()) found.push(path);
    else if (entry.isSymbolicLink()) {
      const target = await stat(path).catch(() => undefined);
      if (target?.isFile()) found.push(path);
    }
  }
  return found;
}

const isFolder = async (path: string): Promise<boolean> =>
  (await stat(path).catch(() => undefined))?.isDirectory() ?? false;

/**
 * The logs at some paths: a file is a log, a folder stands for the logs in it, whatever they are called; which of its files are
 * logs shows when they are read.
 *
 * @returns in the order given, those of a folder in the order of their names; a file that is met twice once
 * @throws FileProblem where there is nothing at a path, or no file in a folder
 * @example
 * await writeFileWhole(`${folder}/season/day.nmea`, ["$GPZDA"], false);
 * (await logsAt([`${folder}/season`])).length // 1
 */
export async function logsAt(paths: readonly string[]): Promise<readonly LogFile[]> {
  const logs = new Map<string, LogFile>();
  for (const path of paths) {
    const hasMany = await isFolder(path);
    const files = hasMany ? await filesIn(path) : [path];
    if (files.length === 0) throw new FileProblem(path, "there is no file in this folder");
    for (const file of files) {
      const log = await logFile(file, hasMany);
      if (!logs.has(log.path)) logs.set(log.path, log);
    }
  }
  return [...logs.values()];
}
