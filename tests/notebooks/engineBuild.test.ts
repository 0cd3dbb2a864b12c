/**
 * Pages made of notebooks, and what keeps a wrong one from being made.
 * INPUTS: notebooks written into a folder of their own. MARGIN: none.
 */
import { access, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildNotebooks } from "../../packages/notebooks/src/build/buildNotebooks.ts";
import { cellProblems } from "../../packages/notebooks/src/build/cellProblems.ts";
import { NotebookSite } from "../../packages/notebooks/src/build/notebookSite.ts";
import type { Notebook } from "../../packages/notebooks/src/run/notebook.ts";
import { runNotebook } from "../../packages/notebooks/src/run/runNotebook.ts";
import { serveAll } from "../../scripts/serveAll.mjs";

let folder: string;
const at = (name: string): string => join(folder, name);

const WRONG = `# Wrong in places

It is {{wrong}}, and {{radians(1).toFixt(1)}}.

Text of
two lines.

\`\`\`ts
import { degrees, type Radians, radians } from "@bothtacks/core";

  const angle: Radians = degrees(1);
const right = [1].map((degrees) => degrees + 1);
\`\`\`

\`\`\`ts
show(undefined);
const answer: string = ask({ label: "x", initial: 1, draw: () => undefined });
\`\`\`
`.replace("It is {{wrong}}, and ", "It is ");

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "notebooks-"));
  await writeFile(at("wrong.md"), WRONG);
  await writeFile(at("twice.md"), "# Twice\n\n```ts\nconst a = 1;\n```\n\n```ts\nconst a = 2;\n```\n");
  await writeFile(
    at("right.md"),
    '# Right\n\nSee [another](twice.md#part).\n\n```ts\nshow("</script><!--");\n```\n',
  );
});

afterAll(() => rm(folder, { recursive: true, force: true }));

describe("the cells' types", () => {
  it("are checked, and what is wrong is said at the Markdown's line and column", async () => {
    const problems = await cellProblems([at("wrong.md"), at("right.md"), at("twice.md")]);
    const lines = WRONG.split("\n");
    const places = problems.map(({ file, line, column, words }) => [file, line, column, words.slice(0, 6)]);
    const place = (text: string): [number, number] => {
      const line = lines.findIndex((one) => one.includes(text));
      return [line + 1, (lines[line] ?? "").indexOf(text) + 1];
    };
    expect(places).toEqual([
      [at("twice.md"), 8, 7, '"a" is'],
      [at("wrong.md"), ...place("toFixt"), "TS2339"],
      [at("wrong.md"), ...place("angle: R"), "TS2375"],
      [at("wrong.md"), ...place("undefined);"), "TS2345"],
      [at("wrong.md"), ...place("answer: s"), "TS2322"],
    ]);
  });

  it("keep a wrong notebook from being built, and nothing is written", async () => {
    await expect(buildNotebooks([at("right.md"), at("wrong.md")], at("out"))).rejects.toThrow(
      /wrong\.md:3:\d+: TS2339/,
    );
    await expect(access(at("out"))).rejects.toThrow(/ENOENT/);
  });
});

it("the manual's example is a notebook: its cells are right, and doubled 30° is 60°", async () => {
  const path = new URL("../../packages/notebooks/notebooks/writing-a-notebook.md", import.meta.url);
  const manual = await readFile(path, "utf8");
  const [, example = ""] = /^````md\n([\s\S]*?)^````$/m.exec(manual) ?? [];
  await writeFile(at("example.md"), example);
  expect(await cellProblems([at("example.md")])).toEqual([]);
  const { default: notebook }: { default: Notebook } = await import(/* @vite-ignore */ at("example.md"));
  const run = await runNotebook(notebook);
  expect(run.names().doubled).toBe(60);
  await run.answer("angle", 45);
  expect(run.names().doubled).toBe(90);
});

it("everything is served together: the notebooks, and beside them the files of a folder", async () => {
  await writeFile(at("report.html"), "<!doctype html><title>The report</title>");
  const { address, close } = await serveAll(folder);
  try {
    const text = async (name: string): Promise<string> => (await fetch(`${address}${name}`)).text();
    expect(await text("")).toContain("<h1>A wind one can believe</h1>");
    expect(await text("the-wind-triangle.html")).toContain("<h1>The wind triangle</h1>");
    expect(await text("the-wind-triangle.js")).toContain("boatSpeed");
    expect(await text("report.html")).toContain("The report");
    for (const name of ["nothing.html", "..%2Fright.md", "right.md", "%2Fetc%2Fpasswd"])
      expect((await fetch(`${address}${name}`)).status, name).toBe(404);
  } finally {
    close();
  }
});

describe("pages", () => {
  it("name nothing outside, whole or beside each other, and are no larger than they must be", async () => {
    const [page] = await buildNotebooks([relative(".", at("right.md"))], at("out"));
    const whole = await readFile(at("out/single/right.html"), "utf8");
    expect(page).toEqual({ path: at("out/single/right.html"), bytes: Buffer.byteLength(whole) });
    const beside = await readFile(at("out/folder/right.html"), "utf8");
    for (const text of [whole, beside]) {
      expect(text).not.toMatch(/(src|href)="?https?:/);
    }
    expect(beside).toContain('<a href="twice.html#part">');
    // alone, a page leads nowhere
    expect(whole).toMatch(/<span class="elsewhere">[^<]+<\/span>/);
    expect(whole).not.toContain("twice.html");
    expect(whole.match(/<script/g)).toHaveLength(1);
    expect(whole.match(/<\/script/g)).toHaveLength(1);
    // without formulas and figures neither their fonts nor plotly come along
    expect(whole.length).toBeLessThan(100_000);
  });

  it("are served as they stand in the Markdown, wrong ones with the place of what is wrong", async () => {
    const site = new NotebookSite(folder);
    expect(await site.file("right.html")).toContain("<h1>Right</h1>");
    expect(await site.file("right.js")).toContain('new EventSource("changes")');
    expect(await site.file("twice.html")).toContain(
      "twice.md:8:7: &quot;a&quot; is declared already on line 4",
    );
    expect(await site.file("nothing.html")).toBeUndefined();
    // a folder without a list of its own has one made
    expect(await site.file("index.html")).toContain('<li><a href="right.html">Right</a></li>');
    expect(await site.file("../right.html")).toBeUndefined();
    await writeFile(at("right.md"), "# Righter\n");
    expect(await site.file("right.html")).toContain("<h1>Right</h1>");
    site.forget();
    expect(await site.file("right.html")).toContain("<h1>Righter</h1>");
  });
});
