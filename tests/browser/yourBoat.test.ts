/**
 * "Your boat" in a real browser: as one file from a file, from a folder and served. Logs good and bad are dropped and chosen,
 * work is called off, legs and turns are left out by pointer and by keyboard, files are saved.
 *
 * INPUTS: the demo recording; a simulated sail of some 50 minutes (seed 41207) as text and as gzip; eleven minutes of it on
 *   one tack; prose.
 * MARGIN: a millionth of a standard deviation between this browser's numbers and those of Node, whose last bits differ.
 */
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { boatFromFile } from "../../packages/core/src/calibration/boatFile.ts";
import { type AnswerFiles, answerFiles } from "../../packages/core/src/job/answerFiles.ts";
import { calibrateLogs } from "../../packages/core/src/job/calibrateLogs.ts";
import { logFile } from "../../packages/core/src/node/logFile.ts";
import { plotlySource } from "../../packages/core/src/node/plotlySource.ts";
import { readText } from "../../packages/core/src/node/readText.ts";
import { buildNotebooks } from "../../packages/notebooks/src/build/buildNotebooks.ts";
import { serve } from "../../scripts/serve.mjs";
import { garbage, goodLog, gzipped, type NamedBytes, oneTackLog, threeDays } from "../support/boatLogs.ts";
import { openBrowser } from "../support/browser.ts";
import { foreign, isSound, seriousFindings, settled, type Visit, visit } from "../support/notebookBrowser.ts";

const markdown = fileURLToPath(new URL("../../packages/notebooks/notebooks/your-boat.md", import.meta.url));
const demo = (name: string): string => fileURLToPath(new URL(`../../datasets/demo/${name}`, import.meta.url));

const PATIENCE = 90_000;

let browser: Browser;
let out: string;
let server: Awaited<ReturnType<typeof serve>>;
/** As one file, from a file; the tests go on from one another. */
let whole: Visit;
let page: Page;

beforeAll(async () => {
  out = await mkdtemp(join(tmpdir(), "your-boat-"));
  await buildNotebooks([markdown], out, { typesAreChecked: true });
  const file = (name: string) => readFile(join(out, "folder", name)).catch(() => undefined);
  server = await serve({ file, first: "your-boat.html", changes: "changes" });
  browser = await openBrowser();
  whole = await visit(browser, pathToFileURL(join(out, "single", "your-boat.html")).href);
  page = whole.page;
}, PATIENCE);

afterAll(async () => {
  await browser?.close();
  server?.close();
  await rm(out, { recursive: true, force: true });
});

/** Waits until the bench has done what it was asked for, and the figure stands. */
async function rested(on: Page = page): Promise<void> {
  await on.waitForFunction(
    () => {
      const bench = document.querySelector(".bench");
      return bench?.ariaBusy === "false" && bench.querySelector(".doing")?.hasAttribute("hidden");
    },
    undefined,
    { timeout: PATIENCE },
  );
  await settled(on);
}

const button = (name: string | RegExp, on: Page = page) => on.getByRole("button", { name, exact: true });

/** The text of a part of the page, with plain spaces. */
const textOf = async (place: string, on: Page = page): Promise<string> =>
  ((await on.locator(place).first().textContent()) ?? "").replaceAll("\u00a0", " ");

const conclusion = (on: Page = page): Promise<string> => textOf(".conclusion", on);

/** Drops files together on a place of the page, as a hand would. */
async function dropAll(files: readonly NamedBytes[], on: Page, place: string): Promise<void> {
  const contents = files.map(({ name, bytes }) => [name, bytes.toString("base64")] as const);
  await on.evaluate(
    ([all, where]) => {
      const dataTransfer = new DataTransfer();
      for (const [called, content] of all) {
        const binary = Uint8Array.from(atob(content), (sign) => sign.charCodeAt(0));
        dataTransfer.items.add(new File([binary], called));
      }
      for (const kind of ["dragenter", "drop"])
        document
          .querySelector(where)
          ?.dispatchEvent(new DragEvent(kind, { dataTransfer, bubbles: true, cancelable: true }));
    },
    [contents, place] as const,
  );
}

/** Drops a file on a place of the page. */
const drop = (file: NamedBytes, on: Page = page, place = ".opening"): Promise<void> =>
  dropAll([file], on, place);

