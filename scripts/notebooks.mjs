// `node scripts/notebooks.mjs check [FILE…]`: are the cells of the notebooks right, types included?
// `node scripts/notebooks.mjs build [FILE…]`: their pages, as a folder and each in one file.
// `node scripts/notebooks.mjs serve [FOLDER]`: serves the notebooks of a folder, and loads a page again when its text is saved.
import { relative, resolve } from "node:path";
import { runFromSource } from "./fromSource.mjs";
import { serveAll } from "./serveAll.mjs";
import { callersFolder, root, setUp } from "./setUp.mjs";

await setUp();
await runFromSource();
const { buildNotebooks, CellProblem, cellProblems, HERE, notebooksIn } = await import(
  "../packages/notebooks/src/build/index.ts"
);

const [command, ...given] = process.argv.slice(2);
const files =
  command !== "serve" && given.length > 0
    ? given.map((file) => resolve(callersFolder, file))
    : await notebooksIn(resolve(HERE, "notebooks"));

/** Says what is wrong, with paths as the caller would write them. */
function say({ file, line, column, words }) {
  console.error(`${relative(callersFolder, file)}:${line}:${column}: ${words}`);
  process.exitCode = 1;
}

if (command === "check") {
  for (const problem of await cellProblems(files)) say(problem);
} else if (command === "build") {
  try {
    for (const { path, bytes } of await buildNotebooks(files, resolve(HERE, "dist")))
      console.log(`${relative(root, path)}   ${Math.ceil(bytes / 1000)} kB`);
  } catch (error) {
    if (!(error instanceof CellProblem)) throw error;
    say(error);
  }
} else if (command === "serve") {
  const folder = given[0] === undefined ? undefined : resolve(callersFolder, given[0]);
  const { address } = await serveAll(folder ?? root, folder);
  console.log(`The notebooks: ${address}   (Ctrl-C ends)`);
} else {
  console.error("node scripts/notebooks.mjs check|build [FILE…], or serve [FOLDER]");
  process.exitCode = 2;
}
