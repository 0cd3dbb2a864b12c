import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { basename } from "node:path";
import { readNotebook } from "../cells/notebook.ts";
import { bundle } from "./bundle.ts";
import { katexStyle } from "./katexStyle.ts";
import {
  pageHtml,
  plotlyBeside,
  plotlyInside,
  scriptBeside,
  scriptInside,
  styleBeside,
  styleInside,
} from "./pageHtml.ts";
import { STYLE } from "./style.ts";

/** Files by name. */
export type Files = Readonly<Record<string, string>>;

/** The list of notebooks; it has no way to itself. */
const LIST = "index";

const require = createRequire(import.meta.url);

const plotly = (): Promise<string> => readFile(require.resolve("plotly.js-dist-min/plotly.min.js"), "utf8");

/** Links between notebooks lead to their pages. */
const withLinksToPages = (body: string): string => body.replace(/(<a href="[\w-]+)\.md(?=["#])/g, "$1.html");

/** How a page is made. */
export interface PageForm {
  /** Everything in one file, or files beside each other that the pages share. */
  readonly isOneFile: boolean;
  /** Whether to take time to make the script small. */
  readonly isSmall: boolean;
  /** A script to go with the notebook's own. */
  readonly moreScript?: string;
}

/**
 * A notebook's page: one HTML file, or an HTML file with those that it needs beside it. It asks for nothing else, and opens
 * from a file as it does from a server.
 *
 * @param file the Markdown's path
 * @throws CellProblem where the notebook is wrong, and Error where it imports what is not there
 */
export async function notebookPage(file: string, form: PageForm): Promise<Files> {
  const name = basename(file, ".md");
  const { title, body, cells, hasMaths } = readNotebook(await readFile(file, "utf8"), file);
  const { script, hasFigures } =
    cells.length > 0 ? await bundle(file, form.isSmall) : { script: "", hasFigures: false };
  const styles: Files = { "notebooks.css": STYLE, ...(hasMaths ? { "maths.css": await katexStyle() } : {}) };
  const scripts: Files =
    script + (form.moreScript ?? "") === "" ? {} : { [`${name}.js`]: script + (form.moreScript ?? "") };
  const figures: Files = hasFigures ? { "plotly.min.js": await plotly() } : {};
  const elements = form.isOneFile
    ? [texts(styles, styleInside), texts(figures, plotlyInside) + texts(scripts, scriptInside)]
    : [names(styles, styleBeside) + names(figures, plotlyBeside), names(scripts, scriptBeside)];
  const page = pageHtml({
    title,
    body: withLinksToPages(body),
    styles: elements[0]!,
    scripts: elements[1]!,
    hasList: !form.isOneFile && name !== LIST,
    isSealed: form.isOneFile,
  });
  const beside = form.isOneFile ? {} : { ...styles, ...scripts, ...figures };
  return { [`${name}.html`]: page, ...beside };
}

const texts = (files: Files, element: (text: string) => string): string =>
  Object.values(files).map(element).join("\n");

const names = (files: Files, element: (name: string) => string): string =>
  Object.keys(files).map(element).join("\n");
