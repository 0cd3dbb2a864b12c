/**
 * Real recordings (datasets/recorded): what the reader counts against a count of the same by other means: patterns and
 * an exclusive or written here.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { chooseSources } from "../../packages/core/src/recording/chooseSources.ts";
import { RecordingInventory } from "../../packages/core/src/recording/inventory.ts";
import type { QuantityName, Source } from "../../packages/core/src/recording/readings.ts";
import { agrees } from "../support/published.ts";
import { type WholeLog, wholeLog } from "../support/wholeLog.ts";

const bytesIn = (name: string): Uint8Array =>
  Uint8Array.from(readFileSync(new URL(`../../datasets/recorded/${name}`, import.meta.url)));

const linesIn = (bytes: Uint8Array): readonly string[] => {
  const lines = Buffer.from(bytes).toString("latin1").split(/\r?\n/);
  return lines.at(-1) === "" ? lines.slice(0, -1) : lines;
};

/** Exclusive or of the characters of a text. */
const xor = (text: string): number => [...text].reduce((sum, character) => sum ^ character.charCodeAt(0), 0);

/** Whether a line's last sentence has a checksum, and whether that is right. */
function verdict(line: string): "right" | "wrong" | "none" {
  const body = line.slice(Math.max(line.lastIndexOf("$"), line.lastIndexOf("!")) + 1);
  const [text, tail] = [body.slice(0, body.indexOf("*")), body.slice(body.indexOf("*") + 1)];
  if (!/[$!]/.test(line) || !body.includes("*")) return "none";
  return /^[0-9A-Fa-f]{2}/.test(tail) && Number.parseInt(tail.slice(0, 2), 16) === xor(text)
    ? "right"
    : "wrong";
}

const countOf = (lines: readonly string[], pattern: RegExp): number =>
  lines.filter((line) => verdict(line) === "right" && pattern.test(line)).length;

function choiceFor(log: WholeLog) {
  const inventory = new RecordingInventory();
  const { reader, time, value, source } = log;
  inventory.add(
    {
      length: time.length,
      time: Float64Array.from(time),
      source: Uint16Array.from(source),
      value: Float64Array.from(value),
    },
    reader.sources,
  );
  return chooseSources(inventory.rows);
}

const nameIn = (judged: readonly { readonly source: Source }[], quantity: QuantityName) =>
  judged.find(({ source }) => source.quantity === quantity)?.source.name;

describe("bay-start-2008", () => {
  const bytes = bytesIn("bay-start-2008.nmea");
  const lines = linesIn(bytes);
  const log = wholeLog(bytes);

  it("every line is sound, and none is lost", () => {
    expect(lines.every((line) => verdict(line) === "right")).toBe(true);
    expect(log.reader.lines).toMatchObject({ lines: lines.length, problems: 0 });
    expect(log.reader.problems).toEqual([]);
  });

  it("as many readings as sentences with a number in the field", () => {
    expect(log.valuesOf("apparentWindAngle")).toHaveLength(countOf(lines, /^\$IIVWR,\d+,[LR],/));
    expect(log.valuesOf("apparentWindSpeed")).toHaveLength(countOf(lines, /^\$IIVWR,\d+,[LR],[\d.]+,N/));
    expect(log.valuesOf("speedThroughWater")).toHaveLength(countOf(lines, /^\$IIVHW,,T,\d+,M,[\d.]+,N/));
    expect(log.valuesOf("variation")).toHaveLength(countOf(lines, /^\$ECRMC,.*,015\.0,E,A/));
    expect(log.valuesOf("headingMagnetic")).toHaveLength(countOf(lines, /^\$IIHDM,\d+,M|^\$IIVHW,,T,\d+,M/));
  });

  it("its times, truncated to ten seconds, give a reading of the wind each second", () => {
    const times = log.timesOf("apparentWindAngle");
    const steps = times.slice(1).map((time, row) => time - times[row]!);
    agrees(
      (times.at(-1)! - times[0]!) / steps.length,
      1,
      0.002,
      "2212 sentences of 1 Hz in the 2215 s of the log",
    );
    // the five lines of the GPS come in a burst every two seconds, so that a second is 6 or 9 lines of 7.5
    expect(Math.min(...steps)).toBeGreaterThan(0.5);
    expect(Math.max(...steps)).toBeLessThan(1.5);
  });

  it("no reading comes before the truncated time told with it, nor after the next one", () => {
    const date = Date.UTC(2008, 6, 14) / 1000;
    const stamps = lines
      .flatMap((line) => [/^\$ECRMC,(\d\d)(\d\d)(\d\d),A/.exec(line)?.slice(1).map(Number) ?? []])
      .filter((parts) => parts.length === 3)
      .map(([hours, minutes, seconds]) => date + hours! * 3600 + minutes! * 60 + seconds!);
    // variation comes from RMC only
    const times = log.timesOf("variation");
    expect(times).toHaveLength(stamps.length);
    times.forEach((time, row) => {
      const next = stamps.slice(row).find((stamp) => stamp > stamps[row]!) ?? Number.POSITIVE_INFINITY;
      // the clock is that of ZDA, which follows RMC within the burst of a second
      expect(time).toBeGreaterThanOrEqual(stamps[row]! - 1);
      expect(time).toBeLessThanOrEqual(next);
    });
  });

  it("takes the compass, the wind and the log that there are", () => {
    const { chosen } = choiceFor(log);
    expect(nameIn(chosen, "apparentWindAngle")).toBe("II VWR");
    expect(nameIn(chosen, "headingMagnetic")).toBe("II HDM");
    expect(nameIn(chosen, "speedThroughWater")).toBe("II VHW");
  });
});

