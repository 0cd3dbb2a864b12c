/**
 * The simulator keeps its own word: repeatable, its wind triangle closed, its log readable, its wander of the size asked for.
 * MARGIN: rounding of sums where physics must close; a digit of the sentences where a log is read back; else as said.
 */
import { describe, expect, it } from "vitest";
import { wrapAngle } from "../../packages/core/src/angles.ts";
import { readingsWithoutActive } from "../../packages/core/src/calibration/activeReadings.ts";
import { circularStandardDeviation, resultantLength } from "../../packages/core/src/circular.ts";
import { motionOverGround } from "../../packages/core/src/physics/current.ts";
import { motionThroughWater } from "../../packages/core/src/physics/leeway.ts";
import { directionOf, speedOf } from "../../packages/core/src/physics/vectors.ts";
import { apparentWind, windOverWater } from "../../packages/core/src/physics/windTriangle.ts";
import { nmea0183Checksum } from "../../packages/core/src/recording/nmea0183Checksum.ts";
import { summariseSailing } from "../../packages/core/src/sailing/summary.ts";
import { unknownBoatReadings } from "../../packages/core/src/sensors/boatReadings.ts";
import {
  boatStateOf,
  overGroundWind,
  underSail,
  unknownBoatState,
} from "../../packages/core/src/sensors/boatState.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import type { SensorSettings } from "../../packages/core/src/sensors/parameters.ts";
import {
  anotherDay,
  drawScenario,
  type ScenarioOptions,
} from "../../packages/core/src/simulate/drawScenario.ts";
import type { PlanStep, Scenario } from "../../packages/core/src/simulate/scenario.ts";
import { linesOfSail } from "../../packages/core/src/simulate/simulatedLog.ts";
import { type SimulatedSail, simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { secondsOfSail } from "../../packages/core/src/simulate/simulatedSeconds.ts";
import { radians } from "../../packages/core/src/units.ts";
import { readLog, rowsBySecond } from "../support/simulatedLogs.ts";

const HALF_HOUR = { seconds: 1800 } as const;
const EIGHT_SEEDS = Array.from({ length: 8 }, (_, index) => 101 + index);

const textOf = (sail: SimulatedSail): string => [...linesOfSail(sail)].join("\r\n");
const sailOf = (seed: number, options: ScenarioOptions = HALF_HOUR): SimulatedSail =>
  simulatedSail(drawScenario(seed, options));

/** No lines are broken, no sensor falls silent, none reads wild. */
const onAGoodDay = (scenario: Scenario): Scenario => ({
  ...scenario,
  log: { ...scenario.log, brokenLinesPerHour: 0, silencesPerHour: 0, spikesPerHour: 0 },
});

/** Tacks between two legs to windward and gybes between two legs downwind, with the second at which they are due. */
function plannedTurns(plan: readonly PlanStep[]): { readonly kind: "tack" | "gybe"; readonly at: number }[] {
  const turns: { kind: "tack" | "gybe"; at: number }[] = [];
  let at = 0;
  plan.forEach((step, index) => {
    const before = plan[index - 1];
    const isZigzag =
      before?.kind === step.kind && "tack" in before && "tack" in step && before.tack !== step.tack;
    if (isZigzag && step.kind === "beat") turns.push({ kind: "tack", at });
    if (isZigzag && step.kind === "run") turns.push({ kind: "gybe", at });
    at += step.kind === "circle" ? (2 * Math.PI * Math.abs(step.turns)) / step.rate : step.seconds;
  });
  return turns;
}

describe("a seed", () => {
  it("gives the same scenario and the same log each time", () => {
    expect(drawScenario(7)).toEqual(drawScenario(7));
    expect(textOf(sailOf(7))).toBe(textOf(sailOf(7)));
  });

  it("and another seed another", () => {
    expect(drawScenario(8).faults).not.toEqual(drawScenario(7).faults);
    expect(textOf(sailOf(8))).not.toBe(textOf(sailOf(7)));
  });

  it("that is no whole number is refused", () => {
    expect(() => drawScenario(0.5)).toThrow(RangeError);
  });
});

describe("the wind over the ground", () => {
  it("wanders by 5° to 9° and by 8 to 18 % over a sail, with the bend of the place beside it", () => {
    for (const seed of EIGHT_SEEDS) {
      const { scenario, truth } = sailOf(seed, { seconds: 5400 });
      const { groundWindDirection, groundWindSpeed } = truth.columns;
      const direction = circularStandardDeviation(resultantLength(groundWindDirection));
      const logs = Array.from(groundWindSpeed, Math.log);
      const mean = logs.reduce((sum, value) => sum + value, 0) / logs.length;
      const ofLog = Math.sqrt(logs.reduce((sum, value) => sum + (value - mean) ** 2, 0) / logs.length);
      const bend = Math.abs(scenario.wind.bend);
      expect(direction).toBeGreaterThan(radians(5) - bend - radians(0.01));
      expect(direction).toBeLessThan(radians(9) + bend + radians(0.01));
      expect(ofLog).toBeGreaterThan(0.08 - 1e-6);
      expect(ofLog).toBeLessThan(0.18 + 1e-6);
    }
  });
});

describe("the truth", () => {
  const { truth } = sailOf(12);
  const { columns, length } = truth;
  const seconds = Array.from({ length: length / 10 }, (_, index) => 10 * index);
  const at = (second: number) => {
    const heading = columns.heading[second]!;
    const throughWater = motionThroughWater(heading, columns.speed[second]!, columns.leeway[second]!);
    const [east, north] = [columns.currentEast[second]!, columns.currentNorth[second]!];
    const current = { direction: directionOf(east, north), speed: speedOf(east, north) };
    const wind = {
      direction: columns.groundWindDirection[second]!,
      speed: columns.groundWindSpeed[second]!,
    };
    return { heading, throughWater, current, wind };
  };

  it("closes the wind triangle over the ground (M10, M14)", () => {
    for (const second of seconds) {
      const { heading, throughWater, current, wind } = at(second);
      const felt = apparentWind(wind, heading, motionOverGround(throughWater, current));
      expect(wrapAngle(felt.angle - columns.apparentAngle[second]!)).toBeCloseTo(0, 9);
      expect(felt.speed).toBeCloseTo(columns.apparentSpeed[second]!, 9);
    }
  });

  it("closes it over the water (M10)", () => {
    for (const second of seconds) {
      const { heading, throughWater } = at(second);
      const felt = { angle: columns.apparentAngle[second]!, speed: columns.apparentSpeed[second]! };
      const wind = windOverWater(felt, heading, throughWater);
      expect(wrapAngle(wind.direction - columns.waterWindDirection[second]!)).toBeCloseTo(0, 9);
      expect(wind.speed).toBeCloseTo(columns.waterWindSpeed[second]!, 9);
    }
  });
});

describe("the log", () => {
  it("ends every sentence with the right checksum (M30)", () => {
    const lines = [...linesOfSail(simulatedSail(onAGoodDay(drawScenario(21, HALF_HOUR))))];
    expect(lines.length).toBeGreaterThanOrEqual(5 * HALF_HOUR.seconds);
    for (const line of lines) {
      const [, body = "", sum = ""] = /^\$(.*)\*([0-9A-F]{2})$/.exec(line) ?? [];
      expect(nmea0183Checksum(body)).toBe(Number.parseInt(sum, 16));
    }
  });

  it("is read back to the seconds of the short way, to the last digit of its sentences", () => {
    const sail = simulatedSail(onAGoodDay(drawScenario(22, { ...HALF_HOUR, rate: 2 })));
    const { blocks, lines } = readLog(Buffer.from(`${textOf(sail)}\r\n`));
    const [read, short] = [rowsBySecond(blocks), rowsBySecond(secondsOfSail(sail))];
    expect(lines.problems).toBe(0);
    // the course's last digit is 0.1°, half of it at 10 m/s 0.009 m/s; places come with 0.2 m
    const margins = {
      awa: 1e-9,
      aws: 1e-9,
      stw: 1e-9,
      heading: 1e-9,
      heel: 1e-9,
      pitch: 1e-9,
      east: 0.01,
      north: 0.01,
    };
    let compared = 0;
    for (const [second, row] of short) {
      for (const [channel, margin] of Object.entries(margins) as [keyof typeof margins, number][]) {
        const difference = row[channel] - read.get(second)![channel];
        const isAngle = ["awa", "heading", "heel", "pitch"].includes(channel);
        expect(Math.abs(isAngle ? wrapAngle(difference) : difference)).toBeLessThanOrEqual(margin);
        compared += 1;
      }
    }
    expect(compared).toBe(8 * HALF_HOUR.seconds);
  });

  it("holds nothing of a sensor that the boat lacks", () => {
    const without = ["heel", "gps", "paddle", "compass"] as const;
    const { quantities } = readLog(Buffer.from(`${textOf(sailOf(23, { ...HALF_HOUR, without }))}\r\n`));
    expect([...quantities].sort()).toEqual(["apparentWindAngle", "apparentWindSpeed"]);
  });

  it("on a bad day holds lines that are problems, and reading goes on past them", () => {
    const scenario = drawScenario(24, HALF_HOUR);
    const bad = { ...scenario, log: { ...scenario.log, brokenLinesPerHour: 400 } };
    const { lines, problems, blocks } = readLog(Buffer.from(`${textOf(simulatedSail(bad))}\r\n`));
    // 400 an hour for half an hour are 200; some changes leave a line readable
    expect(lines.problems).toBeGreaterThan(50);
    expect(new Set(problems.map(({ kind }) => kind))).toContain("checksum");
    expect(rowsBySecond(blocks).size).toBeGreaterThan(0.98 * HALF_HOUR.seconds);
  });
});

describe("a boat with nothing wrong", () => {
  const drawn = onAGoodDay(drawScenario(31, { seconds: 5400, faults: "none", motoring: false, rate: 4 }));
  const settings = { ...noCorrections, leeway: { coefficient: drawn.faults.leeway.coefficient } };
  const sail = simulatedSail(drawn);
  const { columns } = sail.truth;
  const state = unknownBoatState();
  const rows = [...rowsBySecond(secondsOfSail(sail)).values()];
  const implied = rows.map((row, second) => {
    boatStateOf(row, { ...underSail, variation: row.variation }, settings, state);
    const { direction, speed } = overGroundWind(state);
    const angle = wrapAngle(direction - columns.groundWindDirection[second]!);
    return {
      angle,
      ratio: Math.log(speed / columns.groundWindSpeed[second]!),
      isSailing: columns.sails[second]! > 0.9,
    };
  });
  const meanOf = (value: (one: (typeof implied)[number]) => number): number => {
    const sailing = implied.filter(({ isSailing, angle }) => isSailing && !Number.isNaN(angle));
    return sailing.reduce((sum, one) => sum + value(one), 0) / sailing.length;
  };

  it("shows the true wind over the ground in the mean: to 0.3° and 1 %", () => {
    // what lags and noise leave of a wind that wanders by 5° to 9° over 90 minutes
    expect(Math.abs(meanOf(({ angle }) => angle))).toBeLessThan(radians(0.3));
    expect(Math.abs(meanOf(({ ratio }) => ratio))).toBeLessThan(0.01);
  });

  it("and within a few degrees in each second", () => {
    // vane noise of up to 3° a reading, four of them in a second and smoothed; turbulence within the lags
    const rms = Math.sqrt(meanOf(({ angle }) => angle ** 2));
    expect(rms).toBeLessThan(radians(5));
    expect(rms).toBeGreaterThan(radians(0.2));
  });
});

describe("corrections that are active in the instruments", () => {
  it("are those of M28: undone they leave the readings of the sensors alone", () => {
    const active: SensorSettings = {
      ...noCorrections,
      speed: { intercept: 0.1, gainStarboard: 0.96, gainPort: 0.98 },
      compass: { ...noCorrections.compass, a: 0.02, b: 0.01 },
      vane: { ...noCorrections.vane, mastheadOffset: 0.03, upwash: 0.05 },
      anemometer: { threshold: 0.2, gain: 1.03, speedUp: 0.03 },
    };
    const [plain, corrected] = [sailOf(41), sailOf(41, { ...HALF_HOUR, active })].map(
      ({ truth }) => truth.columns,
    );
    const reading = unknownBoatReadings();
    for (let second = 0; second < HALF_HOUR.seconds; second += 7) {
      const logged = {
        awa: corrected!.loggedAwa[second]!,
        aws: corrected!.loggedAws[second]!,
        stw: corrected!.loggedStw[second]!,
        heading: corrected!.loggedHeading[second]!,
        heel: corrected!.loggedHeel[second]!,
        east: corrected!.loggedEast[second]!,
        north: corrected!.loggedNorth[second]!,
      };
      if (logged.stw === 0 || logged.aws === 0) continue;
      readingsWithoutActive(logged, active, reading);
      expect(wrapAngle(reading.awa - plain!.loggedAwa[second]!)).toBeCloseTo(0, 9);
      expect(reading.aws).toBeCloseTo(plain!.loggedAws[second]!, 9);
      expect(reading.stw).toBeCloseTo(plain!.loggedStw[second]!, 9);
      expect(wrapAngle(reading.heading - plain!.loggedHeading[second]!)).toBeCloseTo(0, 9);
      expect(reading.heel).toBeCloseTo(plain!.loggedHeel[second]!, 9);
    }
  });
});

describe("headings", () => {
  it("that are logged from true north are those of the compass and the variation", () => {
    const scenario = drawScenario(42, HALF_HOUR);
    const magnetic = simulatedSail(scenario).truth;
    const fromTrueNorth = simulatedSail({ ...scenario, log: { ...scenario.log, headings: "true" } });
    for (let second = 0; second < HALF_HOUR.seconds; second += 7) {
      const compass = magnetic.columns.loggedHeading[second]!;
      const logged = fromTrueNorth.truth.columns.loggedHeading[second]!;
      expect(wrapAngle(logged - compass)).toBeCloseTo(magnetic.variation, 9);
    }
    expect(secondsOfSail(fromTrueNorth)[0]!.headingIsTrue).toBe(true);
  });
});

describe("turns", () => {
  it("of the plan are found, tacks as tacks and gybes as gybes: 95 in 100 and more", () => {
    const asked: boolean[] = [];
    for (const seed of [51, 52, 53, 54]) {
      const sail = simulatedSail(drawScenario(seed, { seconds: 7200, motoring: seed % 2 === 0 }));
      const { turns } = summariseSailing(secondsOfSail(sail));
      for (const { kind, at } of plannedTurns(sail.scenario.plan)) {
        const time = sail.scenario.start + at;
        asked.push(turns.some((turn) => turn.kind === kind && turn.start < time + 20 && turn.end > time - 5));
      }
    }
    expect(asked.length).toBeGreaterThan(50);
    expect(asked.filter(Boolean).length / asked.length).toBeGreaterThanOrEqual(0.95);
  });
});

describe("another day", () => {
  it("is the same boat with the same faults and instruments in another wind", () => {
    const scenario = drawScenario(61);
    const other = anotherDay(scenario, 62);
    expect(other.faults).toEqual(scenario.faults);
    expect(other.log).toEqual(scenario.log);
    expect(other.wind).not.toEqual(scenario.wind);
    expect(other.shear).not.toEqual(scenario.shear);
    expect(other.start).toBeGreaterThan(scenario.start);
    expect(anotherDay(scenario, 62)).toEqual(other);
  });
});
