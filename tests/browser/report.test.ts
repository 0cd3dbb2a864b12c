/**
 * The report in a real browser: from a file and from localhost, light and dark, on a phone, a laptop and a wide screen,
 * on paper. Nothing is asked of the network, nothing complains, everything is drawn.
 */
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { createServer, type Server } from "node:http";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { htmlReport } from "../../packages/core/src/report/html.ts";
import { correctionTables } from "../../packages/core/src/report/tables.ts";
import { plainWords } from "../../packages/core/src/report/words.ts";
import { type AnswerFixture, solvedAnswerFixture, unsolvedAnswerFixture } from "../support/answerFixture.ts";
import { openBrowser } from "../support/browser.ts";

const core = createRequire(new URL("../../packages/core/package.json", import.meta.url));
const HOSTILE = `<img src="http://elsewhere.example/x.png" onerror="throw 1"> & </script> Sea "Breeze"`;

let browser: Browser;
let server: Server;
let folder: string;
let local: string;
/** The two pages opened from localhost, which the tests share, since plotly takes its time to load. */
let pages: Readonly<Record<keyof typeof FIXTURES, Visit>>;

/** The page of a fixture; the hostile name must stay a name. */
function page({ answer, rows }: AnswerFixture, plotly: string): string {
  const { fit, base, active } = answer;
  const tables =
    fit.status === "solved" ? correctionTables(fit, base, active, UNKNOWN_BOAT, rows) : undefined;
  const said = { ...answer, words: plainWords(answer, UNKNOWN_BOAT, tables) };
  return htmlReport({ answer: said, tables, rows, boatName: HOSTILE }, plotly);
}

const FIXTURES = { solved: solvedAnswerFixture, unsolved: unsolvedAnswerFixture } as const;

beforeAll(async () => {
  const plotly = await readFile(core.resolve("plotly.js-dist-min/plotly.min.js"), "utf8");
  folder = await mkdtemp(join(tmpdir(), "report-"));
  for (const [name, fixture] of Object.entries(FIXTURES))
    await writeFile(join(folder, `${name}.html`), page(fixture(), plotly));
  server = createServer((request, response) => {
    const name = request.url?.slice(1) ?? "";
    const known = Object.keys(FIXTURES).some((fixture) => `${fixture}.html` === name);
    response.writeHead(known ? 200 : 404, { "content-type": "text/html; charset=utf-8" });
    if (known) readFile(join(folder, name)).then((bytes) => response.end(bytes));
    else response.end();
  });
  await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  const address = server.address();
  local = `http://127.0.0.1:${typeof address === "object" && address ? address.port : 0}`;
  browser = await openBrowser();
  pages = { solved: await visit(addressOf("solved")), unsolved: await visit(addressOf("unsolved")) };
});

afterAll(async () => {
  await browser?.close();
  server?.close();
  await rm(folder, { recursive: true, force: true });
});

interface Visit {
  readonly page: Page;
  readonly requests: readonly string[];
  readonly complaints: readonly string[];
}

/** Opens a page and waits until its figures stand there. */
async function visit(url: string): Promise<Visit> {
  const page = await browser.newPage({ viewport: { width: 1024, height: 800 }, colorScheme: "light" });
  const requests: string[] = [];
  const complaints: string[] = [];
  page.on("request", (request) => requests.push(request.url()));
  page.on("console", (message) => complaints.push(`${message.type()}: ${message.text()}`));
  page.on("pageerror", (error) => complaints.push(error.message));
  await page.goto(url);
  await page.waitForFunction(() => {
    const drawings = [...document.querySelectorAll(".drawing")];
    return drawings.length > 0 && drawings.every((one) => one.querySelector(".xtick text"));
  });
  return { page, requests, complaints };
}

/** Sets what the screen is like, and waits until the figures have followed it. */
async function onScreen(page: Page, width: number, colorScheme: "light" | "dark"): Promise<void> {
  await page.setViewportSize({ width, height: 800 });
  await page.emulateMedia({ colorScheme });
  await page.waitForFunction(() => {
    const ink = getComputedStyle(document.body).color;
    return [...document.querySelectorAll(".drawing")].every((place) => {
      const drawn = place.querySelector("svg.main-svg");
      const tick = place.querySelector(".xtick text");
      return drawn?.clientWidth === place.clientWidth && tick && getComputedStyle(tick).fill === ink;
    });
  });
}

const addressOf = (name: string): string => `${local}/${name}.html`;

/** Marks drawn in a figure. */
const marks = (opened: Page, id: string): Promise<number> =>
  opened.locator(`#${id} .scatterlayer path.point`).count();

describe("from a file and from localhost", () => {
  it.each(["solved", "unsolved"] as const)("%s: asks for nothing and complains of nothing", async (name) => {
    const address = pathToFileURL(join(folder, `${name}.html`)).href;
    const fromFile = await visit(address);
    await fromFile.page.waitForTimeout(300);
    for (const [{ page, requests, complaints }, url] of [
      [fromFile, address],
      [pages[name], addressOf(name)],
    ] as const) {
      expect(requests.filter((request) => !/^(blob|data):/.test(request))).toEqual([url]);
      expect(complaints).toEqual([]);
      expect(await page.locator("img").count()).toBe(0);
    }
    await fromFile.page.close();
  });
});

