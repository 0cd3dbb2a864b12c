/**
 * The report of the real demo recording in a real browser: calibrated as the command line does it, with the same numbers
 * on the page, in tables.csv and in the printed summary. Nothing is asked of the network and nothing complains.
 */
import { createServer, type Server } from "node:http";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { boatFromFile } from "../../packages/core/src/calibration/boatFile.ts";
import { answerFiles } from "../../packages/core/src/job/answerFiles.ts";
import type { Calibrated } from "../../packages/core/src/job/answerOf.ts";
import { calibrateLogs } from "../../packages/core/src/job/calibrateLogs.ts";
import { logFile } from "../../packages/core/src/node/logFile.ts";
import { plotlySource } from "../../packages/core/src/node/plotlySource.ts";
import { readText } from "../../packages/core/src/node/readText.ts";
import { printedSummary } from "../../packages/core/src/report/summary.ts";
import { openBrowser } from "../support/browser.ts";

const at = (name: string): string => fileURLToPath(new URL(`../../datasets/demo/${name}`, import.meta.url));

let browser: Browser;
let server: Server;
let page: Page;
let calibrated: Calibrated;
let csv: string;
let local: string;
const requests: string[] = [];
const complaints: string[] = [];

beforeAll(async () => {
  const boat = boatFromFile(await readText(at("boat.json")), "boat.json");
  calibrated = await calibrateLogs([await logFile(at("demo.nmea.gz"))], boat);
  const files = answerFiles(calibrated, await plotlySource(), 0);
  if (!files) throw new Error("the demo must be solved");
  csv = files["tables.csv"];
  server = createServer((_, response) => {
    response.writeHead(200, { "content-type": "text/html; charset=utf-8" });
    response.end(files["report.html"]);
  });
  await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  const address = server.address();
  local = `http://127.0.0.1:${typeof address === "object" && address ? address.port : 0}/`;
  browser = await openBrowser();
  page = await browser.newPage({ viewport: { width: 1024, height: 800 } });
  page.on("request", (request) => requests.push(request.url()));
  page.on("console", (message) => complaints.push(`${message.type()}: ${message.text()}`));
  page.on("pageerror", (error) => complaints.push(error.message));
  await page.goto(local);
  await page.waitForSelector("#residuals svg.main-svg");
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

/** The text of a part of the page, with plain spaces. */
const textOf = async (place: string): Promise<string> =>
  ((await page.locator(place).textContent()) ?? "").replaceAll("\u00a0", " ");

it("asks for the page alone, and complains of nothing", () => {
  expect(requests.filter((url) => !/^(blob|data):/.test(url))).toEqual([local]);
  expect(complaints).toEqual([]);
});

it("draws every figure, with the wind of both tacks before and after within its axis", async () => {
  const { track } = calibrated.answer;
  for (const id of ["upwash", "deviation"])
    expect(await page.locator(`#${id} .scatterlayer path.js-line`).count()).toBeGreaterThan(0);
  expect(await page.locator("#residuals .scatterlayer path.point").count()).toBeGreaterThan(100);
  const [outside = "0"] = /\d+(?= marks? (is|are) outside)/.exec(await textOf("#wind")) ?? [];
  // the axis holds the middle 98 in 100 of both panels, so at most 4 in 100 of the rows leave one of them
  expect(Number(outside)).toBeLessThanOrEqual(0.04 * track.time.length);
  const drawn = await page.locator("#wind-direction .scatterlayer path.point").count();
  const sailing = track.kind.filter((kind) => kind === "sailing").length;
  expect(drawn).toBeLessThanOrEqual(2 * sailing);
  expect(drawn).toBeGreaterThanOrEqual(2 * (sailing - Number(outside)));
});

it("shows the same settings on the page, in tables.csv and in the printed summary", async () => {
  const summary = printedSummary(calibrated.answer, calibrated.tables);
  const text = await textOf("#numbers table.settings");
  const [head = "", ...records] = csv.trimEnd().split("\r\n");
  const names = head.split(",");
  const settings = records.map((record) => record.split(",")).filter(([kind]) => kind === "setting");
  expect(settings).toHaveLength(9);
  let printed = 0;
  for (const fields of settings) {
    const [, name = ""] = fields;
    const value = names
      .map((column, index) => (/^(add_(deg|kn|percent)|leeway_.*per_deg)$/.test(column) ? fields[index] : ""))
      .find((field) => field !== "");
    const row = summary.split("\n").find((line) => line.trim().startsWith(name)) ?? "";
    if (value === undefined) {
      expect(row).toMatch(/not learnt|not for this computer/);
      continue;
    }
    printed += 1;
    const decimals = name.endsWith("intercept") || name.endsWith("threshold") ? 2 : 1;
    const [, shown = ""] = /([+−]?\d+\.\d+)/.exec(row.replace(name, "")) ?? [];
    // the summary rounds to its last decimal, the file to the second
    expect(Math.abs(Number(shown.replace("−", "-")) - Number(value))).toBeLessThanOrEqual(
      0.5 * 10 ** -decimals + 0.006,
    );
    expect(text.toLowerCase()).toContain(name.toLowerCase());
    expect(text).toContain(shown);
  }
  expect(printed).toBeGreaterThan(4);
});

it("says each sentence of the printed summary, and the cautions", async () => {
  const said = await textOf("main");
  const { keyIn, leaveAlone, couldNotTell, sailNext, notes } = calibrated.answer.words;
  for (const sentence of [...keyIn, ...leaveAlone, ...couldNotTell, ...sailNext, ...notes])
    expect(said).toContain(sentence);
  expect(said).toContain("proper lookout");
});

it("prints on two pages of A4", async () => {
  const printed = await page.pdf({ format: "A4", preferCSSPageSize: true });
  expect(printed.toString("latin1").match(/\/Type\s*\/Page(?!s)/g)).toHaveLength(2);
});
