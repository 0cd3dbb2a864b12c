/**
 * The notebooks in a real browser: one file, a folder, and served; light and dark, on a phone, a laptop and a projector.
 * Nothing is asked of the network, nothing complains, everything can be reached by the keyboard.
 */
import { mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildNotebooks } from "../../packages/notebooks/src/build/buildNotebooks.ts";
import { CHANGES, NotebookSite } from "../../packages/notebooks/src/build/notebookSite.ts";
import { watched } from "../../packages/notebooks/src/build/watched.ts";
import { boatOfNumber, FAULT_WORDS, faultWords } from "../../packages/notebooks/src/course/unknownFault.ts";
import { serve } from "../../scripts/serve.mjs";
import { openBrowser } from "../support/browser.ts";
import {
  foreign,
  fourAtATime,
  isSound,
  seriousFindings,
  settled,
  type Visit,
  visit,
} from "../support/notebookBrowser.ts";

const lessons = fileURLToPath(new URL("../../packages/notebooks/notebooks/", import.meta.url));
const fixture = fileURLToPath(new URL("../support/notebookFixture/every-part.md", import.meta.url));

/** Pages with tests of their own. */
const ELSEWHERE = ["your-boat.md"];
const names = (await readdir(lessons)).filter((name) => name.endsWith(".md") && !ELSEWHERE.includes(name));
const PAGES = [...names.map((name) => name.replace(/\.md$/, "")), "every-part"];

/** The pages are looked at side by side, ms. */
const PATIENCE = 120_000;

let browser: Browser;
let out: string;
let server: Awaited<ReturnType<typeof serve>>;
/** Every page from one file, which the tests share. */
const visits = new Map<string, Visit>();

beforeAll(async () => {
  out = await mkdtemp(join(tmpdir(), "notebooks-"));
  // all tests begin with a check of the types, and have one of their own
  await buildNotebooks([...names.map((name) => join(lessons, name)), fixture], out, {
    typesAreChecked: true,
  });
  const file = (name: string) => readFile(join(out, "folder", name)).catch(() => undefined);
  server = await serve({ file, first: "index.html", changes: "changes" });
  browser = await openBrowser();
  await fourAtATime(PAGES, async (name) => {
    visits.set(name, await visit(browser, pathToFileURL(join(out, "single", `${name}.html`)).href));
  });
});

afterAll(async () => {
  await browser?.close();
  server?.close();
  await rm(out, { recursive: true, force: true });
});

const visited = (name: string): Visit => {
  const found = visits.get(name);
  if (!found) throw new Error(`${name} was not visited`);
  return found;
};

/** What a page has not brought to its end. */
const unfinished = (page: Page): Promise<number> =>
  page.locator(".trouble:not([hidden]), .held, .value:text-is('…'), .value:empty").count();

/** Opens a page in another form, looks at it, and closes it. */
async function inForm(url: string, name: string): Promise<void> {
  const opened = await visit(browser, `${url}${name}.html`);
  expect(foreign(opened)).toEqual([]);
  expect(opened.complaints).toEqual([]);
  expect(await unfinished(opened.page)).toBe(0);
  const whole = visited(name).page;
  expect(await opened.page.locator("main").textContent()).toBe(await whole.locator("main").textContent());
  await opened.page.close();
}

it.concurrent.each(PAGES)(
  "%s: runs whole as one file and served, asks for nothing, complains of nothing; light and dark, on phone, laptop and projector",
  async (name) => {
    const { page, requests, complaints } = visited(name);
    expect(requests.filter((url) => !/^(blob|data):/.test(url))).toEqual([page.url()]);
    expect(await unfinished(page)).toBe(0);
    await inForm(server.address, name);
    await isSound(page, [1280, 1920, 390]);
    expect(complaints).toEqual([]);
    await page.setViewportSize({ width: 1280, height: 900 });
  },
  PATIENCE,
);

it("a folder opens from a file as well, with worker and figures", () =>
  inForm(pathToFileURL(join(out, "folder", "/")).href, "every-part"));

