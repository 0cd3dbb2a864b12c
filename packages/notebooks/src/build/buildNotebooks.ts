import { mkdir, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { cellProblems } from "./cellProblems.ts";
import { type Files, notebookPage } from "./notebookPage.ts";

/** A notebook's page in one file. */
export interface BuiltPage {
  readonly path: string;
  readonly bytes: number;
}

async function write(folder: string, files: Files): Promise<void> {
  for (const [name, text] of Object.entries(files)) await writeFile(join(folder, name), text);
}

/**
 * Writes the pages of notebooks: under `folder` with the files that they share, under `single` each in one file. Both
 * open from a file, with no network.
 *
 * @param files paths of Markdown
 * @param out a folder of its own; what is in it is replaced
 * @param typesAreChecked whether the cells' types were checked before, which takes the compiler some seconds
 * @returns the pages in one file
 * @throws CellProblem for the first problem of a cell, types included; nothing is written then
 */
export async function buildNotebooks(
  files: readonly string[],
  out: string,
  { typesAreChecked = false } = {},
): Promise<readonly BuiltPage[]> {
  const [problem] = typesAreChecked ? [] : await cellProblems(files);
  if (problem) throw problem;
  const [folder, single] = [join(out, "folder"), join(out, "single")];
  for (const one of [folder, single]) {
    await rm(one, { recursive: true, force: true });
    await mkdir(one, { recursive: true });
  }
  const built: BuiltPage[] = [];
  for (const file of files) {
    const { name, whole, files: beside } = await notebookPage(file, { isSmall: true });
    await write(single, { [name]: whole });
    await write(folder, beside);
    built.push({ path: join(single, name), bytes: Buffer.byteLength(whole) });
  }
  return built;
}
