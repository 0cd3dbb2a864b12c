/**
 * Troubles of sensors that a scenario asks for are in the log, and nothing else is changed by them.
 * MARGIN: none but the rounding of the log, 0.05° and 0.05 kn.
 */
import { describe, expect, it } from "vitest";
import { wrapAngle } from "../../packages/core/src/angles.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import type { LoggedColumns } from "../../packages/core/src/simulate/logger.ts";
import { scenarioFromFile, scenarioInFile } from "../../packages/core/src/simulate/scenarioFile.ts";
import type { SensorTrouble } from "../../packages/core/src/simulate/sensorTroubles.ts";
import { linesOfSail } from "../../packages/core/src/simulate/simulatedLog.ts";
import { simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { radians } from "../../packages/core/src/units.ts";

const plain = drawScenario(31, { seconds: 600, motoring: false });
const TROUBLES: readonly SensorTrouble[] = [
  { kind: "frozen", sensor: "vane", at: 100, seconds: 60 },
  { kind: "fouled", share: 0.5, at: 200, seconds: 50 },
  { kind: "turned", sensor: "compass", angle: radians(20), at: 300, seconds: 50 },
  {
    kind: "bursts",
    sensor: "anemometer",
    every: 10,
    lasting: 2,
    angle: 0,
    factor: 3,
    at: 400,
    seconds: 100,
  },
  { kind: "turned", sensor: "heel", angle: radians(4), at: 550, seconds: 9000 },
];
const whole = simulatedSail(plain).logged;
const troubled = simulatedSail({ ...plain, troubles: TROUBLES }).logged;

/** Differences of a column, troubled less plain, over some seconds. */
const differences = (column: keyof LoggedColumns, from: number, to: number): readonly number[] =>
  Array.from(troubled[column].subarray(4 * from, 4 * to), (value, index) =>
    Number.isNaN(value) ? Number.NaN : wrapAngle(value - whole[column][4 * from + index]!),
  ).filter((difference) => !Number.isNaN(difference));

describe("a simulated trouble", () => {
  it("freezes a vane at its last value", () => {
    const frozen = troubled.awa.subarray(400, 640).filter((value) => !Number.isNaN(value));
    expect(new Set(frozen).size).toBe(1);
    expect(frozen.length).toBeGreaterThan(30);
  });

  it("slows a wheel by its share", () => {
    for (let step = 800; step < 1000; step += 4)
      expect(Math.abs(troubled.stw[step]! - whole.stw[step]! / 2)).toBeLessThan(0.06);
  });

  it("turns a compass for a while and a heel sensor for good", () => {
    for (const difference of differences("heading", 300, 350))
      expect(Math.abs(difference - radians(20))).toBeLessThan(radians(0.1));
    for (const difference of differences("heel", 550, 600))
      expect(Math.abs(difference - radians(4))).toBeLessThan(radians(0.1));
  });

  it("leaves all else as it was", () => {
    for (const column of ["awa", "aws", "stw", "heading", "heel", "sog"] as const) {
      expect(differences(column, 0, 100).every((difference) => difference === 0)).toBe(true);
      expect(differences(column, 510, 540).every((difference) => difference === 0)).toBe(true);
    }
  });

  it("strikes in bursts", () => {
    const high = [...troubled.aws.subarray(1600, 2000)].filter(
      (value, index) => value > 2 * whole.aws[1600 + index]!,
    );
    expect(high).toHaveLength(20);
  });
});

describe("a second wind sensor", () => {
  it("talks beside the first, under its own name", () => {
    const second: SensorTrouble = {
      kind: "second wind sensor",
      talker: "II",
      angle: radians(6),
      factor: 0.9,
      at: 60,
      seconds: 120,
    };
    const lines = [...linesOfSail(simulatedSail({ ...plain, troubles: [second] }))];
    expect(lines.filter((line) => line.startsWith("$IIMWV"))).toHaveLength(120);
  });
});

describe("a scenario file with troubles", () => {
  const text = JSON.stringify(
    scenarioInFile({
      ...plain,
      troubles: [
        ...TROUBLES,
        { kind: "second wind sensor", talker: "II", angle: 0.1, factor: 0.9, at: 0, seconds: 60 },
      ],
    }),
  );

  it("reads back and writes the same", () => {
    expect(JSON.stringify(scenarioInFile(scenarioFromFile(text, "s.json")))).toBe(text);
  });

  it("says what is wrong with a trouble or a step of the plan", () => {
    const changed = (change: (fields: { troubles: object[]; plan: object[] }) => void): string => {
      const fields = JSON.parse(text);
      change(fields);
      return JSON.stringify(fields);
    };
    const misspelt = changed(({ plan }) => Object.assign(plan[0]!, { second: 3 }));
    expect(() => scenarioFromFile(misspelt, "s.json")).toThrow(
      /plan\[0\]: expected a known field \(did you mean "seconds"\?\), received the unknown field "second"/,
    );
    const unlike = changed(({ troubles }) => Object.assign(troubles[1]!, { whatever: 3 }));
    expect(() => scenarioFromFile(unlike, "s.json")).toThrow(
      /troubles\[1\]: expected one of "kind", "share", "at_s", "seconds", received the unknown field "whatever"/,
    );
    const kind = changed(({ troubles }) => Object.assign(troubles[0]!, { kind: "eaten" }));
    expect(() => scenarioFromFile(kind, "s.json")).toThrow(/troubles\[0\]\.kind: expected one of "frozen"/);
  });
});
