import { describe, expect, it } from "vitest";
import { chooseSources, chosenIndices } from "../../packages/core/src/recording/chooseSources.ts";
import { RecordingInventory } from "../../packages/core/src/recording/inventory.ts";
import type { SourceRow } from "../../packages/core/src/recording/inventoryPart.ts";
import { nmea0183Sentence } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import {
  hdgSentence,
  hdtSentence,
  mwvSentence,
  rmcSentence,
  vhwSentence,
} from "../../packages/core/src/recording/nmea0183Writer.ts";
import type { Readings, Source } from "../../packages/core/src/recording/readings.ts";
import { degrees, knots, radians } from "../../packages/core/src/units.ts";
import { agrees } from "../support/published.ts";
import { wholeLog } from "../support/wholeLog.ts";

const START = Date.UTC(2031, 5, 14, 12) / 1000;

type Told = readonly [time: number, value: number];

/** The row of one source that told values at times. */
function rowOf(quantity: Source["quantity"], told: readonly Told[]): SourceRow {
  const inventory = new RecordingInventory();
  const readings: Readings = {
    length: told.length,
    time: Float64Array.from(told, ([time]) => START + time),
    source: new Uint16Array(told.length),
    value: Float64Array.from(told, ([, value]) => value),
  };
  inventory.add(readings, [{ quantity, name: "A" }]);
  return inventory.rows[0]!;
}

function rowsOf(log: string): readonly SourceRow[] {
  const { reader, time, value, source } = wholeLog(log);
  const inventory = new RecordingInventory();
  const readings: Readings = {
    length: time.length,
    time: Float64Array.from(time),
    source: Uint16Array.from(source),
    value: Float64Array.from(value),
  };
  inventory.add(readings, reader.sources);
  return inventory.rows;
}

const every = (interval: number, count: number, value: (n: number) => number): readonly Told[] =>
  Array.from({ length: count }, (_, n) => [n * interval, value(n)]);

/** Never twice the same, and not in step with anything. */
const restless = (n: number): number => 3 + Math.sin(n * 0.7) + 0.3 * Math.sin(n * 1.9);

describe("the health of a source", () => {
  it("its rate, span and range", () => {
    const row = rowOf("apparentWindSpeed", every(0.25, 400, restless));
    expect(row).toMatchObject({ readings: 400, untimed: 0, start: START, gaps: [], frozen: [], spikes: 0 });
    agrees(row.end, START + 99.75, 1e-6, "double rounding");
    agrees(row.rate, 4, 1e-9, "399 intervals in 99.75 s, double rounding");
    expect(row.lowest).toBe(Math.min(...every(1, 400, restless).map(([, value]) => value)));
  });

  it("gaps are silences of over 5 s, or of ten usual intervals, and do not lower the rate", () => {
    const told = every(1, 200, restless).filter(([time]) => !(time > 50 && time < 80) && time !== 150);
    const row = rowOf("apparentWindSpeed", told);
    expect(row.gaps).toEqual([{ start: START + 50, seconds: 30 }]);
    agrees(row.rate, (told.length - 2) / (199 - 30), 1e-9, "the other intervals in the other seconds");
    const slow = every(8, 100, restless).filter(([time]) => time !== 80);
    expect(rowOf("apparentWindSpeed", slow).gaps).toEqual([]);
  });

  it("a restless quantity that keeps one value for over a minute is frozen", () => {
    const told = every(1, 400, (n) => (n >= 100 && n < 200 ? 5 : restless(n)));
    expect(rowOf("apparentWindAngle", told).frozen).toEqual([{ start: START + 100, seconds: 99 }]);
    expect(rowOf("waterTemperature", told).frozen).toEqual([]);
    expect(
      rowOf(
        "apparentWindAngle",
        every(1, 400, () => 5),
      ).frozenSeconds,
    ).toBe(399);
  });

  it("asking for it twice gives the same", () => {
    const inventory = new RecordingInventory();
    const told = every(1, 90, () => 5);
    inventory.add(
      {
        length: told.length,
        time: Float64Array.from(told, ([time]) => time),
        source: new Uint16Array(told.length),
        value: Float64Array.from(told, ([, value]) => value),
      },
      [{ quantity: "heel", name: "A" }],
    );
    expect(inventory.rows).toEqual(inventory.rows);
    expect(inventory.rows[0]!.frozen).toHaveLength(1);
  });

  it("a speed of 0 is still, not frozen", () => {
    const row = rowOf(
      "speedThroughWater",
      every(1, 400, (n) => (n >= 100 && n < 200 ? 0 : restless(n))),
    );
    expect(row.frozen).toEqual([]);
    expect(row.zeroSeconds).toBe(99);
  });

  it("the step of its readings is found in the unit in which they were written", () => {
    const inDegrees = (step: number) =>
      degrees(
        rowOf(
          "headingMagnetic",
          every(1, 200, (n) => radians(Math.round((100 + 9 * restless(n)) / step) * step)),
        ).resolution,
      );
    for (const step of [5, 1, 0.5, 0.1]) agrees(inDegrees(step), step, 1e-9, "double rounding");
    const inKnots = every(1, 200, (n) => (Math.round(restless(n) * 100) / 100) * (1852 / 3600));
    agrees(knots(rowOf("speedThroughWater", inKnots).resolution), 0.01, 1e-9, "double rounding");
    const inMetres = every(1, 200, (n) => Math.round(restless(n) * 10) / 10);
    agrees(rowOf("apparentWindSpeed", inMetres).resolution, 0.1, 1e-9, "double rounding");
    expect(rowOf("apparentWindSpeed", every(1, 200, restless)).resolution).toBeNaN();
  });

  it("lone readings far from both neighbours are spikes, jumps that stay are not", () => {
    const told = every(1, 100, (n) => (n === 40 ? 30 : n >= 70 ? 20 : restless(n)));
    expect(rowOf("apparentWindSpeed", told).spikes).toBe(1);
  });

  it("readings without a time are counted", () => {
    expect(rowOf("heel", [[Number.NaN, 0.1]])).toMatchObject({ readings: 1, untimed: 1, rate: Number.NaN });
  });
});

