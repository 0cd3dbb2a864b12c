import { readFile } from "node:fs/promises";
import { basename, join, relative } from "node:path";
import { serve } from "./serve.mjs";
import { callersFolder } from "./setUp.mjs";

const LIST = "index.html";

/** Says on the terminal what is wrong with the cells; the pages say only what keeps them from running. */
async function check({ cellProblems, notebooksIn }, folder) {
  const problems = await cellProblems(await notebooksIn(folder)).catch((error) => [error]);
  for (const { file, line, column, words, message } of problems)
    console.error(file ? `${relative(callersFolder, file)}:${line}:${column}: ${words}` : message);
}

/**
 * Serves the notebooks and, beside them, the files of a folder. The notebooks' pages load again when something is saved.
 * Call it when the process can import TypeScript.
 *
 * @param {string} results the folder with the report
 * @param {string} [given] the folder with the notebooks; the project's own by default
 * @returns {Promise<{ address: string, close: () => void }>}
 */
export async function serveAll(results, given) {
  const build = await import("../packages/notebooks/src/build/index.ts");
  const folder = given ?? join(build.HERE, "notebooks");
  const site = new build.NotebookSite(folder);
  const file = async (name) =>
    (await site.file(name)) ?? readFile(join(results, basename(name))).catch(() => undefined);
  const server = await serve({ file, first: LIST, changes: build.CHANGES });
  const stop = build.watched([folder, join(build.HERE, "src")], () => {
    site.forget();
    server.changed();
    void check(build, folder);
  });
  const close = () => {
    stop();
    server.close();
  };
  return { address: server.address, close };
}
