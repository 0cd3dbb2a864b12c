import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { Browser, Page } from "playwright-core";
import { expect } from "vitest";

const axe = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** A page that was opened, with all that it asked for and complained of. */
export interface Visit {
  readonly page: Page;
  readonly requests: readonly string[];
  readonly complaints: readonly string[];
}

/** Opens a notebook's page and waits until its cells have run and its figures are drawn. */
export async function visit(browser: Browser, url: string): Promise<Visit> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 }, colorScheme: "light" });
  const requests: string[] = [];
  const complaints: string[] = [];
  page.on("request", (request) => requests.push(request.url()));
  page.on("console", (message) => complaints.push(`${message.type()}: ${message.text()}`));
  page.on("pageerror", (error) => complaints.push(error.message));
  await page.goto(url);
  await settled(page);
  return { page, requests, complaints };
}

/** Waits until no cell runs and every figure stands there in the page's present colours and width. */
export async function settled(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const cells = [...document.querySelectorAll("[data-cell]")];
    const drawings = [...document.querySelectorAll(".drawing")].filter((one) => one.clientWidth > 0);
    const ink = getComputedStyle(document.body).color;
    return (
      cells.every(({ ariaBusy }) => ariaBusy === "false") &&
      drawings.every((drawing) => {
        const tick = drawing.querySelector(".xtick text");
        const drawn = drawing.querySelector("svg.main-svg");
        const isDrawn =
          tick && getComputedStyle(tick).fill === ink && drawn?.clientWidth === drawing.clientWidth;
        return isDrawn && drawing.ariaBusy !== "true";
      })
    );
  });
}

/** Does something for all, four at a time: a page waits for the browser more than it computes. */
export async function fourAtATime<One>(
  all: readonly One[],
  work: (one: One) => Promise<void>,
): Promise<void> {
  const left = all.values();
  const inTurn = async (): Promise<void> => {
    for (const one of left) await work(one);
  };
  await Promise.all([1, 2, 3, 4].map(inTurn));
}

/**
 * Fails where a page is wider than the screen, or has a serious finding in light at the first width or in dark at the last; colours move
 * nothing, so that each width is looked at once. Leaves the page in light.
 */
export async function isSound(page: Page, widths: readonly [number, ...number[]]): Promise<void> {
  const sound = async (): Promise<void> => expect(await seriousFindings(page)).toEqual([]);
  await page.emulateMedia({ colorScheme: "light" });
  for (const [place, width] of widths.entries()) {
    await page.setViewportSize({ width, height: 900 });
    await settled(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth), `${width} px`).toBe(width);
    if (place === 0) await sound();
  }
  await page.emulateMedia({ colorScheme: "dark" });
  await settled(page);
  await sound();
  await page.emulateMedia({ colorScheme: "light" });
}

/** What asks a host other than the page's own: neither the page's own address nor what lies inside it. */
export const foreign = ({ requests, page }: Visit): readonly string[] => {
  const own = new URL(".", page.url()).href;
  return requests.filter((url) => !url.startsWith(own) && !/^(blob|data):/.test(url));
};

/** Findings of an accessibility check that are serious or worse, with the elements. */
export async function seriousFindings(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const { axe: checker } = globalThis as unknown as {
      axe: {
        run: () => Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }>;
      };
    };
    const { violations } = await checker.run();
    return violations
      .filter(({ impact }) => impact === "serious" || impact === "critical")
      .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(" · ")}`);
  });
}