describe("lake-evening-2018", () => {
  const bytes = bytesIn("lake-evening-2018.nmea");
  const lines = linesIn(bytes);
  const log = wholeLog(bytes);

  it("every line is sound, and measured and computed wind stay apart", () => {
    expect(log.reader.lines).toMatchObject({ lines: lines.length, problems: 0 });
    expect(log.valuesOf("apparentWindAngle")).toHaveLength(countOf(lines, /^\$WIMWV,[\d.]+,R,/));
    expect(log.valuesOf("onboardTrueWindAngle")).toHaveLength(countOf(lines, /^\$WIMWV,[\d.]+,T,/));
  });

  it("its true heading is the course over ground, and is not taken for a compass", () => {
    const hdt = lines.flatMap((line) => /^\$HEHDT,([\d.]+)/.exec(line)?.[1] ?? []);
    const courses = new Set(lines.flatMap((line) => /^\$GPVTG,([\d.]+)/.exec(line)?.[1] ?? []));
    expect(hdt.every((heading) => courses.has(heading))).toBe(true);
    const { chosen, others } = choiceFor(log);
    expect(nameIn(chosen, "headingTrue")).toBeUndefined();
    expect(nameIn(chosen, "headingMagnetic")).toBeUndefined();
    expect(others.find(({ source }) => source.quantity === "headingTrue")?.why).toContain("no compass");
  });
});

describe("heel-sentences-2018", () => {
  const bytes = bytesIn("heel-sentences-2018.nmea");
  const lines = linesIn(bytes);
  const log = wholeLog(bytes);

  it("comments are ignored, heel and trim are read from XDR, the rudder is not", () => {
    expect(log.reader.lines).toMatchObject({ lines: lines.length, problems: 0 });
    expect(log.valuesOf("heel")).toHaveLength(countOf(lines, /,A,-?[\d.]+,D,HEEL,/));
    expect(log.valuesOf("pitch")).toHaveLength(countOf(lines, /,A,-?[\d.]+,D,TRIM,/));
    const [first] = lines.flatMap((line) => /,A,(-?[\d.]+),D,HEEL,/.exec(line)?.[1] ?? []);
    agrees(log.valuesOf("heel")[0]!, (Number(first) * Math.PI) / 180, 1e-15, "double rounding");
    expect(log.reader.sources.map(({ name }) => name)).not.toContain("II XDR RUDDER");
  });

  it("takes the heading that comes ten times a second", () => {
    const { chosen } = choiceFor(log);
    expect(nameIn(chosen, "headingMagnetic")).toBe("SD HDG");
  });
});

describe("river-2016-corrupted", () => {
  const bytes = bytesIn("river-2016-corrupted.nmea");
  const lines = linesIn(bytes);
  const log = wholeLog(bytes);

  it("each wrong checksum is one problem", () => {
    const wrong = lines.filter((line) => verdict(line) === "wrong");
    expect(wrong.length).toBeGreaterThan(400);
    expect(log.reader.problemCounts.checksum).toBe(wrong.length);
    const first = lines.findIndex((line) => verdict(line) === "wrong") + 1;
    expect(log.reader.problems.find(({ kind }) => kind === "checksum")?.line).toBe(first);
  });

  it("every line counts once", () => {
    const { lines: all, used, ignored, problems } = log.reader.lines;
    expect(all).toBe(lines.length);
    expect(used + ignored + problems).toBe(all);
    const counts = Object.values(log.reader.problemCounts).reduce((sum, count) => sum + count, 0);
    expect(counts).toBe(problems);
  });

  it("no wrong sentence made a reading, nor one that lost two commas, which its checksum cannot tell", () => {
    expect(log.valuesOf("apparentWindAngle")).toHaveLength(countOf(lines, /\$WIMWV,[\d.]+,R,[\d.]+,N,A\*/));
    const whole = countOf(lines, /\$GPRMC,[\d.]+,A,.*,[NS],.*,[EW],[\d.]+,[\d.]+,\d{6},,,A\*/);
    const short = countOf(lines, /\$GPRMC,[\d.]+,A,.*,[NS],.*,[EW],[\d.]+,[\d.]+,\d{6},A\*/);
    expect(log.valuesOf("speedOverGround")).toHaveLength(whole);
    expect(short).toBeGreaterThan(0);
    expect(log.reader.problemCounts.field).toBeGreaterThanOrEqual(short);
  });
});
