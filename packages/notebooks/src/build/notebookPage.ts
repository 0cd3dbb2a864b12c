import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { basename, resolve } from "node:path";
import { plotlyScript } from "@bothtacks/core/page";
import { readNotebook } from "../cells/notebook.ts";
import { PLOTLY_BESIDE, PLOTLY_TEXT_BESIDE, plotlyAsText } from "../page/plotlySource.ts";
import { bundle } from "./bundle.ts";
import { katexStyle } from "./katexStyle.ts";
import {
  linkBeside,
  type PageParts,
  pageHtml,
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

/** What draws figures, and its text for reports that are saved; few pages need that. */
const [DRAWS, TEXT] = ["plotly.js", "plotlyText.js"] as const;
const FIGURES_BESIDE = linkBeside(PLOTLY_BESIDE, DRAWS) + linkBeside(PLOTLY_TEXT_BESIDE, TEXT);

/** Links between notebooks lead to their pages. */
const withLinksToPages = (body: string): string => body.replace(/(<a href="[\w-]+)\.md(?=["#])/g, "$1.html");

/** A page that may lie alone says that the others lie elsewhere, instead of leading nowhere. */
const withoutLinksToPages = (body: string): string =>
  body.replace(/<a href="[\w-]+\.md(?:#[^"]*)?">(.*?)<\/a>/gs, '<span class="elsewhere">$1</span>');

/** How pages are made. */
export interface PageOptions {
  /** Whether to take time to make the script small. */
  readonly isSmall: boolean;
  /** A script to go with the notebook's own. */
  readonly moreScript?: string;
}

/** A notebook's page in both forms; it asks for nothing else, and opens from a file as it does from a server. */
export interface NotebookPage {
  /** Name of the page. */
  readonly name: string;
  /** Everything in one file. */
  readonly whole: string;
  /** The page and the files beside it, some of which other pages share. */
  readonly files: Files;
}

/**
 * A notebook's page.
 *
 * @param file the Markdown's path
 * @throws CellProblem where the notebook is wrong, and Error where it imports what is not there
 */
export async function notebookPage(file: string, options: PageOptions): Promise<NotebookPage> {
  const { isSmall, moreScript = "" } = options;
  const name = basename(file, ".md");
  const { title, body, cells, hasMaths } = readNotebook(await readFile(file, "utf8"), file);
  const made = cells.length > 0 ? await bundle(resolve(file), isSmall) : { script: "", hasFigures: false };
  const script = made.script + moreScript;
  const styles: Files = { "notebooks.css": STYLE, ...(hasMaths ? { "maths.css": await katexStyle() } : {}) };
  const scripts: Files = script === "" ? {} : { [`${name}.js`]: script };
  const source = made.hasFigures ? await plotly() : undefined;
  const page = (parts: Omit<PageParts, "title" | "body">, links: (body: string) => string): string =>
    pageHtml({ title, body: links(body), ...parts });
  const whole = page(
    {
      styles: texts(styles, styleInside),
      scripts: texts(scripts, scriptInside) + (source === undefined ? "" : plotlyInside(source)),
      hasList: false,
      isSealed: true,
    },
    name === LIST ? withLinksToPages : withoutLinksToPages,
  );
  const linked = page(
    {
      styles: names(styles, styleBeside) + (source === undefined ? "" : FIGURES_BESIDE),
      scripts: names(scripts, scriptBeside),
      hasList: name !== LIST,
      isSealed: false,
    },
    withLinksToPages,
  );
  const files = {
    [`${name}.html`]: linked,
    ...styles,
    ...scripts,
    ...(source === undefined ? {} : { [DRAWS]: plotlyScript(source).join(""), [TEXT]: plotlyAsText(source) }),
  };
  return { name: `${name}.html`, whole, files };
}

const texts = (files: Files, element: (text: string) => string): string =>
  Object.values(files).map(element).join("\n");

const names = (files: Files, element: (name: string) => string): string =>
  Object.keys(files).map(element).join("\n");
