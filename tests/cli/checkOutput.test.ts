// INPUTS: open recordings, one under a name that would do harm if it were taken for markup or for orders to the terminal, with such
// lines in it. Expected: what the published schema asks for, and text that is shown as text.
import { mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { nmea0183Sentence } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import { checkSchema } from "../../packages/core/src/report/checkSchema.ts";
import { shown } from "../../packages/core/src/report/shown.ts";
import { commandLine } from "../support/commandLine.ts";
import { seasonFolder } from "../support/seasonFolder.ts";

let folder: string;
let hostile: string;
const HOSTILE_NAME = "<img src=x onerror=alert(1)>\u001b[31m\u202e.log";

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "bothtacks-check-"));
  await seasonFolder(join(folder, "season"));
  const log = await readFile(join(folder, "season", "1.log"), "latin1");
  const lines = [
    "$<script>alert(2)</script>*00",
    "$IIXDR,A,1.0,D,<b>x</b>\u001b[2J*7F",
    "!</script><script>alert(3)//",
  ];
  hostile = join(folder, HOSTILE_NAME);
  await writeFile(hostile, `${lines.join("\r\n")}\r\n${log}`, "latin1");
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe("check", () => {
  it("prints no more than 92 columns, and what it says is computed from the log", async () => {
    const { out } = await commandLine(
      "check",
      join(folder, "season", "1.log"),
      join(folder, "season", "2.log"),
    );
    const lines = out.split("\n").filter((line) => !line.includes(folder));
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(92);
    const words = out.replaceAll(/\s+/g, " ");
    expect(words).toContain("* apparent wind angle II VWR 1.0 Hz 1° – – –");
    expect(words).toContain("II VHW, heading magnetic: the same as II HDM, value for value.");
    expect(words).toContain("II VWR, apparent wind angle: in steps of 1° only.");
    expect(words).toMatch(/The course over ground comes \d\.\d s after the heading, damping included\./);
  });

  it("says of a log without any time that this is what it lacks", async () => {
    const timeless = join(folder, "timeless.nmea");
    await writeFile(timeless, "$IIMWV,199,R,5.9,N,A*2E\n".repeat(40));
    const { out, status } = await commandLine("check", timeless);
    expect(status).toBe(0);
    expect(out).toContain("40 lines: 40 used, 0 ignored, 0 with problems");
    const words = out.replaceAll(/\s+/g, " ");
    expect(words).toContain("It cannot calibrate ------------------- - Anything: the log tells no time");
    expect(words).not.toContain("was recorded");
  });

  it("says how much of a log is damaged where it is much, and what to do with logs joined in the wrong order", async () => {
    const lines = (await readFile(join(folder, "season", "1.log"), "latin1")).split("\n");
    const damaged = join(folder, "damaged.log");
    await writeFile(
      damaged,
      lines.map((line, at) => (at % 5 === 0 ? line.replace(/\*../, "*ZZ") : line)).join("\n"),
      "latin1",
    );
    const half = lines.length >> 1;
    const joined = join(folder, "joined.log");
    await writeFile(joined, [...lines.slice(half), ...lines.slice(0, half)].join("\n"), "latin1");
    const wordsOf = async (path: string) => (await commandLine("check", path)).out.replaceAll(/\s+/g, " ");
    expect(await wordsOf(damaged)).toMatch(/\d+ % of the lines are damaged \(a wrong checksum in [\d,]+\)/);
    expect(await wordsOf(joined)).toMatch(
      /of the log could not be placed in time.* give them as files of their own/,
    );
    expect(await wordsOf(join(folder, "season", "1.log"))).not.toMatch(/are damaged|could not be placed/);
  });

  it("takes the leap of a clock that was set for no silence of the sensors", async () => {
    const lines = (await readFile(join(folder, "season", "1.log"), "latin1")).split("\n");
    const tenth = lines.length / 10;
    // as a receiver tells the time that lost it while it was off
    const unset = lines.map((line, at) => {
      const body = /^\$(..(?:RMC|ZDA),.*)\*..\r?$/.exec(line)?.[1];
      if (at > tenth || body === undefined) return line;
      return nmea0183Sentence(body.replace(",14,07,2008,", ",06,01,1980,").replace(",140708,", ",060180,"));
    });
    const path = join(folder, "unset.log");
    await writeFile(path, unset.join("\n"), "latin1");
    const { out } = await commandLine("check", path);
    const words = out.replaceAll(/\s+/g, " ");
    expect(words).toMatch(
      /From 1980-01-06 .* UTC: what follows counts as another day\. If the log ran on, its clock was set then/,
    );
    expect(words).not.toContain("silent for");
    expect(words).not.toMatch(/\d{4,} h/);
  });

  it("gives JSON of the published shape, with null for what is not known", async () => {
    const { out, status } = await commandLine("check", join(folder, "season"), "--json");
    expect(status).toBe(0);
    expect(out).not.toMatch(/NaN|Infinity/);
    const found = checkSchema.parse(JSON.parse(out));
    expect(found.files.map(({ name }) => name)).toHaveLength(3);
    expect(found.files[2]).toMatchObject({ start: null, end: null });
    expect(found.files_left_out).toMatchObject([{ name: join(folder, "season", "notes.txt") }]);
    const { all, used, ignored, problems } = found.lines;
    expect(used + ignored + problems).toBe(all);
    const taken = found.sources.filter((source) => source.taken).map(({ quantity }) => quantity);
    expect(taken).toContain("apparentWindAngle");
    expect(new Set(taken).size).toBe(taken.length);
    expect(found.sources.find(({ name }) => name === "HE HDT")).toMatchObject({
      is_course_over_ground: true,
      taken: false,
    });
  });

  it("writes a page, or a folder with page and JSON, and replaces it only when asked to", async () => {
    const [log, out] = [join(folder, "season", "1.log"), join(folder, "out")];
    const { out: printed } = await commandLine("check", log, "--out", out);
    expect(printed).toContain(`Written: ${join(out, "check.json")}, ${join(out, "check.html")}.`);
    expect((await readdir(out)).sort()).toEqual(["check.html", "check.json"]);
    expect((await commandLine("check", log, "--out", out)).err).toContain("is not empty");
    expect((await commandLine("check", log, "--out", out, "--replace")).status).toBe(0);
    const page = join(folder, "page.html");
    await commandLine("check", log, "--out", page);
    expect(await readFile(page, "utf8")).toContain('<div class="drawing" id="timeline"');
    expect((await commandLine("check", log, "--out", page)).err).toContain("is there already");
  });
});