describe("what is drawn", () => {
  it("holds a mark for every sample of both tacks, before and after", async () => {
    const { page } = pages.solved;
    const samples = solvedAnswerFixture().answer.track.time.length;
    expect(await marks(page, "wind-direction")).toBe(2 * samples);
    expect(await marks(page, "residuals")).toBe(2 * samples);
    for (const id of ["upwash", "deviation"])
      expect(await page.locator(`#${id} .scatterlayer path.js-line`).count()).toBeGreaterThan(0);
    expect(await page.locator("svg.strip circle").count()).toBe(6);
  });

  it("tells the tacks apart by colour and by shape", async () => {
    const legend = pages.solved.page.locator("#wind-direction .legend path.scatterpts");
    const looks = await legend.evaluateAll((all) =>
      all.map((mark) => ({ colour: getComputedStyle(mark).fill, shape: mark.getAttribute("d") })),
    );
    expect(looks).toHaveLength(2);
    expect(new Set(looks.map(({ colour }) => colour)).size).toBe(2);
    expect(new Set(looks.map(({ shape }) => shape)).size).toBe(2);
  });
});

describe.each(["light", "dark"] as const)("in %s", (scheme) => {
  it.each([390, 1024, 1920])("%i px wide: nothing is wider than the screen", async (width) => {
    for (const { page, complaints } of Object.values(pages)) {
      await onScreen(page, width, scheme);
      const [content, screen] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
      expect(content).toBe(screen);
      expect(complaints).toEqual([]);
    }
  });

  it("text has a contrast of 4.5 and more", async () => {
    const { page } = pages.solved;
    await onScreen(page, 1024, scheme);
    const contrasts = await page.evaluate(() => {
      const style = getComputedStyle(document.documentElement);
      const luminance = (name: string): number => {
        const hex = style.getPropertyValue(name).trim();
        const channels = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255);
        const [r, g, b] = channels.map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
        return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
      };
      return ["--paper", "--raised"].flatMap((ground) =>
        ["--ink", "--muted", "--accent", "--port", "--starboard"].map((text) => {
          const [low, high] = [luminance(ground), luminance(text)].sort((a, b) => a - b);
          return { pair: `${text} on ${ground}`, ratio: (high! + 0.05) / (low! + 0.05) };
        }),
      );
    });
    // WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for text
    for (const { pair, ratio } of contrasts) expect(ratio, pair).toBeGreaterThanOrEqual(4.5);
  });
});

it("prints in the light colours at the width of A4, and goes back to the screen after", async () => {
  const { page, complaints } = pages.solved;
  await onScreen(page, 1024, "dark");
  await page.evaluate(() => {
    addEventListener("beforeprint", () => {
      const tick = document.querySelector("#wind-direction .xtick text");
      const drawn = document.querySelector("#wind-direction svg.main-svg");
      document.body.dataset.printed = `${tick && getComputedStyle(tick).fill} ${drawn?.clientWidth}`;
    });
  });
  await page.pdf({ format: "A4" });
  // the ink of the light colours, and a width that A4 holds between margins: 182 mm are 688 px
  expect(await page.evaluate(() => document.body.dataset.printed)).toBe("rgb(27, 35, 41) 680");
  await onScreen(page, 1024, "dark");
  expect(complaints).toEqual([]);
});

it("prints its figures even where they are not drawn yet", async () => {
  const opened = await browser.newPage();
  await opened.addInitScript(() => {
    // a browser that has not painted yet
    globalThis.requestAnimationFrame = () => 0;
  });
  await opened.goto(addressOf("solved"));
  expect(await opened.locator("svg.main-svg").count()).toBe(0);
  await opened.pdf({ format: "A4" });
  expect(await opened.locator(".drawing:has(svg.main-svg)").count()).toBe(4);
  await opened.close();
});

it("has one main heading, levels without a gap, names for figures and heads for tables", async () => {
  const { page } = pages.solved;
  const levels = await page
    .locator("h1, h2, h3, h4")
    .evaluateAll((all) => all.map((one) => Number(one.tagName[1])));
  expect(levels.filter((level) => level === 1)).toHaveLength(1);
  levels.forEach((level, index) => {
    expect(level - (levels[index - 1] ?? 0)).toBeLessThanOrEqual(1);
  });
  const unnamed = '[role="img"]:not([aria-label]), th:not([scope]), table:not([aria-labelledby])';
  expect(await page.locator(unnamed).count()).toBe(0);
  const dangling = await page
    .locator("[aria-labelledby]")
    .evaluateAll((all) =>
      all.filter((one) => !document.getElementById(one.getAttribute("aria-labelledby")!)),
    );
  expect(dangling).toEqual([]);
});
