/**
 * How long the notebooks' pages stand still: while they open, and "Your boat" while it reads 200 MB of logs, fits, and draws its answer.
 * No debugger listens, as none does where people use them: with one, the browser reads plotly again for each exception that plotly
 * catches itself, half a second in all. By itself: `node --conditions=bothtacks-source --import tsx tests/bench/pageTicks.ts`.
 */
import { spawn } from "node:child_process";
import { createReadStream } from "node:fs";
import { mkdtemp, readdir, readFile, rm, stat } from "node:fs/promises";
import { createServer, type Server } from "node:http";
import { tmpdir } from "node:os";
import { basename, extname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { buildNotebooks } from "../../packages/notebooks/src/build/buildNotebooks.ts";
import { notebooksIn } from "../../packages/notebooks/src/build/notebookSite.ts";
import { BROWSER_ARGUMENTS, browserPath } from "../support/browser.ts";
import { writeSeason } from "./season.ts";

/** Some 200 MB of logs. */
const SENTENCES = 5_600_000;

/** What one could call fluent; a page that stands still for longer feels stuck. */
const MOST_MS = 100;

const PATIENCE = 900_000;

const notebooks = fileURLToPath(new URL("../../packages/notebooks/notebooks", import.meta.url));
const watch = new URL("pageWatch.mjs", import.meta.url);

/** One thing that a page does; ms. */
interface Stage {
  readonly name: string;
  /** The largest gap between ticks. */
  readonly gap: number;
  readonly ticks: number;
  /** The longest piece of the page's own work; 0 where none was above 50. A larger gap is a busy machine's. */
  readonly task: number;
  readonly ms: number;
}

/** What a page tells of itself. */
interface Told {
  /** When its first words were painted, ms. */
  readonly words?: number;
  readonly stages: readonly Stage[];
  readonly trouble: string;
  readonly said: string;
  readonly marks: number;
}

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".css": "text/css",
  ".js": "text/javascript",
  ".json": "application/json",
};

/** Serves pages that watch themselves, and the logs that they are to read; resolves `told` with what a page tells. */
function siteOf(pages: string, logs: string | undefined, names: readonly string[]) {
  let tell: (told: Told) => void = () => {};
  const told = new Promise<Told>((resolve) => {
    tell = resolve;
  });
  const bodyOf = async (name: string): Promise<string> => {
    if (name === "logs.json") return JSON.stringify({ names });
    const text = await readFile(join(pages, name), "utf8");
    const script = `<script type="module">${await readFile(watch, "utf8")}</script>`;
    return name.endsWith(".html") ? text.replace("<head>", `<head>${script}`) : text;
  };
  const server = createServer(async (request, response) => {
    const name = basename(new URL(request.url ?? "/", "http://localhost").pathname);
    if (request.method === "POST") {
      const pieces: Buffer[] = [];
      for await (const piece of request) pieces.push(piece as Buffer);
      tell(JSON.parse(Buffer.concat(pieces).toString()) as Told);
      response.end();
    } else if (names.includes(name) && logs !== undefined) createReadStream(join(logs, name)).pipe(response);
    else
      await bodyOf(name).then(
        (body) => response.writeHead(200, { "content-type": TYPES[extname(name)] ?? "" }).end(body),
        () => response.writeHead(404).end(),
      );
  });
  return { server, told };
}

const portOf = (server: Server): Promise<number> =>
  new Promise((resolve) => {
    server.listen(0, "127.0.0.1", () => {
      const address = server.address();
      resolve(typeof address === "object" && address ? address.port : 0);
    });
  });

