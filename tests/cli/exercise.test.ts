/**
 * INPUTS: the forms that the program itself gives, with their invented examples, and forms made here from them.
 */
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { EXERCISE_KINDS } from "../../packages/core/src/calibration/boatRecord.ts";
import {
  exerciseRecordFromFile,
  exerciseRecordText,
} from "../../packages/core/src/calibration/recordFiles.ts";
import { commandLine } from "../support/commandLine.ts";

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "bothtacks-exercise-"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function written(name: string, text: string): Promise<string> {
  const path = join(folder, name);
  await writeFile(path, text);
  return path;
}

const formOf = async (kind: string): Promise<string> => (await commandLine("exercises", "--form", kind)).out;
const worked = async (kind: string, text: string, ...options: readonly string[]) =>
  commandLine("exercise", kind, await written(`${kind}.csv`, text), ...options);
const inOneLine = (text: string): string => text.replaceAll(/\s+/g, " ");

describe("exercises", () => {
  it("lists each with minutes, what it settles and cautions, no wider than a terminal", async () => {
    const { status, out } = await commandLine("exercises");
    expect(status).toBe(0);
    for (const kind of EXERCISE_KINDS)
      expect(out).toMatch(new RegExp(`^${kind}: .+\\n-+\\n.*minutes|hour|day|log`, "m"));
    expect(inOneLine(out)).toContain("Keep a proper lookout");
    expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThanOrEqual(92);
  });

  it.each(EXERCISE_KINDS)(
    "%s: tells of it alone, and how to go on; a form says what it may hold",
    async (kind) => {
      const { status, out } = await commandLine("exercises", kind);
      expect(status).toBe(0);
      expect(out).toContain(`bothtacks exercise ${kind} `);
      const { out: form } = await commandLine("exercises", "--form", kind);
      const named = form
        .split("\n")
        .filter((line) => !line.startsWith("##"))
        .flatMap(
          (line) => /^# (\w+):/.exec(line)?.[1] ?? (/^[a-z].*_|^reading/.test(line) ? line.split(",") : []),
        );
      for (const name of named.filter((one) => one !== "exercise"))
        expect(form).toMatch(new RegExp(`^## {3}${name} +\\S`, "m"));
      expect(`${out}${form}`).not.toMatch(/undefined|NaN/);
      expect(Math.max(...`${out}\n${form}`.split("\n").map((line) => line.length))).toBeLessThanOrEqual(110);
    },
  );

  it("gives no form of what is not there, and none where a log is all", async () => {
    expect((await commandLine("exercises", "--form", "sprint")).status).toBe(2);
    expect((await commandLine("exercises", "sprint")).status).toBe(2);
    expect(await commandLine("exercises", "--form", "clock")).toMatchObject({ status: 1 });
  });
});