/** How many pages of A4 it prints on. */
async function printedPages(): Promise<number> {
  const printed = await page.pdf({ format: "A4", preferCSSPageSize: true });
  await settled(page);
  return (printed.toString("latin1").match(/\/Type\s*\/Page(?!s)/g) ?? []).length;
}

/** The file that pressing a button saves. */
async function saved(name: string, on: Page = page): Promise<string> {
  const [download] = await Promise.all([on.waitForEvent("download"), button(`Save ${name}`, on).click()]);
  expect(download.suggestedFilename()).toBe(name);
  return readFile(await download.path(), "utf8");
}

interface ParameterInFile {
  readonly name: string;
  readonly value: number;
  readonly sd: number;
}

/** The command line's files for the demo. */
async function demoFiles(made: number): Promise<AnswerFiles> {
  const boat = boatFromFile(await readText(demo("boat.json")), "boat.json");
  const log = { ...(await logFile(demo("demo.nmea.gz"))), name: "demo.nmea.gz" };
  const files = answerFiles(await calibrateLogs([log], boat), await plotlySource(), made);
  if (!files) throw new Error("the demo must be solved");
  return files;
}

/** Every number in a text, and what stands between them. */
const apart = (text: string): { readonly numbers: readonly number[]; readonly words: string } => ({
  numbers: (text.match(/-?\d+(\.\d+)?(e-?\d+)?/g) ?? []).map(Number),
  words: text.replace(/-?\d+(\.\d+)?(e-?\d+)?/g, "#"),
});

describe("the demo recording, from one file", () => {
  it("is answered, with every part there, and asks for nothing", async () => {
    await button("Use the demo recording").click();
    await rested();
    expect(await conclusion()).toMatch(/^From one tack to the other .*; corrected, it differs by /);
    const titles = ["The wind", "Legs and turns", "What to do", "The numbers to key in", "To take along"];
    for (const name of [...titles, "What is in the log", "Cautions"])
      expect(await page.getByRole("heading", { name, exact: true }).count(), name).toBe(1);
    expect(await page.locator(".agreement").count()).toBe(3);
    expect(whole.requests.filter((url) => !/^(blob|data):/.test(url))).toEqual([page.url()]);
    expect(whole.complaints).toEqual([]);
  });

  it("prints on two pages of A4", async () => {
    expect(await printedPages()).toBe(2);
  });

  it("gives the numbers of the command line", async () => {
    const text = await saved("calibration.json");
    const file = JSON.parse(text) as { made: string; parameters: readonly ParameterInFile[] };
    const expected = await demoFiles(Date.parse(file.made) / 1000);
    const { parameters } = JSON.parse(expected["calibration.json"]) as typeof file;
    expect(file.parameters.map(({ name }) => name)).toEqual(parameters.map(({ name }) => name));
    expect(parameters.length).toBeGreaterThan(10);
    parameters.forEach(({ name, value, sd }, index) => {
      const found = file.parameters[index]!;
      expect(Math.abs(found.value - value), name).toBeLessThanOrEqual(1e-6 * sd);
      expect(Math.abs(found.sd - sd), name).toBeLessThanOrEqual(1e-6 * sd);
    });
    expect(apart(text).words).toBe(apart(expected["calibration.json"]).words);
    expect(await saved("tables.csv")).toBe(expected["tables.csv"]);
    const report = await saved("report.html");
    const { numbers, words } = apart(report);
    const other = apart(expected["report.html"]);
    expect(words === other.words).toBe(true);
    const far = numbers.flatMap((number, index) => {
      const beside = other.numbers[index]!;
      // figures hold hundredths, which may round to either side
      return number === beside || Math.abs(number - beside) < 0.0101 ? [] : [[number, beside]];
    });
    expect(far).toEqual([]);
  });
});

