/**
 * Rounding to what instruments take, and what it costs (M137).
 * INPUTS: an invented answer (tests/support/answerFixture.ts), its tables laid out for computers of each kind.
 * MARGIN: as each says.
 */
import { describe, expect, it } from "vitest";
import { type OnboardComputer, STEP_NAMES, type StepName } from "../../packages/core/src/calibration/boat.ts";
import { boatFromFile, boatInFile, UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import { USUAL_STEPS } from "../../packages/core/src/report/rounding.ts";
import { roundingWords } from "../../packages/core/src/report/roundingWords.ts";
import { correctionTables } from "../../packages/core/src/report/tables.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import { degrees, radians } from "../../packages/core/src/units.ts";
import { fitFixture, sailingFixture } from "../support/answerFixture.ts";
import { agrees } from "../support/published.ts";

const { rows } = sailingFixture();
const fit = fitFixture();
const computer: OnboardComputer = { correctsHeel: true, correctsLeeway: true, table: "apparent" };

function laidOut(steps: Partial<Record<StepName, number>> | undefined, table = computer.table) {
  const boat = { ...UNKNOWN_BOAT, computer: { ...computer, table }, ...(steps ? { steps } : {}) };
  return correctionTables(fit, "sensors without corrections", noCorrections, boat, rows);
}

const fine = Object.fromEntries(STEP_NAMES.map((name) => [name, 1e-9]));

describe("rounding", () => {
  it("leaves every amount within half a step, and on the step", () => {
    const { rounding } = laidOut(undefined);
    expect(rounding.entries.length).toBeGreaterThan(3);
    for (const { setting, rounded } of rounding.entries) {
      const step = setting.unit === "percent" ? 0.01 : setting.unit === "degrees" ? radians(1) : undefined;
      if (step === undefined) continue;
      agrees(rounded, setting.estimate.value, step / 2 + 1e-12, "half a step");
      agrees(rounded / step, Math.round(rounded / step), 1e-9, "rounding of a quotient");
    }
  });

  it("costs nothing where the instruments take any number, for a computer of each kind", () => {
    for (const table of ["apparent", "true", "none"] as const) {
      const { rounding } = laidOut(fine, table);
      agrees(rounding.tackGap, 0, 1e-7, "steps of a thousand millionth");
      expect(rounding.stepsAssumed).toBe(false);
    }
  });

  it("costs no more than the table's and the settings' half steps can", () => {
    const steps = { ...fine, wind_angle_table_deg: 1, masthead_offset_deg: 1 };
    const { rounding } = laidOut(steps);
    expect(Math.abs(rounding.tackGap)).toBeGreaterThan(1e-6);
    // each tack's angle is off by half a degree of table and of offset at most, some 1.5 times as much in the true wind
    expect(Math.abs(degrees(rounding.tackGap))).toBeLessThan(2 * 1.5);
  });

  it("leaves upwash in the log only where a table on apparent wind takes it out", () => {
    expect(laidOut(fine, "true").rounding.settings.vane.upwash).toBe(0);
    const apparent = laidOut(fine, "apparent");
    const expected = apparent.tableAdvice === "key in" ? fit.settings.vane.upwash : 0;
    expect(apparent.rounding.settings.vane.upwash).toBe(expected);
    agrees(
      apparent.rounding.settings.vane.mastheadOffset,
      fit.settings.vane.mastheadOffset,
      1e-8,
      "fine steps",
    );
  });

  it("says which amounts stand in the instruments already once they are rounded", () => {
    const { rounding } = laidOut(undefined);
    const [first, ...others] = rounding.entries;
    const stands = { ...first!, setting: { ...first!.setting, present: first!.rounded } };
    const said = (entries: typeof rounding.entries): string =>
      roundingWords({ ...rounding, entries }).join(" ");
    expect(said([stands, ...others])).toContain(
      `Rounded so, ${first!.setting.name} stands in the instruments`,
    );
    expect(said(rounding.entries)).not.toContain("Rounded so");
  });

  it("says what the displays should read, on each tack that was sailed", () => {
    const { checks } = laidOut(undefined);
    expect(checks[0]).toMatch(/^Rounded to steps of 1°, 1 % and 0\.1 kn.* by [+−]?\d\.\d°\.$/);
    expect(checks.filter((check) => /^On (starboard|port) tack/.test(check))).toHaveLength(2);
  });
});

it("steps are read from the boat file and written back", () => {
  const boat = boatFromFile(JSON.stringify({ steps: { masthead_offset_deg: 0.1 } }), "boat.json");
  expect(boat.steps).toEqual({ masthead_offset_deg: 0.1 });
  expect(boatFromFile(JSON.stringify(boatInFile(boat)), "boat.json")).toEqual(boat);
  expect(() => boatFromFile(JSON.stringify({ steps: { masthead_offset_deg: 0 } }), "b")).toThrow(/steps/);
  expect(() => boatFromFile(JSON.stringify({ steps: { mast_deg: 1 } }), "b")).toThrow(/steps/);
  expect(Object.keys(USUAL_STEPS)).toEqual([...STEP_NAMES]);
});
