/**
 * What stands of a sensor, what it rests on and what is out of date (M135, M136).
 * INPUTS: evidence made here; invented fits (tests/support/gaussianFits.ts). Expected values follow from the rules as written.
 */
import { describe, expect, it } from "vitest";
import type { ActiveSettings } from "../../packages/core/src/calibration/boat.ts";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import {
  boatHistoryOf,
  enteredBetween,
  NO_HISTORY,
  recordFileName,
  settingsInForce,
} from "../../packages/core/src/calibration/boatHistory.ts";
import type { ExerciseRecord } from "../../packages/core/src/calibration/boatRecord.ts";
import { calibrationFileText } from "../../packages/core/src/calibration/calibrationFile.ts";
import {
  FINDING_NAMES,
  FINDING_UNITS,
  type Finding,
  SENSOR_NAMES,
  sensorOf,
} from "../../packages/core/src/calibration/findings.ts";
import {
  enteredText,
  exerciseRecordFromFile,
  exerciseRecordText,
  toKeyInText,
} from "../../packages/core/src/calibration/recordFiles.ts";
import {
  settingsAfterExercise,
  settingsChanges,
} from "../../packages/core/src/calibration/settingsEntered.ts";
import { type Evidence, evidenceIn, evidenceOfCalibration } from "../../packages/core/src/judge/evidence.ts";
import { findingMoves, typicalFactor } from "../../packages/core/src/judge/findingMoves.ts";
import { sensorStates } from "../../packages/core/src/judge/sensorStates.ts";
import { wholeBoatPage } from "../../packages/core/src/report/page/wholeBoat.ts";
import { printedStates } from "../../packages/core/src/report/stateText.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import { randomNumbers } from "../../packages/core/src/simulate/random.ts";
import { metresPerSecond, radians } from "../../packages/core/src/units.ts";
import { calibrationFixture } from "../support/calibrationFixture.ts";
import { drawBoat, drawInformation, gaussianFit } from "../support/gaussianFits.ts";
import { agrees } from "../support/published.ts";

const none: ActiveSettings = { base: "sensors without corrections", active: noCorrections };

function evidence(
  file: string,
  at: number,
  findings: readonly Finding[],
  rest: Partial<Evidence> = {},
): Evidence {
  return { file, kind: "calibration", at, settings: none, findings, restsOn: () => [], ...rest };
}

const UPWASH: Finding = { name: "vane.upwash", value: radians(3), half: radians(0.5) };

const offset = (degrees: number, half: number): Finding => ({
  name: "vane.mastheadOffset",
  value: radians(degrees),
  half: radians(half),
});
const alignment = (degrees: number, half: number): Finding => ({
  name: "compass.a",
  value: radians(degrees),
  half: radians(half),
});

const stateOf = (all: readonly Evidence[], sensor: (typeof SENSOR_NAMES)[number], present = none) =>
  sensorStates(all, present).find((state) => state.sensor === sensor)!;

describe("what stands", () => {
  it("is the last finding, or an earlier one that is known better and not contradicted", () => {
    const sharp = evidence("sharp", 1, [offset(2, 0.5)]);
    const blunt = evidence("blunt", 2, [offset(2.5, 2)]);
    const other = evidence("other", 3, [offset(6, 1)]);
    expect(stateOf([sharp, blunt], "wind angle").found[0]?.evidence.file).toBe("sharp");
    expect(stateOf([blunt, { ...sharp, at: 3 }], "wind angle").found[0]?.evidence.file).toBe("sharp");
    expect(stateOf([sharp, blunt, other], "wind angle").found[0]?.evidence.file).toBe("other");
  });

  it("is keyed in where the instruments hold it within its interval", () => {
    const all = [evidence("log", 1, [offset(2, 0.5)])];
    const vane = (degrees: number) => ({ ...noCorrections.vane, mastheadOffset: radians(degrees) });
    const holding = (degrees: number): ActiveSettings => ({
      ...none,
      active: { ...noCorrections, vane: vane(degrees) },
    });
    expect(stateOf(all, "wind angle", holding(1.8)).found[0]?.toKeyIn).toBe(false);
    expect(stateOf(all, "wind angle", holding(0)).found[0]?.toKeyIn).toBe(true);
    const unknown = stateOf(all, "wind angle", { ...none, base: "unknown corrections" }).found[0];
    expect(unknown?.present).toBeNaN();
    expect(unknown?.toKeyIn).toBe(false);
  });
});

