import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";
import { compiled } from "../cells/compiled.ts";
import { readNotebook } from "../cells/notebook.ts";
import { gzipModule, isGzip } from "./gzipped.ts";

/** Cells import our own packages as a module of this one does, wherever the Markdown lies. */
const INSIDE = fileURLToPath(new URL("../index.ts", import.meta.url));

/**
 * Makes a module of a notebook: `import notebook from "./the-wind.md"` gives its cells, ready to run; and of a file as gzip:
 * `import log from "./log.nmea?gzip"`.
 */
export const notebooks = (): Plugin => ({
  name: "notebooks",
  enforce: "pre",
  resolveId(specifier, importer) {
    if (!importer?.endsWith(".md") || !specifier.startsWith("@bothtacks/")) return null;
    return this.resolve(specifier, INSIDE, { skipSelf: true });
  },
  async load(id) {
    if (isGzip(id)) return { code: await gzipModule(id), map: null };
    if (!id.endsWith(".md")) return null;
    return { code: await compiled(readNotebook(await readFile(id, "utf8"), id)), map: null };
  },
});
