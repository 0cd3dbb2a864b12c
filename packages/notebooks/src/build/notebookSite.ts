import { access, readdir, readFile } from "node:fs/promises";
import { basename, join } from "node:path";
import { escaped } from "@bothtacks/core/page";
import { type Files, notebookPage } from "./notebookPage.ts";
import { pageHtml, scriptInside, styleInside } from "./pageHtml.ts";
import { STYLE } from "./style.ts";

/** Where a page learns that its text has changed. */
export const CHANGES = "changes";

/** Loads the page again when the server says so. */
const RELOAD = `new EventSource("${CHANGES}").onmessage = () => location.reload();\n`;

/** The notebooks in a folder, by the paths of their Markdown. */
export const notebooksIn = async (folder: string): Promise<readonly string[]> =>
  (await readdir(folder))
    .filter((name) => name.endsWith(".md"))
    .sort()
    .map((name) => join(folder, name));

/** The page that lists the others. */
const LIST = "index.html";

/** A list of the notebooks in a folder that has none of its own, by their titles. */
async function listPage(folder: string): Promise<string> {
  const entries = await Promise.all(
    (await notebooksIn(folder)).map(async (file) => {
      const heading = /^# (.+)$/m.exec(await readFile(file, "utf8"))?.[1];
      const name = basename(file, ".md");
      return `<li><a href="${escaped(name)}.html">${escaped(heading ?? name)}</a></li>`;
    }),
  );
  return pageHtml({
    title: "Notebooks",
    body: `<h1>Notebooks</h1>\n<ul>${entries.join("\n")}</ul>`,
    styles: styleInside(STYLE),
    scripts: scriptInside(RELOAD),
    hasList: false,
    isSealed: false,
  });
}

/** What cannot be shown, and why; it loads again as well. */
const troublePage = (error: unknown): string =>
  pageHtml({
    title: "This notebook cannot be shown",
    body: `<h1>This notebook cannot be shown</h1>
<div class="trouble" role="alert"><p>${escaped(error instanceof Error ? error.message : String(error))}</p></div>
<p>The page loads again when the file is saved.</p>`,
    styles: styleInside(STYLE),
    scripts: scriptInside(RELOAD),
    hasList: true,
    isSealed: false,
  });

/** The notebooks of a folder as pages that load again when told; each is made when it is first asked for. */
export class NotebookSite {
  private readonly pages = new Map<string, Promise<Files>>();
  /** What the pages made so far have beside them. */
  private beside: Files = {};

  constructor(private readonly folder: string) {}

  /**
   * A page, or a file that a page made before has beside it.
   *
   * @param name without a path
   * @returns undefined where there is no such file. Never rejects for a notebook that is wrong: its page says so.
   */
  async file(name: string): Promise<string | undefined> {
    if (!name.endsWith(".html") || name !== basename(name)) return this.beside[name];
    const markdown = join(this.folder, name.replace(/\.html$/, ".md"));
    const exists = await access(markdown).then(
      () => true,
      () => false,
    );
    if (!exists) return name === LIST ? listPage(this.folder) : undefined;
    const files = await (this.pages.get(name) ?? this.made(name, markdown));
    this.beside = { ...this.beside, ...files };
    return files[name];
  }

  /** Makes every page anew when it is next asked for. */
  forget(): void {
    this.pages.clear();
  }

  private made(name: string, markdown: string): Promise<Files> {
    const page = notebookPage(markdown, { isSmall: false, moreScript: RELOAD }).then(
      ({ files }) => files,
      (error: unknown) => ({ [name]: troublePage(error) }),
    );
    this.pages.set(name, page);
    return page;
  }
}
