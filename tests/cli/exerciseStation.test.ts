/**
 * An anemometer against a station's own log (M188), by the command line.
 * INPUTS: a boat's log and a station's made here: wind of half a day from light to fresh, brought from 10 m to 16 m by the logarithmic law
 * over a roughness of 0.0002 m, ln(16 / 0.0002) / ln(10 / 0.0002) = 1.0434, seen by cups with a threshold of 1 kn and a gain of 1.08.
 * MARGIN: what is found lies within the interval that is printed.
 */
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { commandLine } from "../support/commandLine.ts";

const [THRESHOLD, GAIN, FACTOR] = [1, 1.08, Math.log(16 / 0.0002) / Math.log(10 / 0.0002)];
const START = Date.UTC(2031, 5, 14, 6) / 1000;
const HOURS = 12;

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "bothtacks-station-"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const written = async (name: string, text: string): Promise<string> => {
  const path = join(folder, name);
  await writeFile(path, text);
  return path;
};

const stamp = (seconds: number): string => new Date(1000 * (START + seconds)).toISOString();

/** Wind at the station in knots; what each place has of its own comes and goes within a quarter of an hour. */
const windAt = (seconds: number, range: number): number => 12 + range * Math.sin(seconds / 5500);
const ownOf = (seconds: number, place: number): number =>
  0.3 * Math.sin(seconds / 700 + 3 * place) + 0.2 * Math.sin(seconds / 411 + 5 * place);

/** The boat's, a row every ten seconds. */
function boatLog({ range = 7, sog = 0 } = {}): string {
  const rows = Array.from({ length: HOURS * 360 }, (_, at) => {
    const wind = FACTOR * (windAt(10 * at, range) + ownOf(10 * at, 0));
    return `${stamp(10 * at)},${((wind - THRESHOLD) / GAIN).toFixed(2)},10,${sog},90`;
  });
  return ["time,aws_kn,awa_deg,sog_kn,cog_true_deg", ...rows].join("\n");
}

/** The station's, means of the ten minutes before each stamp. */
function stationLog({ range = 7, clock = 0, columns = "tws_kn,twd_true_deg" } = {}): string {
  const rows = Array.from({ length: HOURS * 6 }, (_, at) => {
    const seconds = Array.from({ length: 60 }, (_, part) => 600 * at + 10 * part);
    const mean = seconds.reduce((sum, one) => sum + windAt(one, range) + ownOf(one, 1), 0) / 60;
    return `${stamp(600 * (at + 1) + clock)},${mean.toFixed(2)},${at % 2 === 0 ? 200 : 300}`;
  });
  return [`time,${columns}`, ...rows].join("\n");
}

const FORM =
  "# exercise: anemometer\n# station_height_m: 10\n# distance_nm: 0.5\n# anemometer_height_m: 16\n";

const compared = async ({ form = FORM, boat = boatLog(), station = stationLog() }) =>
  commandLine(
    "exercise",
    "anemometer",
    await written("form.csv", form),
    await written("boat.csv", boat),
    "--reference",
    await written("station.csv", station),
  );

const inOneLine = (text: string): string => text.replaceAll(/\s+/g, " ");

describe("an anemometer against a station's log", () => {
  it("is told threshold and gain at its own height, and what no length of log averages out", async () => {
    const { status, out, err } = await compared({});
    expect({ status, err }).toEqual({ status: 0, err: "" });
    const text = inOneLine(out);
    const [threshold = 0, thresholdHalf = 0, gain = 0, gainHalf = 0] =
      /Threshold ([+−-][\d.]+) kn ± ([\d.]+) kn, gain ([\d.]+) ± (\d\.\d+)/
        .exec(text)
        ?.slice(1)
        .map((one) => Number(one.replace("−", "-"))) ?? [];
    expect(Math.abs(threshold - THRESHOLD)).toBeLessThan(thresholdHalf);
    expect(Math.abs(gain - GAIN)).toBeLessThan(gainHalf);
    expect(thresholdHalf).toBeLessThan(1);
    expect(text).toContain("times 1.043");
    // 3 % of its own; half of (16 / 10)^(1/7) − 1; 3 % · √0.5
    expect(text).toContain("its own anemometer 3.0 %, the height 3.5 %, the other place 2.1 %");
    // 1.96 · √(3² + 3.47² + 2.12²)
    expect(text).toContain("± 9.9 % is the station's");
    expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThanOrEqual(92);
  });

  it("says what it lacks: height and distance, a wind, times in common, a wind from light to fresh, a boat at rest", async () => {
    const reason = async (given: Parameters<typeof compared>[0]): Promise<string> => {
      const { status, err } = await compared(given);
      expect(status).toBe(1);
      return inOneLine(err);
    };
    expect(await reason({ form: "# exercise: anemometer\n# distance_nm: 1\n" })).toContain(
      "station_height_m",
    );
    expect(await reason({ form: "# exercise: anemometer\n# station_height_m: 10\n" })).toContain(
      "distance_nm",
    );
    expect(await reason({ station: stationLog({ columns: "gust_kn,twd_true_deg" }) })).toContain(
      "no wind speed that its headers tell",
    );
    expect(await reason({ station: stationLog({ clock: 7 * 86_400 }) })).toMatch(
      /no time in common: the boat's runs from 2031-06-14 06:00 UTC to 2031-06-14 18:00 UTC, the station's from 2031-06-21/,
    );
    const narrow = { boat: boatLog({ range: 1.5 }), station: stationLog({ range: 1.5 }) };
    expect(await reason(narrow)).toMatch(
      /kept to one speed.* at [\d.]+ kn the truth is [\d.]+ ± [\d.]+ times/,
    );
    expect(await reason({ boat: boatLog({ sog: 4 }) })).toContain("never at rest");
    expect(await reason({ form: `${FORM}# sector_from_deg: 20\n# sector_to_deg: 90\n` })).toContain("sector");
    expect(await reason({ form: `${FORM}# date: 2031-06-14\nreading,reference\n5,6\n` })).toContain("either");
    expect(
      await reason({ form: `${FORM}# sector_from_deg: 270\n# sector_to_deg: 330\n`, station: stationLog() }),
    ).toContain("48 at least");
  });

  it("names a clock that is hours off", async () => {
    const { status, err } = await compared({ station: stationLog({ clock: 7200 }) });
    expect(status).toBe(1);
    expect(inOneLine(err)).toContain("station's clock moved back by 2 hours");
  });

  it("is refused where nothing is compared with", async () => {
    const form = await written("form.csv", FORM);
    const boat = await written("boat.csv", boatLog());
    expect((await commandLine("exercise", "anemometer", form, boat)).err).toContain("--reference");
    const { status, err } = await commandLine("exercise", "circle", boat, "--reference", boat);
    expect({ status, told: err.includes("--reference has no place") }).toEqual({ status: 2, told: true });
  });
});