/** Presses Tab until a control has the focus. */
async function tabTo(page: Page, selector: string): Promise<void> {
  const target = await page.locator(selector).first().elementHandle();
  for (let presses = 0; presses < 60; presses += 1) {
    await page.keyboard.press("Tab");
    if (await page.evaluate((wanted) => document.activeElement === wanted, target)) return;
  }
  throw new Error(`Tab does not reach ${selector}`);
}

describe("by the keyboard alone", () => {
  it("a slider changes what depends on it, and nothing else is drawn anew", async () => {
    const { page } = visited("every-part");
    const cosine = page.locator(".cosine");
    await page.locator("h1").click();
    await tabTo(page, "input[type=range]");
    await page.evaluate(() => document.querySelector(".drop")?.setAttribute("data-stays", ""));
    for (let presses = 0; presses < 30; presses += 1) await page.keyboard.press("ArrowRight");
    expect(await cosine.textContent()).toContain("0.500");
    expect(await page.locator("input[type=range]").first().getAttribute("aria-valuetext")).toBe("60°");
    expect(await page.locator(".value").first().textContent()).toBe("120");
    expect(await page.locator(".drop[data-stays]").count()).toBe(1);
  });

  it("two choices of one label are two choices", async () => {
    const { page } = visited("every-part");
    const tacks = page.locator(".value");
    expect([await tacks.nth(1).textContent(), await tacks.nth(2).textContent()]).toEqual([
      "port",
      "starboard",
    ]);
    await tabTo(page, "fieldset input");
    await page.keyboard.press("ArrowRight");
    expect([await tacks.nth(1).textContent(), await tacks.nth(2).textContent()]).toEqual([
      "starboard",
      "starboard",
    ]);
  });

  it("an exercise is answered, wrongly and then rightly", async () => {
    const { page } = visited("the-wind-triangle");
    await page.locator("#text").focus();
    await tabTo(page, ".exercise input");
    const said = page.locator(".exercise .said").first();
    await page.keyboard.type("14");
    await page.keyboard.press("Enter");
    expect(await said.textContent()).toMatch(/^Not yet\. /);
    await page.keyboard.press("ControlOrMeta+A");
    await page.keyboard.type("10,0");
    await page.keyboard.press("Enter");
    expect(await said.textContent()).toBe("Right: 10.0.");
  });

  it("a boat of the game is met by the address, another is drawn, and an answer is checked", async () => {
    const { page } = visited("both-tacks");
    const number = page.locator("input[type=number]");
    const patternOf = (): Promise<string> =>
      page.locator(".drawing").nth(1).locator(".scatterlayer").first().innerHTML();
    const meet = async (boat: number): Promise<string> => {
      await page.evaluate((hash) => location.replace(hash), `#boat=${boat}`);
      await page.getByText(`Boat ${boat}, 60 angles`).waitFor();
      await settled(page);
      return patternOf();
    };
    const seventeen = await meet(17);
    expect(await meet(18)).not.toBe(seventeen);
    expect(await meet(17)).toBe(seventeen);
    await number.focus();
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => !location.hash.endsWith("=17"));
    const drawn = /#boat=(\d+)$/.exec(page.url())?.[1] ?? "";
    await page.getByText(`Boat ${drawn}, 60 angles`).waitFor();
    expect(await number.inputValue()).toBe(drawn);
    await meet(17);
    const game = page.locator(".exercise").first();
    const { name } = boatOfNumber(17);
    const wrong = FAULT_WORDS.find((words) => words !== faultWords(name));
    await game.getByLabel(wrong ?? "").focus();
    await page.keyboard.press("Space");
    await page.keyboard.press("Enter");
    expect(await game.locator(".said").textContent()).toMatch(/^Not yet\./);
    await game.getByLabel(faultWords(name)).focus();
    await page.keyboard.press("Space");
    await page.keyboard.press("Enter");
    expect(await game.locator(".said").textContent()).toBe(`Right: ${faultWords(name)}.`);
  });

  it("the marks of a boat are saved as a table", async () => {
    const { page, complaints } = visited("both-tacks");
    const [saved] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save the marks as CSV" }).press("Enter"),
    ]);
    expect(saved.suggestedFilename()).toBe("boat-17-wind-020.csv");
    const [head, ...rows] = (await readFile(await saved.path(), "utf8")).trimEnd().split("\r\n");
    expect(head).toBe(
      "wind_angle_sailed_deg,wind_from_shown_deg,wind_speed_shown_kn,log_kn,speed_over_ground_kn",
    );
    expect(rows).toHaveLength(60);
    for (const row of rows) expect(row).toMatch(/^-?\d+(,\d+(\.\d+)?){4}$/);
    expect(complaints).toEqual([]);
  });

  it("the code is shown and hidden", async () => {
    const { page } = visited("the-wind-triangle");
    expect(await page.locator(".code").first().isVisible()).toBe(false);
    await page.locator("#with-code").focus();
    await page.keyboard.press("Space");
    expect(await page.locator(".code").first().isVisible()).toBe(true);
    expect(await seriousFindings(page)).toEqual([]);
    await page.keyboard.press("Space");
    expect(await page.locator(".code").first().isVisible()).toBe(false);
  });
});