/** Presses Tab until a control has the focus. */
async function tabTo(selector: string): Promise<void> {
  const target = await page.locator(selector).first().elementHandle();
  for (let presses = 0; presses < 80; presses += 1) {
    if (await page.evaluate((wanted) => document.activeElement === wanted, target)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`Tab does not reach ${selector}`);
}

const leftOut = (): Promise<number> => page.locator(".legs-line [aria-pressed=true]").count();

describe("legs and turns left out", () => {
  let all: string;

  it("by the pointer: the answer moves, and says beside itself what it was", async () => {
    all = await textOf(".agreement .after");
    expect(await page.locator(".moved").count()).toBe(0);
    await button(/^Leg 7 port tack/).click();
    await rested();
    expect(await leftOut()).toBe(1);
    const [now, before] = await page.locator(".moved tbody tr").first().locator("td").allTextContents();
    expect(await textOf(".agreement .after")).toBe(now?.replaceAll("\u00a0", " "));
    expect(before?.replaceAll("\u00a0", " ")).toBe(all);
    expect(await textOf("main")).toContain("Left out at your wish: leg 7 (");
    await button("Put all back").click();
    await rested();
    expect(await leftOut()).toBe(0);
    expect(await textOf(".agreement .after")).toBe(all);
  });

  it("by the keyboard: one stop of Tab, arrow keys along the line, the space bar leaves out and puts back", async () => {
    await page.locator("#text").focus();
    await tabTo(".legs-line [tabindex='0']");
    await page.keyboard.press("Home");
    for (let presses = 0; presses < 11; presses += 1) await page.keyboard.press("ArrowRight");
    const focused = page.locator(".legs-line button:focus");
    const name = /^[^:]+:\d\d[^:]*(:\d\d[^:]*)?/.exec(await textOf(".told"))?.[0] ?? "";
    expect(await textOf(".told")).toContain(`${name}: counts`);
    await page.keyboard.press("Space");
    expect(await textOf(".told")).toContain(`${name}: left out`);
    await rested();
    expect(await focused.getAttribute("aria-pressed")).toBe("true");
    await page.keyboard.press("Space");
    await rested();
    expect(await leftOut()).toBe(0);
    expect(await textOf(".agreement .after")).toBe(all);
    await page.keyboard.press("Home");
    expect(await focused.textContent()).toMatch(/^Leg 1 /);
    await page.keyboard.press("Tab");
    expect(await page.locator(".legs-line :focus").count()).toBe(0);
  });

  it("called off: what was left out counts again, and the answer stands", async () => {
    const was = await conclusion();
    await button(/^Leg 9 /).click();
    expect(await leftOut()).toBe(1);
    await button("Call it off").click();
    await rested();
    expect(await leftOut()).toBe(0);
    expect(await textOf(".progress .trouble")).toBe("Called off. The answer below is the earlier one.");
    expect(await conclusion()).toBe(was);
  });
});

it("in light and dark it has no serious finding, and on phone, laptop and projector nothing is wider than the screen", async () => {
  await page.locator(".boat-form summary").click();
  await page.locator(`[data-field="active_settings"]`).scrollIntoViewIfNeeded();
  await isSound(page, [1280, 390, 1920]);
  await page.locator(".boat-form summary").click();
});

describe("the boat form", () => {
  const field = (path: string) => page.locator(`[data-field="${path}"]`);
  const tell = async (path: string, value: string): Promise<void> => {
    await field(path).fill(value);
    await field(path).press("Tab");
  };

  it("says at the field what is wrong with it, and takes what is right at once", async () => {
    await page.locator(".boat-form summary").click();
    await tell("mast_height_m", "tall");
    expect(await field("mast_height_m").getAttribute("aria-invalid")).toBe("true");
    expect(await textOf(".field.wrong .field-error")).toBe('expected a number, received "tall"');
    await tell("mast_height_m", "15,5");
    expect(await page.locator(".field.wrong").count()).toBe(0);
    await field("computer.table").selectOption("true");
    await rested();
    expect(await textOf("#numbers ~ div .to-key-in p")).toContain("true wind");
  });

  it("is saved and loaded; a wrong file is refused by name, a calibration counts as keyed in", async () => {
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      button("Save as boat.json").click(),
    ]);
    const text = await readFile(await download.path(), "utf8");
    expect(boatFromFile(text, "boat.json").computer.table).toBe("true");
    const load = async (name: string, content: string): Promise<void> => {
      const file = { name, mimeType: "application/json", buffer: Buffer.from(content) };
      await page.getByLabel("Boat file", { exact: true }).setInputFiles([file]);
    };
    await load("typo.json", '{"mast_heigth_m": 15}');
    await page
      .getByText("typo.json: mast_heigth_m: expected")
      .or(page.getByText("typo.json: expected"))
      .waitFor();
    await load("boat.json", text.replace("the demonstration boat", "Tern"));
    await page.locator(".known", { hasText: "Tern" }).waitFor();
    await rested();
    expect(await textOf("#answer")).toBe("The answer for Tern");
    await field("active_settings").selectOption("none");
    await rested();
    await load("calibration.json", await saved("calibration.json"));
    await page
      .locator(`[data-field="active_settings.vane.masthead_offset_deg"]`)
      .waitFor({ state: "visible" });
    await rested();
    expect(await field("active_settings").inputValue()).toBe("given");
    await page.locator(".boat-form summary").click();
  });
});

