import { fileURLToPath } from "node:url";
import { build, defaultClientConditions, type Plugin } from "vite";
import { notebooks } from "./plugin.ts";

/** The package's folder. */
export const HERE = fileURLToPath(new URL("../../", import.meta.url));

const ENTRY = "virtual:notebook-page";
const OPEN = fileURLToPath(new URL("../page/openNotebook.ts", import.meta.url));

/** What the page runs: this notebook, opened. */
const entry = (file: string): Plugin => ({
  name: "notebook-page",
  resolveId: (id) => (id === ENTRY ? `\0${ENTRY}` : null),
  load: (id) =>
    id === `\0${ENTRY}`
      ? `import notebook from ${JSON.stringify(file)};
import { openNotebook } from ${JSON.stringify(OPEN)};
openNotebook(notebook);`
      : null,
});

export interface Bundle {
  /** A classic script, workers and all. */
  readonly script: string;
  /** Whether anything in it makes figures, apart from the page that draws them. */
  readonly hasFigures: boolean;
}

const PAGE = fileURLToPath(new URL("../page/", import.meta.url));
const FIGURES = /\btraces\b|\bdrawFigure\b/;

/**
 * The script of a notebook's page.
 *
 * @param file the Markdown's path
 * @param isSmall whether to take time to make it small
 * @throws CellProblem where the notebook is wrong, and Error where it imports what is not there
 */
export async function bundle(file: string, isSmall: boolean): Promise<Bundle> {
  const result = await build({
    configFile: false,
    root: HERE,
    logLevel: "silent",
    plugins: [notebooks(), entry(file)],
    resolve: { conditions: ["bothtacks-source", ...defaultClientConditions] },
    worker: { format: "iife" },
    build: {
      write: false,
      target: "es2023",
      minify: isSmall ? "oxc" : false,
      modulePreload: false,
      rollupOptions: { input: ENTRY, output: { format: "iife", codeSplitting: false } },
    },
  });
  const [output] = [result].flat();
  const chunk = output && "output" in output ? output.output.find((one) => one.type === "chunk") : undefined;
  if (chunk?.type !== "chunk") throw new Error(`${file}: nothing was built`);
  const hasFigures = Object.entries(chunk.modules).some(
    ([id, { code }]) => !id.startsWith(PAGE) && FIGURES.test(code ?? ""),
  );
  return { script: chunk.code, hasFigures };
}