describe("content that would do harm", () => {
  it("is shown as text in the terminal", async () => {
    for (const args of [
      ["check", hostile],
      ["check", hostile, "--json"],
      ["check", join(folder, "\u001b[2J")],
    ]) {
      const { out, err } = await commandLine(...args);
      // biome-ignore lint/suspicious/noControlCharactersInRegex: no such character may come through
      expect(out + err).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
    }
    expect((await commandLine("check", hostile)).out).toContain("\\u001b[31m");
    const { files } = checkSchema.parse(JSON.parse((await commandLine("check", hostile, "--json")).out));
    expect(files[0]!.name).toBe(hostile);
  });

  it("is shown as text on the page", async () => {
    const page = join(folder, "hostile.html");
    await commandLine("check", hostile, "--out", page);
    const markup = await readFile(page, "utf8");
    const own = markup.replace(/<script>[\s\S]*?<\/script>/g, "");
    expect(own).toContain("&lt;img src=x onerror=alert(1)&gt;");
    expect(own).toContain("&lt;script&gt;alert(2)&lt;/script&gt;");
    expect(own).not.toMatch(/<img|<b>|alert\(3\)\/\/<\/script>/);
    expect(markup.match(/<script/g)).toHaveLength(3);
  });

  it("leaves plain text, accents and line feeds alone", () => {
    expect(shown("Fête à bord: 12°\n\t")).toBe("Fête à bord: 12°\n\\u0009");
  });
});