describe("logs of one's own", () => {
  it("two rows of wind are no sailing: no empty picture, no legs to press", async () => {
    const rows = ["time,awa_deg,aws_kn", "2027-01-01T00:00:00Z,30,12", "2027-01-01T00:00:01Z,31,12"];
    await drop({ name: "two-rows.csv", bytes: Buffer.from(rows.join("\n")) });
    await rested();
    expect(await conclusion()).toMatch(/^No correction could be found\./);
    for (const name of ["The wind", "Legs and turns"])
      expect(await page.getByRole("heading", { name, exact: true }).isVisible(), name).toBe(false);
    expect(await page.locator(".contents a").allTextContents()).toEqual(["What to do", "What is in the log"]);
  });

  it("a good one is dropped and answered; the same as gzip, dropped beside the box, gives the same", async () => {
    await drop(goodLog());
    await rested();
    expect(await textOf("#log ~ p")).toMatch(/^2\d{3}-\d\d-\d\d/);
    expect(await textOf("#answer")).toBe("The answer");
    expect(await page.getByRole("heading", { name: "The wind", exact: true }).isVisible()).toBe(true);
    await page.getByRole("link", { name: "the boat file" }).click();
    expect(await page.locator(`[data-field="computer.table"]`).isVisible()).toBe(true);
    await page.locator(".boat-form summary").click();
    const said = await conclusion();
    expect(said).toMatch(/^From one tack to the other/);
    await drop(gzipped(goodLog()), page, "h1");
    expect(await page.locator(".opening.over").count()).toBe(0);
    await rested();
    expect(await textOf(".recording")).toMatch(/^good\.nmea\.gz, 2\d{3}-/);
    expect(await conclusion()).toBe(said);
    expect(whole.complaints).toEqual([]);
  });

  it("what is none is refused by name, as text, and the earlier answer stands", async () => {
    const was = await conclusion();
    const none = garbage();
    await drop(none);
    await page.locator(".progress .trouble:not([hidden])").waitFor();
    expect(await textOf(".progress .trouble")).toContain(`${none.name}: holds no NMEA 0183 sentence`);
    expect(await page.locator("main img").count()).toBe(0);
    expect(await conclusion()).toBe(was);
    expect(await leftOut()).toBe(0);
  });

  it("a table with columns that nobody has told of gives the mapping file to fill in", async () => {
    const rows = Array.from({ length: 60 }, (_, second) => `${second},-30.5,10.5,5.5`);
    await drop({ name: "afternoon.csv", bytes: Buffer.from(`t,awa,aws,stw\n${rows.join("\n")}\n`) });
    await rested();
    const [saved] = await Promise.all([
      page.waitForEvent("download"),
      button("Save columns.json").press("Enter"),
    ]);
    expect(saved.suggestedFilename()).toBe("columns.json");
    const { schema, columns } = JSON.parse(await readFile(await saved.path(), "utf8"));
    expect([schema, columns.aws.unit]).toEqual(["bothtacks-columns", "?"]);
    expect(await seriousFindings(page)).toEqual([]);
  });

  it("eleven minutes on one tack are refused in words, with what was in them and what to sail next", async () => {
    const log = oneTackLog();
    await page
      .getByLabel("Log files", { exact: true })
      .setInputFiles([{ name: log.name, mimeType: "text/plain", buffer: log.bytes }]);
    await rested();
    expect(await conclusion()).toMatch(/^No correction could be found\. .*all on starboard tack/);
    expect(await page.getByRole("heading", { name: "Sail next" }).count()).toBe(1);
    expect(await page.getByRole("heading", { name: "To take along" }).count()).toBe(0);
    expect(await page.locator("#numbers").count()).toBe(0);
    expect(await seriousFindings(page)).toEqual([]);
    expect(whole.complaints).toEqual([]);
  });

  it("called off while it is read, it leaves the earlier answer", async () => {
    const was = await conclusion();
    await button("Use the demo recording").click();
    await button("Call it off").click();
    await rested();
    expect(await conclusion()).toBe(was);
    expect(await textOf(".progress .trouble")).toContain("Called off.");
  });
});