describe("files of the reader's own", () => {
  it("a bad one shows its message and holds what depends on it; a good one recovers; the same again is taken", async () => {
    const { page, complaints } = visited("every-part");
    const sum = page.locator(".value").last();
    const choose = (text: string) =>
      page
        .locator("input[type=file]")
        .setInputFiles([{ name: "n.txt", mimeType: "text/plain", buffer: Buffer.from(text) }]);
    await choose("1\n<img src=x onerror=alert(1)>\n");
    await page.locator(".trouble").waitFor();
    expect(await page.locator(".trouble").textContent()).toMatch(
      /^Line \d+: "<img src=x onerror=alert\(1\)>" is not/,
    );
    expect(await page.locator("main img").count()).toBe(0);
    expect(await page.locator(".held").count()).toBe(2);
    expect(await sum.textContent()).toBe("…");
    await choose("40\n2\n");
    await page.locator(".trouble").waitFor({ state: "detached" });
    expect(await sum.textContent()).toBe("42");
    await choose("40\n2\n");
    await settled(page);
    expect(await sum.textContent()).toBe("42");
    expect(complaints).toEqual([]);
  });

  it("a dropped one is taken", async () => {
    const { page } = visited("every-part");
    await page.evaluate(() => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File(["5\n6"], "dropped.txt"));
      for (const kind of ["dragenter", "drop"])
        document.querySelector(".drop")?.dispatchEvent(new DragEvent(kind, { dataTransfer, bubbles: true }));
    });
    await settled(page);
    expect(await page.locator(".value").last().textContent()).toBe("11");
    expect(await page.locator(".drop.over").count()).toBe(0);
  });
});

describe("the puff that is dragged", () => {
  /** The slider with that label. */
  const slider = (page: Page, label: string) => page.getByRole("slider", { name: label });
  const puff = ".draggable .handle >> nth=0";

  it("carries the wind with it, and the page's numbers follow", async () => {
    const { page, complaints } = visited("the-wind-triangle");
    await page.setViewportSize({ width: 1280, height: 900 });
    await page.locator(".draggable").scrollIntoViewIfNeeded();
    const felt = page.locator(".shown", { hasText: "while the air itself moves" });
    const before = await felt.textContent();
    const from = await page.locator(puff).boundingBox();
    const boat = await page.locator(".draggable .handle").nth(1).boundingBox();
    if (!from || !boat) throw new Error("nothing can be dragged");
    const middle = { x: from.x + from.width / 2, y: from.y + from.height / 2 };
    await page.mouse.move(middle.x, middle.y);
    await page.mouse.down();
    // abeam of where the boat will be, to port
    await page.mouse.move(boat.x + boat.width / 2 - 60, boat.y + boat.height / 2, { steps: 4 });
    await page.mouse.up();
    await settled(page);
    expect(await slider(page, "True wind angle").inputValue()).toBe("-90");
    expect(await felt.textContent()).not.toBe(before);
    expect(complaints).toEqual([]);
  });

  it("moves with the sliders too", async () => {
    const { page } = visited("the-wind-triangle");
    const before = await page.locator(puff).getAttribute("cx");
    await slider(page, "True wind angle").focus();
    await page.keyboard.press("Home");
    expect(await slider(page, "True wind angle").inputValue()).toBe("-180");
    expect(await page.locator(puff).getAttribute("cx")).not.toBe(before);
  });
});

