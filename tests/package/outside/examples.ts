import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { cp, mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { type AddressInfo, createServer, type Server } from "node:net";
import { extname, join } from "node:path";
import { gzipSync } from "node:zlib";
import type { Browser, Page } from "playwright-core";
import { build } from "vite";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { wrapAngle } from "../../../packages/core/src/angles.ts";
import { meanDirection } from "../../../packages/core/src/circular.ts";
import { drawScenario } from "../../../packages/core/src/simulate/drawScenario.ts";
import { linesOfSail } from "../../../packages/core/src/simulate/simulatedLog.ts";
import { simulatedSail } from "../../../packages/core/src/simulate/simulatedSail.ts";
import { degrees, radians } from "../../../packages/core/src/units.ts";
import { goodLog, oneTackLog } from "../../support/boatLogs.ts";
import { openBrowser } from "../../support/browser.ts";
import { outputOf, root } from "../../support/outsideProject.ts";
import { agrees } from "../../support/published.ts";

const examples = join(root, "tests", "package", "examples");

const TYPES: Readonly<Record<string, string>> = { ".html": "text/html", ".js": "text/javascript" };

/** @param project the outside project's folder, once it is there */
export function tryExamples(project: () => string): void {
  /** An example project in a folder of its own, beside the installed library. */
  async function example(name: string): Promise<string> {
    const copy = join(project(), name);
    await cp(join(examples, name), copy, { recursive: true });
    return copy;
  }

  describe("the example of a logger", () => {
    let gateway: Server;
    let logger: ChildProcess;
    afterAll(() => {
      gateway?.close();
      logger?.kill();
    });

    it("keeps a live true wind from NMEA 0183 over TCP, as the wind is", async () => {
      const sail = simulatedSail(drawScenario(3, { faults: "none", seconds: 600, motoring: false }));
      const lines = [...linesOfSail(sail)];
      gateway = createServer((socket) => {
        // cut anywhere, as a network does
        const text = lines.map((line) => `${line}\r\n`).join("");
        for (let at = 0; at < text.length; at += 1000) socket.write(text.slice(at, at + 1000));
        socket.end();
      });
      gateway.listen(0, "127.0.0.1");
      await once(gateway, "listening");
      const { port } = gateway.address() as AddressInfo;
      const script = join(await example("logger"), "logger.mjs");
      logger = spawn(process.execPath, [script, "127.0.0.1", String(port)], { cwd: project() });
      let [told, said] = ["", ""];
      logger.stdout?.on("data", (chunk) => (told += chunk));
      logger.stderr?.on("data", (chunk) => (said += chunk));
      const [status] = await once(logger, "close");
      expect(said).toMatch(/^\d+ lines: \d+ used, \d+ that could not be read\n$/);
      expect(status).toBe(0);
      const winds: { readonly twd_deg: number | null; readonly twa_deg: number | null }[] = told
        .trim()
        .split("\n")
        .map((line) => JSON.parse(line));
      expect(winds.length).toBeGreaterThan(0.9 * lines.filter((line) => line.includes("MWV")).length);
      const directions = winds.flatMap(({ twd_deg: twd }) => (twd === null ? [] : [radians(twd)]));
      expect(directions.length).toBeGreaterThan(0.9 * winds.length);
      const truth = meanDirection(sail.truth.columns.waterWindDirection);
      agrees(
        degrees(wrapAngle(meanDirection(directions) - truth)),
        0,
        3,
        "faultless sensors, no correction for what tacking does to them; a wrong sign or north would be tens of degrees",
      );
    });
  });

  describe("in a browser", () => {
    let browser: Browser;
    let page: Page;
    const elsewhere: string[] = [];
    const errors: string[] = [];

    beforeAll(async () => {
      browser = await openBrowser();
      page = await browser.newPage();
      page.on("pageerror", (error) => errors.push(error.message));
      // the site is the outside project's folder, and nothing else may be asked for
      await page.context().route("**/*", async (route) => {
        const { origin, pathname } = new URL(route.request().url());
        if (origin !== "http://outside.test") elsewhere.push(route.request().url());
        const body = await readFile(join(project(), pathname)).catch(() => undefined);
        if (body === undefined || origin !== "http://outside.test") return route.abort();
        return route.fulfill({ body, contentType: TYPES[extname(pathname)] ?? "application/octet-stream" });
      });
    });

    afterAll(async () => {
      await browser?.close();
      expect(elsewhere).toEqual([]);
      expect(errors).toEqual([]);
    });

    it("runs by <script type=module> without a build step, in the page and in a worker", async () => {
      const library = "./node_modules/@bothtacks/core/dist/bundle/bothtacks.js";
      await writeFile(
        join(project(), "plain.js"),
        `import { knots } from "${library}"; postMessage(knots(1852 / 3600));`,
      );
      await writeFile(
        join(project(), "plain.html"),
        `<!doctype html><title>Plain</title><p id="page"></p><p id="worker"></p><script type="module">
       import { windOverWater } from "${library}";
       const show = (id, value) => { document.getElementById(id).textContent = String(value); };
       show("page", windOverWater({ angle: 0, speed: 5 }, 0, { direction: 0, speed: 2 }).speed);
       const worker = new Worker("./plain.js", { type: "module" });
       worker.onmessage = ({ data }) => show("worker", data);
       </script>`,
      );
      await page.goto("http://outside.test/plain.html");
      await page.getByText("1", { exact: true }).waitFor();
      expect(await page.locator("#page").textContent()).toBe("3");
      expect(await page.locator("#worker").textContent()).toBe("1");
    });

    it("the example page, built by vite, reads a log in a worker", async () => {
      const site = await example("page");
      await build({
        configFile: false,
        logLevel: "silent",
        root: site,
        base: "./",
        worker: { format: "es" },
      });
      await page.goto("http://outside.test/page/dist/index.html");
      const { name, bytes } = oneTackLog();
      await page
        .getByLabel("A log from the instruments")
        .setInputFiles({ name, mimeType: "text/plain", buffer: bytes });
      await page.getByText("1 legs.").waitFor();
      expect(await page.locator("#legs td").first().textContent()).toBe("starboard");
      await page
        .getByLabel("A log from the instruments")
        .setInputFiles({ name: "prose.txt", mimeType: "text/plain", buffer: Buffer.from("no log\n") });
      await page.getByText("prose.txt").waitFor();
    });
  });

  describe("the example of a batch", () => {
    const hasMake = spawnSync("make", ["--version"]).status === 0;

    it.skipIf(!hasMake)("makes one job a log and merges what they wrote", async () => {
      const batch = await example("batch");
      await mkdir(join(batch, "logs"));
      const [race, beat] = [goodLog(), oneTackLog()];
      await writeFile(join(batch, "logs", "race.nmea.gz"), gzipSync(race.bytes));
      await writeFile(join(batch, "logs", "beat.nmea"), beat.bytes);
      const made = await outputOf("make", ["-j", "2", `NODE=${process.execPath}`], batch);
      expect(made, made.output).toMatchObject({ status: 0 });
      const season = JSON.parse(await readFile(join(batch, "season.json"), "utf8"));
      const legs = (await readFile(join(batch, "logs", "race.jsonl"), "utf8")).trim().split("\n");
      const beats = (await readFile(join(batch, "logs", "beat.jsonl"), "utf8")).trim().split("\n");
      expect(season).toMatchObject({ logs: 2, legs: legs.length + beats.length });
      expect(Object.keys(season.groups)).toEqual(["port tack", "starboard tack"]);
      expect(JSON.parse(beats[0]!)).toMatchObject({
        kind: "sailing",
        tack: "starboard",
        log: "logs/beat.nmea",
      });
      // eleven minutes, less the first ones, in which she gathers way
      expect(JSON.parse(beats[0]!).seconds).toBeGreaterThan(540);
      expect((await outputOf("make", ["-q", `NODE=${process.execPath}`], batch)).status).toBe(0);
      await writeFile(join(batch, "logs", "prose.nmea"), "no log\n");
      const failed = await outputOf("make", [`NODE=${process.execPath}`], batch);
      expect(failed.status).toBe(2);
      expect(failed.output).toContain("prose.nmea");
      expect(await readdir(join(batch, "logs"))).not.toContain("prose.jsonl");
    });
  });
}