/** A log of so many seconds with an RMC each, and more lines. */
const logOf = (
  seconds: number,
  lines: (n: number) => readonly string[],
  cog: (n: number) => number = restless,
): string =>
  Array.from({ length: seconds }, (_, n) => [
    rmcSentence({
      time: START + n,
      latitude: 0.8 + n * 1e-6,
      longitude: 0.1,
      sog: restless(n),
      cog: cog(n),
      variation: 0.05,
    }),
    ...lines(n),
  ])
    .flat()
    .join("\n");

const wind = (n: number, talker: string) =>
  mwvSentence({ angle: restless(n) - 2, speed: 5 + restless(n), reference: "R" }, { talker });

describe("which source is taken", () => {
  it("the only one, and true wind from on board for nothing", () => {
    const log = logOf(100, (n) => [
      wind(n, "WI"),
      mwvSentence({ angle: restless(n), speed: 6, reference: "T" }),
    ]);
    const { chosen, others } = chooseSources(rowsOf(log));
    expect(chosen.find(({ source }) => source.quantity === "apparentWindAngle")).toMatchObject({
      source: { name: "WI MWV R" },
      why: "the only source",
    });
    expect(chosen.some(({ source }) => source.quantity.startsWith("onboard"))).toBe(false);
    expect(others.find(({ source }) => source.quantity === "onboardTrueWindAngle")?.why).toContain(
      "computed on board",
    );
  });

  it("the one that is alive for longer, though it comes less often", () => {
    const log = logOf(400, (n) => [wind(n, "WI"), ...(n < 200 ? [wind(n, "II"), wind(n + 0.5, "II")] : [])]);
    const { chosen, others } = chooseSources(rowsOf(log));
    expect(chosen.find(({ source }) => source.quantity === "apparentWindAngle")?.source.name).toBe(
      "WI MWV R",
    );
    expect(others.find(({ source }) => source.name === "II MWV R")?.why).toContain(
      "alive for 50 % of the time",
    );
  });

  it("not the one that froze", () => {
    const log = logOf(400, (n) => [wind(Math.min(n, 100), "WI"), wind(n, "II")]);
    const { chosen } = chooseSources(rowsOf(log));
    expect(chosen.find(({ source }) => source.quantity === "apparentWindAngle")?.source.name).toBe(
      "II MWV R",
    );
  });

  it("the one that comes more often, then the one in finer steps, then the instrument itself", () => {
    const nameOf = (log: string) =>
      chooseSources(rowsOf(log)).chosen.find(({ source }) => source.quantity === "headingMagnetic");
    const hdg = (n: number, talker: string, angleDecimals: number) =>
      hdgSentence({ heading: restless(n) }, { talker, angleDecimals });
    expect(
      nameOf(logOf(100, (n) => [hdg(n, "HC", 1), hdg(n, "II", 1), hdg(n + 0.5, "II", 1)])),
    ).toMatchObject({
      source: { name: "II HDG" },
      why: "more often than HC HDG, which comes at 1.0 Hz",
    });
    expect(nameOf(logOf(100, (n) => [hdg(n, "HC", 0), hdg(n, "II", 1)]))?.source.name).toBe("II HDG");
    expect(nameOf(logOf(100, (n) => [hdg(n, "II", 1), hdg(n, "HC", 1)]))?.source.name).toBe("HC HDG");
  });

  it("the wind's speed from where its angle is", () => {
    const log = logOf(200, (n) => [
      nmea0183Sentence(`IIVWR,${(20 + 5 * restless(n)).toFixed(1)},R,,N,,M,,K`),
      nmea0183Sentence(
        `IIVWR,${(20 + 5 * restless(n)).toFixed(1)},R,${(9 + restless(n)).toFixed(1)},N,,M,,K`,
      ),
      wind(n, "WI"),
      mwvSentence({ angle: Number.NaN, speed: 5, reference: "R" }),
    ]);
    const { chosen } = chooseSources(rowsOf(log));
    const name = (quantity: string) => chosen.find(({ source }) => source.quantity === quantity)?.source.name;
    expect(name("apparentWindAngle")).toBe("II VWR");
    expect(name("apparentWindSpeed")).toBe("II VWR");
  });

  it("no heading that is the course over ground", () => {
    const log = logOf(200, (n) => [
      hdtSentence({ heading: restless(n) }),
      vhwSentence({ stw: 3, headingTrue: restless(n) + 0.06 }),
    ]);
    const { chosen, others } = chooseSources(rowsOf(log));
    expect(chosen.find(({ source }) => source.quantity === "headingTrue")?.source.name).toBe("VW VHW");
    expect(others.find(({ source }) => source.name === "HE HDT")?.why).toContain("no compass");
    const alone = chooseSources(rowsOf(logOf(200, (n) => [hdtSentence({ heading: restless(n) })])));
    expect(alone.chosen.some(({ source }) => source.quantity === "headingTrue")).toBe(false);
  });

  it("no magnetic heading that is the course over ground less variation", () => {
    const log = logOf(200, (n) => [nmea0183Sentence(`HCHDM,${degrees(restless(n) - 0.05).toFixed(1)},M`)]);
    expect(rowsOf(log).find(({ source }) => source.quantity === "headingMagnetic")?.isCourse).toBe(true);
  });

  it("a compass that keeps near the course is one: it would have to agree in nine changes of ten", () => {
    const drift = (n: number) => restless(n) + radians(0.4) * Math.sin(n * 0.37);
    const log = logOf(400, (n) => [hdtSentence({ heading: drift(n) })]);
    const row = rowsOf(log).find(({ source }) => source.quantity === "headingTrue")!;
    expect(row.isCourse).toBe(false);
    expect(row.courseShare).toBeLessThan(0.9);
  });

  it("sources that repeat another are said to", () => {
    const log = logOf(200, (n) => [
      vhwSentence({ stw: 3, headingMagnetic: restless(n) }),
      hdgSentence({ heading: restless(n) }, { talker: "VW" }),
    ]);
    const row = rowsOf(log).find(({ source }) => source.name === "VW HDG")!;
    expect(row.repeats).toBe("VW VHW");
  });

  it("the one that is asked for, or a complaint that names those there are", () => {
    const rows = rowsOf(logOf(100, (n) => [wind(n, "WI"), wind(n, "II")]));
    const choice = chooseSources(rows, { apparentWindAngle: "II MWV R" });
    expect(choice.chosen[0]).toMatchObject({ source: { name: "II MWV R" }, why: "asked for" });
    expect(rows[chosenIndices(choice).apparentWindSpeed!]!.source.name).toBe("II MWV R");
    expect(() => chooseSources(rows, { apparentWindAngle: "XX MWV R" })).toThrow(
      new RangeError(
        "chooseSources: wanted.apparentWindAngle must be one of [WI MWV R, II MWV R], got XX MWV R",
      ),
    );
  });

  it("of nothing, nothing", () => {
    expect(chooseSources([])).toEqual({ chosen: [], others: [] });
  });
});