it("the names of arrows do not cover each other, whichever way boat, wind and current go", async () => {
  const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
  await page.goto(pathToFileURL(join(out, "single", "the-wind-triangle.html")).href);
  await settled(page);
  await page.getByLabel("the ground", { exact: true }).check();
  const drawing = page.locator("svg.picture").nth(1);
  const turned = async (name: string, to: number): Promise<void> => {
    await page.getByRole("slider", { name, exact: true }).evaluate((slider: HTMLInputElement, value) => {
      slider.value = String(value);
      slider.dispatchEvent(new Event("input"));
    }, to);
  };
  const covered: string[] = [];
  for (const heading of [0, 60, 135, 200, 290])
    for (const set of [0, 80, 170, 260])
      for (const drift of [1, 3, 6]) {
        await turned("Heading", heading);
        await turned("The current sets toward", set);
        await turned("The current runs at", drift);
        await settled(page);
        expect(await drawing.getByText(`current ${drift}.0 kn`).count()).toBe(1);
        const pairs = await drawing.evaluate((svg) => {
          // letters do not fill their line: so much of it is air above and below
          const AIR = 4;
          const names = [...svg.querySelectorAll<SVGTextElement>("text:not([class])")];
          const boxes = names.map((name) => ({ name: name.textContent, box: name.getBBox() }));
          return boxes.flatMap(({ name, box }, at) =>
            boxes.slice(at + 1).flatMap((other) => {
              const right = Math.min(box.x + box.width, other.box.x + other.box.width);
              const bottom = Math.min(box.y + box.height, other.box.y + other.box.height);
              const isCovered =
                right > Math.max(box.x, other.box.x) && bottom > Math.max(box.y, other.box.y) + AIR;
              return isCovered ? [`${name}, ${other.name}`] : [];
            }),
          );
        });
        covered.push(...pairs.map((pair) => `${pair} at ${heading}°, ${set}°, ${drift} kn`));
      }
  expect(covered).toEqual([]);
  await page.close();
});

it("between regattas, by the keyboard: compares, plans, refuses by name, and knows its calibrations again until they are cleared", async () => {
  const { page, complaints } = visited("between-regattas");
  await page.setViewportSize({ width: 1280, height: 900 });
  await page.locator("#text").focus();
  await tabTo(page, ".opening button:not(.main)");
  await page.keyboard.press("Enter");
  await page.getByText("to september.json (2026-09-05): something has moved.").first().waitFor();
  expect(await page.locator(".strip-history").first().textContent()).toMatch(/^Masthead offset.*moved/s);
  await tabTo(page, ".plan input[type=text]");
  await page.keyboard.press("ControlOrMeta+A");
  await page.keyboard.type("5");
  await page.keyboard.press("Enter");
  expect(await page.locator("#plan-trouble").textContent()).toContain("expected a number from 8 to 600");
  await page.keyboard.type("0");
  await page.keyboard.press("Enter");
  await page.getByText(/^What to sail next, in \d+.minutes/).waitFor();
  expect(await seriousFindings(page)).toEqual([]);
  const bad = { name: "bad<i>.json", mimeType: "application/json", buffer: Buffer.from("{}") };
  await page.locator(".opening input[type=file]").setInputFiles([bad]);
  await page.locator(".given .trouble", { hasText: "bad<i>.json: " }).waitFor();
  await page.reload();
  await page.getByText("to september.json (2026-09-05): something has moved.").first().waitFor();
  await page.getByRole("button", { name: "Clear them all" }).press("Enter");
  expect(await page.evaluate(() => localStorage.length)).toBe(0);
  expect(await page.locator(".strip-history").count()).toBe(0);
  expect(complaints).toEqual([]);
});

