/**
 * The reader's own tables, typed into the lessons in a real browser: answered, refused in words, told which line is wrong, and
 * answered again; by the keyboard alone.
 */
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildNotebooks } from "../../packages/notebooks/src/build/buildNotebooks.ts";
import { openBrowser } from "../support/browser.ts";
import { seriousFindings, settled, type Visit, visit } from "../support/notebookBrowser.ts";

const lessons = fileURLToPath(new URL("../../packages/notebooks/notebooks/", import.meta.url));

let browser: Browser;
let out: string;

beforeAll(async () => {
  out = await mkdtemp(join(tmpdir(), "lessons-"));
  const names = ["boat-speed-first.md", "compass-and-variation.md"];
  await buildNotebooks(
    names.map((name) => join(lessons, name)),
    out,
    { typesAreChecked: true },
  );
  browser = await openBrowser();
});

afterAll(async () => {
  await browser?.close();
  await rm(out, { recursive: true, force: true });
});

const opened = (name: string): Promise<Visit> =>
  visit(browser, pathToFileURL(join(out, "single", `${name}.html`)).href);

/** What the page says, with plain spaces. */
const said = async (page: Page): Promise<string> =>
  ((await page.locator("main").textContent()) ?? "").replaceAll("\u00a0", " ");

/** Puts a table where the old one stood, as a hand at the keyboard does. */
async function retype(page: Page, lines: readonly string[]): Promise<void> {
  await page.locator("textarea").focus();
  await page.keyboard.press("ControlOrMeta+A");
  await page.keyboard.insertText(lines.join("\n"));
  await settled(page);
}

describe("runs over a measured distance", () => {
  const RUNS = ["10:00:00 10:07:30 there", "10:10:00 10:25:00 back"];

  it("are answered, refused one way, told of a bad line, answered again, and saved", async () => {
    const { page, complaints } = await opened("boat-speed-first");
    expect(await said(page)).toContain("Intercept +0.41 kn");
    await retype(page, RUNS);
    expect(await said(page)).toMatch(/Through the water 6\.00 kn ± 0\.07 kn/);
    await retype(page, [RUNS[0] ?? "", "10:10:00 10:25:00 there"]);
    expect(await said(page)).toContain("No answer. All runs go one way.");
    await retype(page, [...RUNS, "10:30:00 nine back"]);
    expect(await said(page)).toContain('No answer. Line 3: "nine" is no time');
    expect(await seriousFindings(page)).toEqual([]);
    await retype(page, RUNS);
    expect(await said(page)).toMatch(/Through the water 6\.00 kn/);
    const [saved] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save the runs as CSV" }).press("Enter"),
    ]);
    const [head, first] = (await readFile(await saved.path(), "utf8")).split("\r\n");
    expect(head).toBe("start_s,end_s,way,speed_over_ground_kn,log_kn,left_over_kn");
    expect(first).toBe("36000,36450,1,8,,0");
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("at one speed leave intercept and gain wide open", async () => {
    const { page } = await opened("boat-speed-first");
    const fast = (await page.locator("textarea").inputValue()).split("\n").slice(4);
    await retype(page, fast);
    const [, half] = /gain\s+[−\d.]+ ± (\d+\.\d+)/.exec(await said(page)) ?? [];
    // the two sets together told it to 0.03
    expect(Number(half)).toBeGreaterThan(0.5);
    expect(await said(page)).toContain("These runs do not tell intercept and gain apart");
    // no table of speeds rests on such a line
    expect(await page.getByRole("columnheader", { name: "log shows, kn" }).count()).toBe(0);
    await page.close();
  });
});

it("a circle of four headings is refused, one of eight drawn, with heels the heeling error told", async () => {
  const { page, complaints } = await opened("compass-and-variation");
  const figures = await page.locator(".drawing").count();
  await retype(page, ["N 10.5E", "E 11.5E", "S 5.5W", "W 12.5W"]);
  expect(await said(page)).toContain("No answer. Five terms need five headings");
  expect(await page.locator(".drawing").count()).toBe(figures - 1);
  const both = [0, 60, 120, 180, 240, 300].flatMap((heading) => [`${heading} 2 20`, `${heading} 2 -20`]);
  await retype(page, both);
  expect(await said(page)).toContain("heeling error, for each degree of heel");
  expect(await page.locator(".drawing").count()).toBe(figures);
  await retype(page, ["N east"]);
  expect(await said(page)).toContain('No answer. Line 1: "east" is no number');
  await retype(page, ["400 2"]);
  expect(await said(page)).toContain('No answer. Line 1: "400" is no heading');
  const latitude = page.getByLabel("Latitude");
  await latitude.fill("91");
  expect(await latitude.getAttribute("aria-invalid")).toBe("true");
  expect(await said(page)).toContain("Expected a number from −80 to 80; the page goes on with 50.");
  await latitude.fill("49");
  await settled(page);
  expect(await page.locator(".refused", { hasText: "Expected" }).count()).toBe(0);
  const heading = page.getByLabel("True heading");
  await heading.fill("152°");
  await heading.press("Enter");
  expect(await said(page)).toContain("Right: 152.");
  expect(complaints).toEqual([]);
  await page.close();
});