describe("out of date", () => {
  const onCompass = { restsOn: () => ["compass" as const] };
  const log = evidence("log", 1, [offset(2, 0.5), alignment(1, 0.3)], onCompass);
  it("is a sensor whose footing was found otherwise since", () => {
    const circle = evidence("circle", 2, [alignment(4, 0.5)]);
    const { outOfDate } = stateOf([log, circle], "wind angle");
    expect(outOfDate).toMatchObject([{ sensor: "compass", name: "compass.a" }]);
    agrees(outOfDate[0]!.was, radians(1), 1e-12, "the log's own finding");
    agrees(outOfDate[0]!.now, radians(4), 1e-12, "the circle's");
  });
  it("is not one whose footing was found alike, or before, or otherwise by what does not matter", () => {
    for (const circle of [
      evidence("alike", 2, [alignment(1.2, 0.5)]),
      evidence("before", 0, [alignment(5, 0.1)]),
      evidence("little", 2, [alignment(1.4, 0.01)]),
    ])
      expect(
        stateOf(
          [log, circle].sort((a, b) => a.at - b.at),
          "wind angle",
        ).outOfDate,
      ).toEqual([]);
  });
  it("is no number of it that rests on nothing, or was found since", () => {
    const both = evidence("log", 1, [offset(2, 0.5), UPWASH, alignment(1, 0.3)], onCompass);
    const circle = evidence("circle", 2, [alignment(4, 0.5)]);
    const alone = evidence("alone", 3, [UPWASH]);
    const { found } = stateOf([both, circle, alone], "wind angle");
    const old = Object.fromEntries(found.map(({ finding, isOutOfDate }) => [finding.name, isOutOfDate]));
    expect(old).toEqual({ "vane.mastheadOffset": true, "vane.upwash": false });
    const printed = printedStates(sensorStates([both, circle, alone], none), "her");
    expect(printed).toMatch(/^ *masthead offset .* out of date/m);
    expect(printed).toMatch(/^ *upwash .* holds/m);
  });
  it("counts from what stood in the instruments where the log did not find it itself", () => {
    const bare = evidence("bare", 1, [offset(2, 0.5)], onCompass);
    const circle = evidence("circle", 2, [alignment(4, 0.5)]);
    const [why] = stateOf([bare, circle], "wind angle").outOfDate;
    expect(why?.was).toBe(0);
    expect(stateOf([bare, circle], "wind angle").restsOn).toEqual([{ sensor: "compass", from: undefined }]);
  });
});

describe("numbers of a calibration that rest on others", () => {
  const onCompass = { restsOn: () => ["compass" as const] };
  const moves = (slope: number) => ({ moves: () => slope, ...onCompass });
  const found = [offset(2, 0.5), alignment(1, 0.3)];
  // three degrees otherwise, of which half a degree matters in either
  const circle = evidence("circle", 2, [alignment(4, 0.5)]);

  it("are out of date where what was found otherwise moves them by what matters", () => {
    for (const [slope, isOld] of [
      [0.1, false],
      [-0.1, false],
      [0.3, true],
      [-0.3, true],
    ] as const) {
      const { outOfDate } = stateOf([evidence("log", 1, found, moves(slope)), circle], "wind angle");
      expect(outOfDate).toHaveLength(isOld ? 1 : 0);
    }
  });

  it("tell what they rest on, and only within the order of the work", () => {
    const [little, much] = [0.3, 0.7].map((slope) =>
      stateOf([evidence("log", 1, found, moves(slope))], "wind angle"),
    );
    expect(little!.found[0]!.restsOn).toEqual([]);
    expect(much!.found[0]!.restsOn).toContain("compass.a");
    expect(much!.found[0]!.restsOn.every((name) => sensorOf(name) === "compass")).toBe(true);
    const printed = printedStates([much!], "her").replace(/\s+/g, " ");
    expect(printed).toMatch(/rests on [^.]*compass alignment \(A\)[^.]*, as the same log has it/);
    expect(printedStates([little!], "her")).toContain("rests on hardly any other sensor");
  });

  it("move as the regression on the other has it", () => {
    const random = randomNumbers(137, 0);
    const fit = gaussianFit(drawBoat(random), drawInformation(random, -1), random);
    const slopes = findingMoves(fit);
    const [row, column] = [fit.parameters.length - 2, 3];
    const [name, by] = [fit.parameters[row]!.name, fit.parameters[column]!.name];
    const size = fit.parameters.length;
    const expected = fit.covariance[row * size + column]! / fit.covariance[column * size + column]!;
    agrees(slopes(name, by), expected, 1e-12 * Math.abs(expected), "the same quotient");
    for (const one of ["speed.atTypical", "compass.b", "anemometer.atTypical"] as const)
      agrees(slopes(one, one), 1, 1e-12, "a number moves as it moves");
    // ln(truth / reading) at 6 kn is a sum of intercept and ln gain, each by its slope there
    const { intercept } = fit.settings.speed;
    const reading = metresPerSecond(6);
    const { slopes: weights } = typicalFactor(intercept, fit.parameters[1]!.value, reading);
    const sum = weights[0] * slopes("speed.intercept", by) + weights[1] * slopes("speed.gain", by);
    agrees(slopes("speed.atTypical", by), sum, 1e-12, "a sum moves as its parts");
    expect(slopes("depth.offset", by)).toBeNaN();
  });
});