/** Opens a page in a browser of its own, without a debugger, and returns what it tells. */
async function toldBy(pages: string, page: string, logs?: string): Promise<Told> {
  const names = logs === undefined ? [] : (await readdir(logs)).sort();
  const { server, told } = siteOf(pages, logs, names);
  const profile = await mkdtemp(join(tmpdir(), "bothtacks-browser-"));
  const address = `http://127.0.0.1:${await portOf(server)}/${page}`;
  const options = ["--headless", "--remote-debugging-port=0", `--user-data-dir=${profile}`];
  const browser = spawn(await browserPath(), [...BROWSER_ARGUMENTS, ...options, address], {
    stdio: "ignore",
  });
  const gone = new Promise<void>((resolve) => browser.once("exit", () => resolve()));
  let timer: NodeJS.Timeout | undefined;
  try {
    const late = new Promise<never>((_, reject) => {
      timer = setTimeout(() => reject(new Error(`${page} does not come to its end`)), PATIENCE);
    });
    return await Promise.race([
      told,
      late,
      gone.then(() => Promise.reject(new Error("the browser stopped"))),
    ]);
  } finally {
    clearTimeout(timer);
    browser.kill();
    await gone;
    server.close();
    server.closeAllConnections();
    await rm(profile, { recursive: true, force: true, maxRetries: 5 });
  }
}

const wholeMs = (ms: number): string => ms.toFixed(0);

const taskWords = (task: number): string => (task === 0 ? "below 50" : wholeMs(task));

/** The lines of a table on how the pages open. */
async function opened(pages: string, names: readonly string[]): Promise<readonly string[]> {
  const rows: string[] = [];
  for (const name of names) {
    const { words, stages } = await toldBy(join(pages, "folder"), name);
    const { size } = await stat(join(pages, "single", name));
    const { ms = Number.NaN, gap = Number.NaN, task = Number.NaN } = stages[0] ?? {};
    rows.push(
      `| ${name} | ${(size / 1e6).toFixed(1)} | ${wholeMs(words ?? Number.NaN)} | ${wholeMs(ms)} | ${wholeMs(gap)} | ${taskWords(task)} |`,
    );
  }
  return rows;
}

/** Opens every page, has "Your boat" read a season, and returns what came of it in lines of Markdown. */
export async function pageTicks(): Promise<readonly string[]> {
  const folder = await mkdtemp(join(tmpdir(), "bothtacks-ticks-"));
  try {
    const [pages, logs] = [join(folder, "pages"), join(folder, "logs")];
    const { days, bytes } = writeSeason(logs, SENTENCES);
    const built = await buildNotebooks(await notebooksIn(notebooks), pages);
    const names = built.map(({ path }) => basename(path));
    const table = await opened(pages, names);
    const { stages, trouble, said, marks } = await toldBy(join(pages, "folder"), "your-boat.html", logs);
    if (trouble !== "") throw new Error(`the page could not read the logs: ${trouble}`);
    const wanted = stages.filter(({ name }) => ["reading", "fitting", "drawing"].includes(name));
    return [
      "## The pages",
      "",
      "Served from this machine, in a browser without a debugger. Size as one file; when the first words stand there, when all is run and drawn; the largest gap between ticks of the page's thread meanwhile, and the longest piece of the page's own work: a gap beyond it is a busy machine's.",
      "",
      "| page | MB | words, ms | whole, ms | largest gap, ms | longest work, ms |",
      "| --- | --- | --- | --- | --- | --- |",
      ...table,
      "",
      `"Your boat" with ${(bytes / 1e6).toFixed(0)} MB in ${days} logs, which ends in "${said}" and ${marks} marks. Wanted: no gap above ${MOST_MS} ms.`,
      "",
      "| while | s | ticks | largest gap, ms | longest work, ms |",
      "| --- | --- | --- | --- | --- |",
      ...wanted.map(
        ({ name, ms, ticks, gap, task }) =>
          `| ${name} | ${(ms / 1000).toFixed(1)} | ${ticks} | ${wholeMs(gap)} | ${taskWords(task)} |`,
      ),
      "",
    ];
  } finally {
    await rm(folder, { recursive: true });
  }
}

const [, program = ""] = process.argv;
if (import.meta.url === pathToFileURL(program).href) console.log((await pageTicks()).join("\n"));