it("a worker counts inside one file", async () => {
  expect(await visited("every-part").page.getByText("Counted to 5.").count()).toBe(1);
});

it("plotly is loaded where a figure is, and nowhere else", async () => {
  for (const name of ["index", "between-regattas"])
    expect(await visited(name).page.evaluate(() => document.querySelector("#plotly-inside"))).toBeNull();
  // its figures come when the button is pressed
  const plotlyThere = await visited("the-class-afloat").page.evaluate(() => "Plotly" in window);
  expect(plotlyThere).toBe(false);
  expect(await visited("every-part").page.locator(".drawing svg.main-svg").count()).toBeGreaterThan(0);
});

it("the class's lines are laid side by side on a phone as well, and one that is none is told", async () => {
  const { page, complaints } = visited("the-class-afloat");
  await page.setViewportSize({ width: 390, height: 844 });
  const lines = [
    "2, 1, 1.5, 0.5, 8, 9, 1, 0, 0.1, 0.1",
    "nonsense",
    "1, -2, -1.5, 0.5, 0, -3, 1, 4, 3.9, 0.1",
  ];
  await page.locator("textarea").fill(lines.join("\n"));
  await page.getByText("2 of the class, 6 intervals. 5 of them hold what was set").waitFor();
  await settled(page);
  expect(await page.locator("main").textContent()).toContain("Line 2 does not count");
  // none misses in the first panel, one does in the second
  const legend = page.locator(".drawing .legendtext");
  expect(await legend.allTextContents()).toEqual(["holds what was set", "misses it"]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
  expect(await seriousFindings(page)).toEqual([]);
  expect(complaints).toEqual([]);
});

it("prints in the light colours at the width of A4, and goes back to the screen after", async () => {
  const { page } = visited("the-wind-triangle");
  await page.emulateMedia({ colorScheme: "dark" });
  await settled(page);
  await page.evaluate(() => {
    addEventListener("beforeprint", () => {
      const tick = document.querySelector(".drawing .xtick text");
      const drawn = document.querySelector(".drawing svg.main-svg");
      document.body.dataset.printed = `${tick && getComputedStyle(tick).fill} ${drawn?.clientWidth}`;
    });
  });
  await page.pdf({ format: "A4" });
  // the ink of the light colours, and a width that A4 holds between margins: 182 mm are 688 px
  expect(await page.evaluate(() => document.body.dataset.printed)).toBe("rgb(27, 35, 41) 680");
  await settled(page);
});

it("loads again when the Markdown is saved, and says what is wrong with it meanwhile", async () => {
  const folder = await mkdtemp(join(tmpdir(), "notebooks-"));
  const markdown = join(folder, "new.md");
  await writeFile(markdown, "# First\n\n{{1 + 1}}\n");
  const site = new NotebookSite(folder);
  const own = await serve({ file: (name) => site.file(name), first: "new.html", changes: CHANGES });
  const stop = watched([folder], () => {
    site.forget();
    own.changed();
  });
  const page = await browser.newPage();
  try {
    await page.goto(own.address);
    await page.getByRole("heading", { name: "First" }).waitFor();
    await writeFile(markdown, "# Second\n\n{{1 +}}\n");
    await page.getByText("new.md:3:").waitFor();
    await writeFile(markdown, "# Third\n\n{{1 + 2}}\n");
    await page.getByRole("heading", { name: "Third" }).waitFor();
    await settled(page);
    expect(await page.locator(".value").textContent()).toBe("3");
  } finally {
    stop();
    await page.close();
    own.close();
    await rm(folder, { recursive: true, force: true });
  }
});