describe("evidence of a calibration", () => {
  const random = randomNumbers(136, 0);
  const fit = gaussianFit(drawBoat(random), drawInformation(random, -1), random);
  const calibration = calibrationFixture(fit, 0);
  it("holds what was learnt, and truth over reading where intercept and gain blur each other", () => {
    const { findings, at, restsOn } = evidenceOfCalibration("a.json", calibration);
    expect(at).toBe(calibration.recording.start);
    const learnt = fit.parameters.filter(({ informed }) => informed >= 0.5).map(({ name }) => name);
    expect(findings.map(({ name }) => name).filter((name) => !name.endsWith("atTypical"))).toEqual(learnt);
    expect(restsOn("wind angle")).toContain("compass");
  });
  it("is read from files with the rest of the history, each by its schema", () => {
    const record: ExerciseRecord = {
      exercise: "depth",
      at: calibration.recording.start - 5,
      made: calibration.made,
      madeFrom: ["depth.csv"],
      given: "# exercise: depth\n",
      settings: none,
      findings: [{ name: "depth.offset", value: 0.6, half: 0.1 }],
      restsOn: [],
      notes: [],
    };
    const text = exerciseRecordText(record);
    expect(exerciseRecordFromFile(text, "r")).toEqual(record);
    const entered = { at: 5, made: 6, madeFrom: ["a"], settings: none };
    const history = boatHistoryOf([
      { file: "a.json", text: calibrationFileText(calibration) },
      { file: "b.json", text },
      { file: "c.json", text: enteredText(entered) },
      { file: "d.json", text: toKeyInText(entered) },
    ]);
    expect(evidenceIn(history).map(({ file }) => file)).toEqual(["b.json", "a.json"]);
    expect(history.entered).toEqual([{ file: "c.json", record: entered }]);
    expect(() => boatHistoryOf([{ file: "x", text: '{"schema":"other"}' }])).toThrow(/schema/);
    const states = sensorStates(evidenceIn(history), none);
    expect(states.map(({ sensor }) => sensor)).toEqual([...SENSOR_NAMES]);
    const printed = printedStates(states, "Quince");
    expect(printed).toContain("never calibrated");
    expect(printed).not.toMatch(/NaN|undefined/);
    const hostile = wholeBoatPage(states, "<script>alert(1)</script>");
    expect(hostile).not.toContain("<script>alert(1)");
    expect(hostile).toContain("What depths are counted from");
  });
});

describe("what was active when", () => {
  const gain = (value: number): ActiveSettings => ({
    ...none,
    active: { ...noCorrections, speed: { intercept: 0, gainStarboard: value, gainPort: value } },
  });
  const entered = [10, 20].map((at) => ({
    file: `${at}`,
    record: { at, made: at, madeFrom: [], settings: gain(1 + at / 100) },
  }));
  const history = { ...NO_HISTORY, entered };
  const boat = { ...UNKNOWN_BOAT, settings: none };
  it("is what was last keyed in, before that what the boat file says", () => {
    expect(
      [9, 10, 19, 20, 99].map((time) => settingsInForce(history, boat, time).active.speed.gainPort),
    ).toEqual([1, 1.1, 1.1, 1.2, 1.2]);
    expect(enteredBetween(history, 12, 30)).toBe(20);
    expect(enteredBetween(history, 20, 30)).toBeUndefined();
  });
  it("keeps the other sensors' settings when an exercise is keyed in", () => {
    const record = {
      findings: [{ name: "compass.a", value: 0.1, half: 0.01 }],
      total: { ...noCorrections, compass: { ...noCorrections.compass, a: 0.1 } },
      settings: none,
    } as unknown as ExerciseRecord;
    const after = settingsAfterExercise(record, gain(1.2));
    expect(after?.active.compass.a).toBe(0.1);
    expect(after?.active.speed.gainPort).toBe(1.2);
    expect(settingsChanges(gain(1.2).active, after!.active)).toEqual(["compass.a_deg: 0 to 5.73"]);
    expect(settingsAfterExercise(record, { ...none, base: "unknown corrections" })).toBeUndefined();
  });
  it("never gives a record a name that is taken", () => {
    const name = recordFileName("runs", 0, []);
    expect(name).toBe("19700101T000000Z-runs.json");
    expect(recordFileName("runs", 0, [name])).toBe("19700101T000000Z-runs-2.json");
  });
});

it("every finding has a sensor and a unit", () => {
  for (const name of FINDING_NAMES) {
    expect(SENSOR_NAMES).toContain(sensorOf(name));
    expect(FINDING_UNITS[name]).toBeTypeOf("string");
  }
});