it("several days dropped together are one answer, day by day; a folded day says what is left out of it; they print on two pages", async () => {
  await dropAll([...threeDays()].reverse(), page, ".opening");
  await rested();
  expect(await textOf(".recording")).toMatch(
    /^day-1\.nmea, day-2\.nmea and day-3\.nmea, 2027-07-12 .* to 2027-07-20 /,
  );
  const days = page.locator("details.day");
  const heads = days.locator("summary");
  const said = await heads.allTextContents();
  expect(said.map((words) => words.slice(0, 10))).toEqual(["2027-07-12", "2027-07-13", "2027-07-20"]);
  for (const words of said) expect(words).toMatch(/ \d+ legs, \d+ turns$/);
  const block = days.nth(1).locator(".leg").first();
  await block.click();
  await rested();
  await heads.nth(1).focus();
  await page.keyboard.press("Enter");
  expect(await block.isVisible()).toBe(false);
  expect(await days.nth(0).locator(".leg").first().isVisible()).toBe(true);
  expect(await heads.allTextContents()).toEqual([said[0], `${said[1]}; 1 leg left out`, said[2]]);
  expect(await textOf("main")).toMatch(/Left out at your wish: leg \d+ \(/);
  expect(await page.locator("table.shear tbody tr").count()).toBe(3);
  expect(await printedPages()).toBe(2);
  await page.keyboard.press("Enter");
  expect(await block.getAttribute("aria-pressed")).toBe("true");
  await button("Put all back").click();
  await rested();
  expect(await heads.allTextContents()).toEqual(said);
  expect(whole.complaints).toEqual([]);
});

it("what was told of the boat and left out of a log is there after loading again; the log is not", async () => {
  await drop(goodLog());
  await rested();
  await page.locator(".boat-form summary").click();
  await page.locator(`[data-field="name"]`).fill("Plover");
  await page.locator(`[data-field="name"]`).press("Tab");
  await button(/^Leg 3 /).click();
  await rested();
  await page.reload();
  await settled(page);
  expect(await page.locator(".conclusion").count()).toBe(0);
  expect(await textOf(".known")).toContain("Plover");
  await drop(goodLog());
  await rested();
  expect(await leftOut()).toBe(1);
  expect(await button(/^Leg 3 /).getAttribute("aria-pressed")).toBe("true");
  await page.locator(".boat-form summary").click();
  await button("Forget what is kept here").click();
  expect(await page.evaluate(() => localStorage.length)).toBe(0);
});

describe("in a folder", () => {
  it.each(["from a file", "served"])("%s: answers, saves the report, asks no other host", async (how) => {
    const url = how === "served" ? server.address : pathToFileURL(join(out, "folder", "your-boat.html")).href;
    const opened = await visit(browser, url);
    await drop(goodLog(), opened.page);
    await rested(opened.page);
    expect(await conclusion(opened.page)).toMatch(/^From one tack to the other/);
    const report = await saved("report.html", opened.page);
    expect(report.startsWith("<!doctype html>") && report.length > 1e6).toBe(true);
    expect(foreign(opened)).toEqual([]);
    expect(opened.complaints).toEqual([]);
    await opened.page.close();
  });
});

it("by the keyboard alone, from opening to the numbers and a saved file", async () => {
  await page.reload();
  await settled(page);
  await tabTo(".opening button:not(.main)");
  await page.keyboard.press("Enter");
  await rested();
  await tabTo('.contents a[href="#numbers"]');
  await page.keyboard.press("Enter");
  expect(
    await page.evaluate(
      () => Math.abs(document.querySelector("#numbers")!.getBoundingClientRect().top) < 100,
    ),
  ).toBe(true);
  await tabTo(".files button");
  const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
  expect(download.suggestedFilename()).toBe("calibration.json");
});
