import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { Page } from "playwright-core";
import { buildNotebooks } from "../../packages/notebooks/src/build/buildNotebooks.ts";
import { openBrowser } from "../support/browser.ts";
import { generateLog } from "./generateLog.ts";

/** Some 100 MB of log. */
const SENTENCES = 2_350_000;

/** What one could call fluent; a page that stands still for longer feels stuck. */
const MOST_MS = 100;

const PATIENCE = 600_000;

const notebook = fileURLToPath(new URL("../../packages/notebooks/notebooks/your-boat.md", import.meta.url));

/** Largest gaps between ticks of the page's own thread, ms. */
interface Gaps {
  readonly reading: number;
  readonly ticks: number;
  /** The longest of the page's own pieces of work above 50 ms while reading; 0 without one. A gap beyond it is a busy machine's. */
  readonly task: number;
  /** While fitting, and drawing what came of it. */
  readonly after: number;
}

/** Ticks as fast as the page can, from now until the bench rests, and returns the largest gaps. */
const gapsUntilRest = (page: Page): Promise<Gaps> =>
  page.evaluate(
    () =>
      new Promise<Gaps>((resolve) => {
        let [last, reading, task, after, ticks, hasBegun] = [performance.now(), 0, 0, 0, 0, false];
        const tasks = new PerformanceObserver((list) => {
          if (after > 0) return;
          for (const { duration } of list.getEntries()) task = Math.max(task, duration);
        });
        tasks.observe({ entryTypes: ["longtask"] });
        // no name: what runs in the page must not need what names it
        const timer = setInterval(() => {
          const now = performance.now();
          const gap = now - last;
          last = now;
          const isBusy = document.querySelector(".bench")?.ariaBusy === "true";
          hasBegun ||= isBusy;
          const isReading = !document.querySelector(".doing .what")?.textContent?.startsWith("Fitting");
          if (isReading) {
            reading = Math.max(reading, gap);
            ticks += 1;
          } else after = Math.max(after, gap);
          const isDrawn = document.querySelector(".drawing svg.main-svg") !== null;
          if (!hasBegun || isBusy || !isDrawn) return;
          clearInterval(timer);
          resolve({ reading, task, after, ticks });
        });
      }),
  );

/**
 * How long the page "Your boat" stands still while it reads a log of 100 MB in its worker.
 *
 * @throws Error where there is no browser, or where the log cannot be read
 */
export async function pageTicks(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "bothtacks-ticks-"));
  const browser = await openBrowser();
  try {
    const log = join(folder, "log.nmea");
    const bytes = generateLog(log, SENTENCES);
    await buildNotebooks([notebook], join(folder, "pages"));
    const page = await browser.newPage();
    page.setDefaultTimeout(PATIENCE);
    await page.goto(pathToFileURL(join(folder, "pages", "single", "your-boat.html")).href);
    await page.locator(".opening").waitFor();
    const gaps = gapsUntilRest(page);
    const before = performance.now();
    await page.getByLabel("Log files", { exact: true }).setInputFiles(log);
    const { reading, task, after, ticks } = await gaps;
    const seconds = (performance.now() - before) / 1000;
    const trouble = (await page.locator(".progress .trouble").textContent()) ?? "";
    if (trouble !== "") throw new Error(`the page could not read the log: ${trouble}`);
    console.log(
      `the page reading ${(bytes / 1e6).toFixed(0)} MB in a worker (${seconds.toFixed(1)} s in all): largest gap between ticks ` +
        `${reading.toFixed(0)} ms of ${ticks} (wanted: below ${MOST_MS}), its own longest piece of work ` +
        `${task === 0 ? "below 50" : task.toFixed(0)} ms; while fitting and drawing ${after.toFixed(0)} ms`,
    );
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true });
  }
}