describe("exercise", () => {
  it.each(["runs", "circle", "calm", "depth", "temperature", "channel"])(
    "%s: its own form is answered",
    async (kind) => {
      const { status, out, err } = await worked(kind, await formOf(kind));
      expect({ status, err }).toEqual({ status: 0, err: "" });
      expect(out).toMatch(/±/);
      expect(out).not.toMatch(/NaN|undefined|unknown /);
      expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThanOrEqual(92);
    },
  );

  it("takes JSON as it takes a table, semicolons and decimal commas too", async () => {
    const table = await formOf("temperature");
    const json = JSON.stringify({
      exercise: "temperature",
      date: "2031-06-14",
      rows: [
        { reading_c: 17.2, truth_c: 16.4 },
        { reading_c: 17.4, truth_c: 16.5 },
      ],
    });
    const typed = table.replaceAll(",", ";").replaceAll(/(\d)\.(\d)/g, "$1,$2");
    const [one, other, third] = [
      await worked("temperature", table),
      await worked("temperature", json),
      await worked("temperature", typed),
    ];
    expect(other.out).toBe(one.out);
    expect(third.out).toBe(one.out);
  });

  it("takes what a spreadsheet makes of a form, and capitals", async () => {
    const form = (await formOf("runs")).replace("back,5.1", "back,5.2");
    const [plain, others] = [await worked("runs", form), ["", "", ""]];
    others[0] = form.replaceAll(/^(#.*)$/gm, "$1,,,").replaceAll("there", "There");
    others[1] = form
      .replaceAll(/^(#[^#].*)$/gm, '"$1"')
      .replaceAll(/^(\d.*)$/gm, (line) => `"${line.split(",").join('","')}"`);
    others[2] = `\ufeff${form.replace("start,end", "Start,End")},,,\r\n`;
    for (const other of others) expect((await worked("runs", other)).out).toBe(plain.out);
  });

  it("takes other units by the endings of names", async () => {
    const depth = (unit: string, factor: number): string =>
      `# exercise: depth\n# date: 2031-06-14\n# draught_${unit}: ${1.8 / factor}\nsounding_${unit},reading_${unit}\n${4.8 / factor},${4.2 / factor}\n`;
    const { out } = await worked("depth", depth("m", 1));
    expect(out).toContain("+0.60 m");
    expect((await worked("depth", depth("ft", 0.3048))).out).toBe(out);
    expect((await worked("depth", depth("fathoms", 1.8288))).out).toBe(out);
    const water = (unit: string, rows: string): string =>
      `# exercise: temperature\n# date: 2031-06-14\nreading_${unit},truth_${unit}\n${rows}\n`;
    const celsius = await worked("temperature", water("c", "20,15"));
    expect((await worked("temperature", water("f", "68,59"))).out).toBe(celsius.out);
    const speed = (unit: string, value: number): string =>
      `# exercise: runs\n# date: 2031-06-14\n# distance_m: 926\nstart,seconds,way,log_${unit}\n10:00,342,there,${value}\n10:09,311,back,${value}\n`;
    const knots = await worked("runs", speed("kn", 5));
    for (const [unit, inOne] of [
      ["ms", 1852 / 3600],
      ["kmh", 1.852],
      ["mph", 1852 / 1609.344],
    ] as const)
      expect((await worked("runs", speed(unit, 5 * inOne))).out).toBe(knots.out);
  });

  it("takes places and the variation as charts write them", async () => {
    const form = await formOf("circle");
    const by = async (fields: string) =>
      (
        await worked(
          "circle",
          form
            .replaceAll(/^# (variation|annual).*\n/gm, "")
            .replace("\ncompass_deg,", `\n${fields}\ncompass_deg,`),
        )
      ).out;
    expect(await by("# variation_deg: 3°30' W")).toBe(await by("# variation_deg: -3.5"));
    const place = await by("# date: 2027-06-14\n# latitude_deg: 54 07.404 N\n# longitude_deg: 10°34,068' E");
    expect(place).toBe(await by("# date: 2027-06-14\n# latitude_deg: 54.1234\n# longitude_deg: 10.5678"));
    expect(place).toContain("Coefficients: A");
  });

  it("says where a form still holds its example, and keeps none of that", async () => {
    const boat = join(folder, "example");
    await mkdir(boat);
    expect(inOneLine((await worked("depth", await formOf("depth"))).out)).toContain(
      "still holds the example",
    );
    const kept = await worked("depth", await formOf("depth"), "--boat", boat);
    expect(kept).toMatchObject({ status: 1, err: expect.stringContaining("still holds the example") });
    expect(await readdir(boat)).toEqual([]);
  });

  it("takes heel and pitch at the dock as they are read by eye", async () => {
    const { status, out } = await worked(
      "dock",
      "# exercise: dock\n# date: 2031-06-14\n# heel_shown_deg: 3.8\n# heel_true_deg: 1\n",
    );
    expect(status).toBe(0);
    // 1.96 · √(0.5² + 0.3²) = 1.14
    expect(inOneLine(out)).toContain(
      "Heel: level, it shows 2.8° ± 1.1° to starboard; add −2.8° to the reading.",
    );
    expect(out).not.toContain("itch");
  });

  it("keeps what it found in the boat's folder and overwrites nothing", async () => {
    const boat = join(folder, "boat");
    const form = (await formOf("runs")).replace("back,5.1", "back,5.2");
    await mkdir(boat);
    for (let time = 0; time < 2; time++)
      expect(await worked("runs", form, "--boat", boat)).toMatchObject({ status: 0 });
    const names = (await readdir(join(boat, "history"))).sort();
    expect(names).toEqual(["20310614T100230Z-runs-2.json", "20310614T100230Z-runs.json"]);
    const text = await readFile(join(boat, "history", names[1]!), "utf8");
    const record = exerciseRecordFromFile(text, "runs.json");
    expect(record.findings.map(({ name }) => name)).toEqual([
      "speed.atTypical",
      "speed.intercept",
      "speed.gain",
    ]);
    expect(exerciseRecordText(record)).toBe(text);
  });

  it("counts from the sensors: what stands in the instruments is undone first", async () => {
    const boat = await written(
      "boat.json",
      JSON.stringify({ active_settings: { speed: { gain_port: 1.05, gain_starboard: 1.05 } } }),
    );
    const { out } = await worked("runs", await formOf("runs"), "--boat", boat);
    const plain = await worked("runs", await formOf("runs"));
    const added = (text: string): number => Number(/5\.0 kn +\+([\d.]+) kn/.exec(text)?.[1]);
    // the same readings ask for nearly the same amounts on top, whatever stood in the instrument
    expect(Math.abs(added(out) - added(plain.out))).toBeLessThan(0.06);
    expect(out).not.toContain("whatever it was");
  });
});

describe("what cannot be answered is refused, with exit status 1 and one line", () => {
  const refuses = async (kind: string, text: string, reason: RegExp) => {
    const { status, err } = await worked(kind, text);
    expect(status).toBe(1);
    expect(err).toMatch(reason);
    expect(err.trim().split("\n")).toHaveLength(1);
  };

  it("two runs in the same direction", async () => {
    await refuses("runs", (await formOf("runs")).replaceAll(",back,", ",there,"), /all runs go the same way/);
  });

  it("runs that overlap, or stand in another order than they were run in", async () => {
    await refuses(
      "runs",
      (await formOf("runs")).replace("10:11:40,", "10:05:40,"),
      /start: expected a time after the run before it ended/,
    );
  });

  it("one heading, a circle of four points, one sailed too fast", async () => {
    const form = await formOf("circle");
    const rows = (wanted: RegExp) =>
      form
        .split("\n")
        .filter((line) => !/^\d/.test(line) || wanted.test(line))
        .join("\n");
    await refuses("circle", rows(/^45,/), /one heading/);
    await refuses("circle", rows(/^(0|90|180|270),/), /five headings/);
    await refuses(
      "circle",
      form.replace("\ncompass_deg,", "\n# circle_seconds: 60\ncompass_deg,"),
      /two minutes/,
    );
    await refuses("circle", form.replace(/# variation.*\n/g, ""), /variation_deg/);
  });

  it("no reference for the anemometer, and no range of speeds", async () => {
    const form = (await formOf("anemometer")).replaceAll(/^(\d\S*),[\d.]+$/gm, "$1,");
    await refuses("anemometer", form, /no second source/);
    const ship = await readFile(
      new URL("../../datasets/recorded/ship-two-anemometers-2014.csv", import.meta.url),
    );
    await refuses("anemometer", ship.toString(), /one speed.*1\.059 ± 0\.04/);
  });

  it("forms with what no form has, and the wrong kind of exercise", async () => {
    await refuses(
      "runs",
      (await formOf("runs")).replace(",there,", ",up,"),
      /line 27: way: expected one of "there", "back", received "up"/,
    );
    await refuses(
      "runs",
      (await formOf("runs")).replace("way,log_kn", "way,log_kt"),
      /did you mean "log_kn"/,
    );
    await refuses("circle", await formOf("runs"), /exercise: expected "circle"/);
    await refuses("runs", (await formOf("runs")).replace("10:02:30", "10:61:30"), /10:02:30/);
    expect((await commandLine("exercise", "sprint", "a.csv")).status).toBe(2);
    expect((await commandLine("exercise", "run", "a.csv")).err).toContain("did you mean runs?");
  });

  it("an empty form, decimal commas between commas, a day in another order, an end before its start", async () => {
    const form = await formOf("runs");
    await refuses(
      "runs",
      form.replaceAll(/^\d.*\n/gm, ""),
      /a row of readings and more below the names, received none/,
    );
    await refuses("runs", form.replace("there,5.0", "there,5,0"), /line 27: .*semicolons/);
    await refuses("runs", form.replace("2031-06-14", "14.06.2031"), /date: expected a day such as/);
    await refuses(
      "runs",
      form.replace("10:08:12", "10:01:12"),
      /line 27: end: expected a time after the start/,
    );
    await refuses(
      "depth",
      "# exercise: depth\n# date: 2031-06-14\nsounding_m,reading_m,reading_ft\n4,3,10\n",
      /line 4: reading_m: .*one unit/,
    );
  });

  it("exercises that need a log", async () => {
    await refuses("berth", await formOf("berth"), /there is no log/);
    const positions = (north: number, east: number) =>
      [
        "time,latitude_deg,longitude_deg",
        ...Array.from(
          { length: 120 },
          (_, at) =>
            `2031-06-14T10:${String(Math.floor(at / 60)).padStart(2, "0")}:${String(at % 60).padStart(2, "0")}Z,${54.1234 + north * at},${10.5678 + east}`,
        ),
      ].join("\n");
    const berth = await written("berth.csv", await formOf("berth"));
    for (const [log, because] of [
      [positions(1e-4, 0), /she was not alongside/],
      [positions(0, 1), /the positions lie \d+ nm from the place given/],
    ] as const)
      expect((await commandLine("exercise", "berth", berth, await written("stay.csv", log))).err).toMatch(
        because,
      );
    const stay = await written("stay.csv", positions(0, 1e-5));
    expect((await commandLine("exercise", "berth", berth, stay)).out).toMatch(/berth/);
    await refuses("dock", "# exercise: dock\n", /give a log of heel and pitch/);
  });
});

describe("what was noted wrongly is told, and nothing is to be keyed in", () => {
  const told = async (kind: string, wrong: (form: string) => string): Promise<string> => {
    const { status, out } = await worked(kind, wrong(await formOf(kind)));
    expect(status).toBe(0);
    return inOneLine(out);
  };

  it("a run timed a minute too long: it or the other one that way at that speed", async () => {
    const out = await told("runs", (form) => form.replace("10:25:44", "10:26:44"));
    expect(out).toContain("Key in nothing yet: these runs contradict each other.");
    expect(out).toContain("without run 3, or without run 1, the others agree far better");
  });

  it("a heading with its figures exchanged", async () => {
    const out = await told("circle", (form) => form.replace("90,97.0", "90,79.0"));
    expect(out).toContain("Key in nothing yet");
    expect(out).toContain("without the one on 090° the others agree far better");
  });

  it("a variation with its sign turned, and columns exchanged", async () => {
    const sign = /some twice the variation the other way: see that east is positive/;
    expect(await told("circle", (form) => form.replace("variation_deg: 3.5", "variation_deg: -3.5"))).toMatch(
      sign,
    );
    expect(
      await told("circle", (form) => form.replace("\ncompass_deg,true_deg", "\ntrue_deg,compass_deg")),
    ).toMatch(sign);
    expect(await told("circle", (form) => form)).not.toMatch(sign);
  });

  it("soundings exchanged with readings, and a point far from the others", async () => {
    const exchanged = await told("depth", (form) =>
      form.replace("\nsounding_m,reading_m", "\nreading_m,sounding_m"),
    );
    expect(exchanged).toContain("counts from above the waterline, which no transducer does");
    const far = await told("depth", (form) => form.replace("6.4,5.8", "6.4,8.5"));
    expect(far).toContain("Key in nothing yet: the points contradict each other.");
    expect(far).toContain("without point 3 the others agree far better");
    expect(await told("depth", (form) => form)).not.toContain("nothing yet");
    const channel = await told("channel", (form) => form.replace("10.9,10", "10.9,0"));
    expect(channel).toContain("without point 4 the others agree far better");
  });

  it("a distance ten times too long is refused: no log is off by such a factor", async () => {
    const { status, err } = await worked("runs", (await formOf("runs")).replace("nm: 0.5", "nm: 5"));
    expect(status).toBe(1);
    expect(err).toMatch(/no log is off by such a factor: look at the distance/);
  });
});

describe("what is found of a channel", () => {
  const of = async (rows: string): Promise<string> =>
    inOneLine(
      (
        await worked(
          "channel",
          `# exercise: channel\n# date: 2031-06-14\n# name: sender\n# unit: l\n# deviation: 2\nreading,truth\n${rows}`,
        )
      ).out,
    );

  it("is a line where it reads in another unit, and no amount to add", async () => {
    const out = await of("0.5,0\n4.5,120\n");
    expect(out).toContain("Truth = −15.00 l + 30.0000 · reading");
    expect(out).toContain("Where the sender reads 2.50, the truth is 60.00 l");
    expect(out).not.toContain(" add ");
  });

  it("is an amount to add, too, where it reads in the truth's own", async () => {
    expect(await of("10,0\n110,100\n")).toContain(
      "reads 60.00, the truth is 50.00 l ± 3.93 l: add −10.00 l there",
    );
  });

  it("counts the other way with a minus sign", async () => {
    expect(await of("0.5,0\n100.5,-100\n")).toContain("Truth = +0.50 l − 1.0000 · reading");
  });
});

it("a circle's curve is drawn, on the side that its deviations are", async () => {
  const { out } = await worked("circle", await formOf("circle"));
  const line = (heading: string) =>
    out.split("\n").find((text) => text.startsWith(`  ${heading}°  `) && text.includes("o"));
  expect(line("030")!.indexOf("o")).toBeGreaterThan(line("030")!.indexOf("|"));
  expect(line("225")!.indexOf("o")).toBeLessThan(line("225")!.indexOf("|"));
});

describe("runs may be written in several ways", () => {
  const head = "# exercise: runs\n# date: 2031-06-14\n# stream_kn: 1\n";
  const table = async (text: string): Promise<string> => {
    const { status, out, err } = await worked("runs", head + text);
    expect({ status, err }).toEqual({ status: 0, err: "" });
    return out;
  };

  it("by times or durations, miles or metres or GPS, ways or courses", async () => {
    const one = await table(
      "start,end,way,distance_nm,log_kn\n23:50:00,00:00:00,there,1,5\n00:05:00,00:17:00,back,1,5\n",
    );
    const other = await table(
      "start,seconds,course_deg,distance_m,log_kn\n23:50:00,600,10,1852,5\n00:05:00,720,195,1852,5\n",
    );
    const gps = await table(
      "start,seconds,way,sog_kn,log_kn\n23:50:00,600,there,6,5\n00:05:00,720,back,5,5\n",
    );
    expect(other).toBe(one);
    expect(gps).toBe(one);
    expect(one).toMatch(/5\.0 kn +\+0\.\d\d kn/);
  });

  it("and are refused where a row lacks one of each", async () => {
    for (const [text, field] of [
      ["start,way,distance_nm,log_kn\n10:00:00,there,1,5\n", /line 5: end: expected a time/],
      ["start,end,distance_nm,log_kn\n10:00:00,10:10:00,1,5\n", /line 5: way: expected "there" or "back"/],
      ["start,end,way,log_kn\n10:00:00,10:10:00,there,5\n", /line 5: distance_nm: expected a distance/],
      ["start,end,way,distance_nm,log_kn\n10:00:00,10:00:00,there,1,5\n", /line 5: end: expected a time/],
    ] as const)
      expect((await worked("runs", head + text)).err).toMatch(field);
  });
});

describe("the log of an exercise is enough", () => {
  /** A plan under power on the demonstration boat's sensors, in a light air and hardly any current. */
  async function logOf(name: string, plan: readonly object[]): Promise<string> {
    const text = await readFile(new URL("../../datasets/demo/scenario.json", import.meta.url), "utf8");
    const demo: { readonly wind: object; readonly current: object } = JSON.parse(text);
    const wind = { ...demo.wind, speed_kn: 0.6, direction_deg: 90 };
    const scenario = { ...demo, wind, current: { ...demo.current, strength_kn: 0.2 }, plan };
    const path = join(folder, `${name}.nmea`);
    await commandLine("simulate", await written(`${name}.json`, JSON.stringify(scenario)), "--out", path);
    return path;
  }
  const motor = (heading_deg: number, speed_kn: number) => ({
    kind: "motor",
    heading_deg,
    speed_kn,
    seconds: 180,
  });

  it("of circles: the compass, as it was made", async () => {
    const circle = (turns: number) => ({ kind: "circle", turns, rate_deg_per_s: 1.5, speed_kn: 5 });
    const log = await logOf("circles", [circle(1), circle(-1)]);
    const { status, out } = await commandLine("exercise", "circle", log);
    expect(status).toBe(0);
    const [, a, half] = /A \+(\d\.\d)° ± (\d\.\d)°/.exec(out) ?? [];
    // the demonstration boat's A is 2° (datasets/demo/scenario.json)
    expect(Math.abs(Number(a) - 2)).toBeLessThan(Number(half));
    expect(inOneLine(out)).toMatch(/From \d min under way, against GPS/);
    expect((await commandLine("exercise", "calm", log)).err).toContain("no straight runs under power");
  });

  it("of runs in a calm: the anemometer, by the boat speed shown", async () => {
    const log = await logOf(
      "calm",
      [4, 7].flatMap((speed) => [motor(90, speed), motor(270, speed)]),
    );
    const { status, out } = await commandLine("exercise", "calm", log);
    expect(status).toBe(0);
    expect(inOneLine(out)).toContain("4 runs under power were found in the log");
    expect(out).toMatch(/Threshold \+\d\.\d\d kn ± \d\.\d\d kn, gain 1\.\d+ ± 0\.\d+/);
    expect((await commandLine("exercise", "circle", log)).err).toContain("a third of the circle");
  });

  it("an exercise that needs a form says so, and deltas of Signal K are no form", async () => {
    const delta = await written("a.jsonl", '{"context":"vessels.self","updates":[]}\n');
    expect((await commandLine("exercise", "depth", delta)).err).toMatch(/holds no form/);
  });
});
