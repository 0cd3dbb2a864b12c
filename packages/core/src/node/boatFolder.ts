import { link, mkdir, readdir, rm, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { Boat } from "../calibration/boat.ts";
import { boatFromFile, UNKNOWN_BOAT } from "../calibration/boatFile.ts";
import { type BoatHistory, boatHistoryOf, recordFileName } from "../calibration/boatHistory.ts";
import type { Seconds } from "../units.ts";
import { fileProblem } from "./fileProblem.ts";
import { readText } from "./readText.ts";

/** A boat's folder: her file and her history. */
export interface BoatFolder {
  readonly path: string;
  readonly boat: Boat;
  readonly history: BoatHistory;
}

const BOAT = "boat.json";
const HISTORY = "history";

/** Whether a path is a folder that is there. @throws FileProblem where that cannot be told */
export async function isFolder(path: string): Promise<boolean> {
  try {
    return (await stat(path)).isDirectory();
  } catch (error) {
    throw fileProblem(path, error);
  }
}

const isAbsent = (error: unknown): boolean =>
  error instanceof Error && "code" in error && error.code === "ENOENT";

async function namesIn(folder: string): Promise<readonly string[]> {
  try {
    return (await readdir(folder)).filter((name) => name.endsWith(".json")).sort();
  } catch (error) {
    if (isAbsent(error)) return [];
    throw fileProblem(folder, error);
  }
}

/**
 * A boat's folder: `boat.json`, where there is one, and what lies in `history`.
 *
 * @throws FileProblem, RefusedFile
 */
export async function boatFolder(path: string): Promise<BoatFolder> {
  const names = await namesIn(path);
  const boatPath = join(path, BOAT);
  const boat = names.includes(BOAT) ? boatFromFile(await readText(boatPath), boatPath) : UNKNOWN_BOAT;
  const history = join(path, HISTORY);
  const files = await Promise.all(
    (await namesIn(history)).map(async (name) => ({
      file: name,
      text: await readText(join(history, name)),
    })),
  );
  return { path, boat, history: boatHistoryOf(files) };
}

/**
 * Adds a file to a boat's history, whole or not at all; nothing that is there is ever written over.
 *
 * @param kind what it is, for its name
 * @param at the moment that it belongs to
 * @returns its path
 * @throws FileProblem
 */
export async function addToHistory(path: string, kind: string, at: Seconds, text: string): Promise<string> {
  const folder = join(path, HISTORY);
  const partial = join(folder, `.partial-${process.pid}`);
  try {
    await mkdir(folder, { recursive: true });
    await writeFile(partial, text);
    for (let taken = await namesIn(folder); ; taken = await namesIn(folder)) {
      const file = join(folder, recordFileName(kind, at, taken));
      try {
        // a link fails where the name is taken, even by someone who was faster
        await link(partial, file);
        return file;
      } catch (error) {
        if (!(error instanceof Error && "code" in error && error.code === "EEXIST")) throw error;
      }
    }
  } catch (error) {
    throw fileProblem(folder, error);
  } finally {
    await rm(partial, { force: true });
  }
}
