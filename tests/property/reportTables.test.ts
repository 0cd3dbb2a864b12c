/**
 * Properties of the correction tables (M65 to M69): inverse pairs, port mirrored to starboard, nothing to add where
 * nothing is wrong, and that following the table gives the best estimate. MARGIN: rounding of double precision, some
 * 1e-12 of an angle, times the few operations in a row.
 */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { angleBetween, wrapAngle } from "../../packages/core/src/angles.ts";
import type { Boat, OnboardComputer } from "../../packages/core/src/calibration/boat.ts";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import type { SolvedBoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { errorCovariance } from "../../packages/core/src/fit/doubtOfPriors.ts";
import { settingsOf, vectorOf } from "../../packages/core/src/fit/settingsVector.ts";
import { bestTrueWind, keyedReading } from "../../packages/core/src/report/bestWind.ts";
import type { TableRow } from "../../packages/core/src/report/cells.ts";
import { apparentForComputer, computerTrueWind } from "../../packages/core/src/report/computer.ts";
import { isTold } from "../../packages/core/src/report/deviationCard.ts";
import { estimateOf } from "../../packages/core/src/report/estimate.ts";
import { keyedSettings, withSettled } from "../../packages/core/src/report/keyed.ts";
import { anyStandsOut } from "../../packages/core/src/report/standsOut.ts";
import { correctionTables } from "../../packages/core/src/report/tables.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import type { SensorSettings } from "../../packages/core/src/sensors/parameters.ts";
import { degrees, metresPerSecond, radians } from "../../packages/core/src/units.ts";
import { fitFixture, noise, sailingFixture } from "../support/answerFixture.ts";
import { agrees } from "../support/published.ts";

const ROUNDING = 1e-9;
const BECAUSE = "only rounding separates them";

const computers = fc.record<OnboardComputer>({
  correctsHeel: fc.boolean(),
  correctsLeeway: fc.boolean(),
  table: fc.constantFrom("apparent", "true"),
});

const boatWith = (computer: OnboardComputer): Boat => ({ ...UNKNOWN_BOAT, computer });

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** The fit of the fixture about other settings; so sure of them that all of them are learnt. */
function sureFit(settings: SensorSettings): SolvedBoatFit {
  const fit = fitFixture();
  const values = vectorOf(settings);
  const parameters = fit.parameters.map((parameter, index) => ({
    ...parameter,
    value: values[index]!,
    sd: parameter.priorSd / 100,
    informed: 0.9999,
  }));
  const size = parameters.length;
  const covariance = new Float64Array(size * size);
  parameters.forEach(({ sd }, index) => {
    covariance[index * size + index] = sd ** 2;
  });
  return { ...fit, settings, parameters, covariance };
}

/** The same sailing on the other tack. */
const mirroredRow = (row: TableRow): TableRow => ({
  ...row,
  tack: row.tack === "starboard" ? "port" : "starboard",
  mean: { ...row.mean, awa: -row.mean.awa, heel: -row.mean.heel },
});

/** The same boat with her sides exchanged. */
const mirroredSettings = (settings: SensorSettings): SensorSettings => ({
  ...settings,
  speed: {
    ...settings.speed,
    gainStarboard: settings.speed.gainPort,
    gainPort: settings.speed.gainStarboard,
  },
  heel: { ...settings.heel, zero: -settings.heel.zero },
  vane: { ...settings.vane, mastheadOffset: -settings.vane.mastheadOffset },
});

/** Normal numbers by the method of Box and Muller, of seeded uniform ones. */
function gaussian(seed: number): () => number {
  let state = seed;
  const uniform = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

const { rows } = sailingFixture();

describe("the computer on board (M66)", () => {
  it("gives back the true wind that its apparent wind was made for", () => {
    fc.assert(
      fc.property(
        computers,
        between(-3.1, 3.1),
        between(1, 25),
        between(0.5, 10),
        between(-0.6, 0.6),
        between(-0.2, 0.2),
        (computer, angle, speed, boatSpeed, heel, leeway) => {
          const state = { boatSpeed, heel, leeway };
          const apparent = apparentForComputer({ angle, speed }, state, computer);
          const again = computerTrueWind(apparent, state, computer);
          agrees(angleBetween(again.angle, angle), 0, ROUNDING, BECAUSE);
          agrees(again.speed, speed, ROUNDING, BECAUSE);
        },
      ),
    );
  });

  it("makes a wider true wind angle of a leeway that it knows of", () => {
    // w = a − v: on starboard tack the boat slides to port, so the wind over the water comes from further aft
    const state = { boatSpeed: 3, heel: radians(-20), leeway: radians(-5) };
    const apparent = { angle: radians(28), speed: 9 };
    const knowing: OnboardComputer = { correctsHeel: false, correctsLeeway: true, table: "none" };
    const blind = { ...knowing, correctsLeeway: false };
    expect(computerTrueWind(apparent, state, knowing).angle).toBeGreaterThan(
      computerTrueWind(apparent, state, blind).angle,
    );
  });
});

describe("the estimate of a number that follows from the fit (M65)", () => {
  const fit = fitFixture();
  const parameter = (name: string) => fit.parameters.find((one) => one.name === name)!;

  it("is the parameter's own where the number is the parameter", () => {
    const offset = parameter("vane.mastheadOffset");
    const estimate = estimateOf(({ vane }) => -vane.mastheadOffset, fit);
    agrees(estimate.value, -offset.value, ROUNDING, BECAUSE);
    agrees(estimate.sd, offset.sd, ROUNDING, BECAUSE);
    agrees(estimate.informed, offset.informed, 1e-8, "the rounding of a difference quotient");
  });

  it("knows a sum better than its parts where they trade off: var = a² + b² + 2 r a b", () => {
    const one = parameter("leeway.coefficient");
    const other = parameter("compass.heelingError");
    const size = fit.parameters.length;
    const shared = errorCovariance(fit)[fit.parameters.indexOf(one) * size + fit.parameters.indexOf(other)]!;
    const scale = one.sd / other.sd;
    const sum = estimateOf(({ leeway, compass }) => leeway.coefficient + scale * compass.heelingError, fit);
    agrees(sum.sd, Math.sqrt(2 * one.sd ** 2 + 2 * scale * shared), one.sd * 1e-6, "difference quotients");
    expect(sum.sd).toBeLessThan(one.sd);
  });

  it("has no informed share where nothing bears on the number", () => {
    expect(estimateOf(() => 1, fit).informed).toBeNaN();
  });
});

describe("the table (M67)", () => {
  it("has nothing to add on a boat with nothing wrong, for a computer that corrects heel and leeway", () => {
    const leeway = { coefficient: radians(9) * metresPerSecond(1) ** 2 };
    const settings = { ...noCorrections, leeway };
    for (const table of ["apparent", "true"] as const) {
      const boat = boatWith({ correctsHeel: true, correctsLeeway: true, table });
      const tables = correctionTables(sureFit(settings), "sensors without corrections", settings, boat, rows);
      expect(tables.cells.length).toBeGreaterThan(4);
      for (const { angle, speed } of tables.cells) {
        agrees(angle.value, 0, ROUNDING, BECAUSE);
        agrees(speed.value, 0, ROUNDING, BECAUSE);
      }
      expect(tables.settings.filter(({ advice }) => advice === "key in")).toEqual([]);
    }
  });

  it("makes the computer show the best estimate, whatever the computer does and whatever is keyed in", () => {
    fc.assert(
      fc.property(computers, fc.boolean(), (computer, sure) => {
        const fit = sure ? sureFit(fitFixture().settings) : fitFixture();
        const tables = correctionTables(
          fit,
          "sensors without corrections",
          noCorrections,
          boatWith(computer),
          rows,
        );
        const keyed = keyedSettings(tables.settings, noCorrections, fit.settings.heel.sign);
        const standing = withSettled(fit.settings, tables.settings);
        for (const cell of tables.cells) {
          const best = bestTrueWind(cell.typical, standing);
          const { state } = keyedReading(cell.typical, keyed);
          const entered = {
            angle: wrapAngle(cell.reading.angle + cell.angle.value),
            speed: cell.reading.speed + cell.speed.value,
          };
          const shown = computer.table === "true" ? entered : computerTrueWind(entered, state, computer);
          agrees(angleBetween(shown.angle, best.angle), 0, ROUNDING, BECAUSE);
          agrees(shown.speed, best.speed, ROUNDING, BECAUSE);
        }
        for (const { trueWind, cell } of sure ? tables.worked : []) {
          agrees(trueWind.angle, bestTrueWind(cell.typical, standing).angle, ROUNDING, BECAUSE);
        }
        if (sure) expect(tables.tableAdvice).toBe("key in");
      }),
      { numRuns: 20 },
    );
  });

  it("does not bring in a masthead offset that is left alone", () => {
    const none = { ...noCorrections, vane: { ...noCorrections.vane, mastheadOffset: radians(1) } };
    const sure = sureFit(none);
    const at = sure.parameters.findIndex(({ name }) => name === "vane.mastheadOffset");
    const sd = radians(0.8);
    const parameters = sure.parameters.map((one, index) => (index === at ? { ...one, sd } : one));
    const covariance = Float64Array.from(sure.covariance);
    covariance[at * parameters.length + at] = sd ** 2;
    const boat = boatWith({ correctsHeel: true, correctsLeeway: true, table: "apparent" });
    const base = "sensors without corrections";
    const tables = correctionTables({ ...sure, parameters, covariance }, base, noCorrections, boat, rows);
    expect(tables.settings.find(({ name }) => name === "masthead offset")!.advice).toBe("leave alone");
    for (const { angle } of tables.cells) agrees(angle.value, 0, ROUNDING, BECAUSE);
    expect(tables.tableAdvice).toBe("leave alone");
  });

  it("is called for by chance in no more than one of twenty tables of noise", () => {
    const [rounds, entries] = [2000, 20];
    const next = gaussian(11);
    const calls = Array.from({ length: rounds }, () =>
      anyStandsOut(Array.from({ length: entries }, () => ({ value: next(), sd: 1, informed: 1 }))),
    ).filter((called) => called).length;
    agrees(calls / rounds, 0.05, 0.02, "four times the error of a share of 2000, √(0.05 · 0.95 / n) = 0.5 %");
    expect(anyStandsOut([{ value: 9, sd: 1, informed: 0.4 }])).toBe(false);
    expect(anyStandsOut([])).toBe(false);
  });

  it("has the spread that entries have when the parameters are drawn from the fit", () => {
    const draws = 2000;
    const next = noise(3);
    const fit = sureFit(fitFixture().settings);
    const boat = boatWith({ correctsHeel: false, correctsLeeway: false, table: "apparent" });
    const tables = correctionTables(fit, "sensors without corrections", noCorrections, boat, rows);
    const keyed = keyedSettings(tables.settings, noCorrections, 1);
    for (const cell of tables.cells.slice(0, 3)) {
      const { state } = keyedReading(cell.typical, keyed);
      const entries = Array.from({ length: draws }, () => {
        const drawn = fit.parameters.map(({ value, sd }) => value + sd * next());
        const best = bestTrueWind(cell.typical, withSettled(settingsOf(drawn, 1), tables.settings));
        return angleBetween(apparentForComputer(best, state, boat.computer).angle, cell.reading.angle);
      });
      const mean = entries.reduce((sum, entry) => sum + entry, 0) / draws;
      const sd = Math.sqrt(entries.reduce((sum, entry) => sum + (entry - mean) ** 2, 0) / (draws - 1));
      agrees(sd / cell.angle.sd, 1, 0.06, "four times the error of an sd of 2000 draws, 1 / √(2 n) = 1.6 %");
    }
  });

  it("is mirrored with the boat", () => {
    fc.assert(
      fc.property(computers, (computer) => {
        const { settings } = fitFixture();
        const base = "sensors without corrections";
        const boat = boatWith(computer);
        const one = correctionTables(sureFit(settings), base, noCorrections, boat, rows);
        const other = correctionTables(
          sureFit(mirroredSettings(settings)),
          base,
          noCorrections,
          boat,
          rows.map(mirroredRow),
        );
        expect(other.cells).toHaveLength(one.cells.length);
        for (const cell of one.cells) {
          const { tack, windBand, angleBand } = cell;
          const twin = other.cells.find(
            (each) => each.tack !== tack && each.windBand === windBand && each.angleBand === angleBand,
          )!;
          expect(twin.legs).toBe(cell.legs);
          agrees(twin.angle.value, -cell.angle.value, ROUNDING, BECAUSE);
          agrees(twin.speed.value, cell.speed.value, ROUNDING, BECAUSE);
          agrees(twin.angle.sd, cell.angle.sd, 1e-7, "the rounding of difference quotients");
        }
      }),
      { numRuns: 8 },
    );
  });

  it("counts the legs and rows of a cell, and leaves out motoring and rows without wind", () => {
    const boat = boatWith({ correctsHeel: false, correctsLeeway: false, table: "apparent" });
    const spoilt = rows.flatMap((row): readonly TableRow[] => [
      row,
      { ...row, kind: "motoring", leg: 1000 + row.leg },
      { ...row, leg: 2000 + row.leg, mean: { ...row.mean, awa: Number.NaN } },
    ]);
    const [clean, dirty] = [rows, spoilt].map((each) =>
      correctionTables(fitFixture(), "unknown corrections", noCorrections, boat, each).cells.map(
        ({ legs, rows: count, tack }) => ({ legs, count, tack }),
      ),
    );
    expect(dirty).toEqual(clean);
    const all = clean!.reduce((sum, { count }) => sum + count, 0);
    expect(all).toBeLessThanOrEqual(rows.length);
    // but for lone rows, which make no cell: rare in this sail
    expect(all).toBeGreaterThan(0.95 * rows.length);
  });
});

describe("the deviation card", () => {
  it("tells nothing of headings that were not held", () => {
    const east = rows.map((row) => ({ ...row, mean: { ...row.mean, heading: radians(90) } }));
    const { deviation } = correctionTables(
      sureFit(fitFixture().settings),
      "sensors without corrections",
      noCorrections,
      boatWith({ correctsHeel: true, correctsLeeway: true, table: "true" }),
      east,
    );
    const told = deviation.filter(isTold).map(({ heading }) => Math.round(degrees(heading)));
    expect(told).toEqual([75, 90, 105]);
  });
});

describe("what cannot be keyed in is held (M68, M69)", () => {
  const fit = fitFixture();
  const boat = boatWith({ correctsHeel: false, correctsLeeway: false, table: "none" });
  const base = "sensors without corrections";

  it("lets the gain take over from an intercept that stays, right at the mean reading", () => {
    const { settings } = correctionTables(fit, base, noCorrections, boat, rows);
    const intercept = settings.find(({ name }) => name === "boat speed intercept")!;
    expect(intercept.advice).toBe("not learnt");
    for (const tack of ["starboard", "port"] as const) {
      const of = rows.filter((row) => row.tack === tack);
      const mean = of.reduce((sum, row) => sum + row.mean.stw, 0) / of.length;
      const gain = settings.find(({ name }) => name === `boat speed gain on ${tack} tack`)!;
      const { speed } = fit.settings;
      const fitted = speed.intercept + (tack === "starboard" ? speed.gainStarboard : speed.gainPort) * mean;
      agrees((1 + gain.estimate.value) * mean, fitted, ROUNDING, BECAUSE);
    }
  });

  it("says by how much the tacks will still differ: what the displays then read, less the wind that was", () => {
    const told = sureFit({
      ...noCorrections,
      vane: { ...noCorrections.vane, upwash: radians(5) },
      leeway: { coefficient: fit.settings.leeway.coefficient },
    });
    const { checks, worked } = correctionTables(told, base, noCorrections, boat, rows);
    const [, size] = /will still differ by some ([\d.]+)°/.exec(checks.join(" ")) ?? [];
    const off = worked.map(({ cell, trueWind }) =>
      angleBetween(bestTrueWind(cell.typical, told.settings).angle, trueWind.angle),
    );
    expect(worked.map(({ tack }) => tack)).toEqual(["starboard", "port"]);
    const because =
      "the readings are two cells of the rows, not rounded; cells differ by a degree from the mean";
    agrees(Number(size), Math.abs(degrees(off[0]! - off[1]!)), 1.5, because);
    expect(Math.abs(degrees(off[0]! - off[1]!))).toBeGreaterThan(5);
    expect(checks.join(" ")).not.toContain("should stay");
    const withTable = boatWith({ correctsHeel: false, correctsLeeway: false, table: "apparent" });
    expect(correctionTables(told, base, noCorrections, withTable, rows).checks.join(" ")).not.toContain(
      "will still differ",
    );
  });

  it("finds the masthead offset of a boat whose upwash is alike on both tacks", () => {
    const offset = radians(2);
    const upright = rows.map((row): TableRow => ({ ...row, mean: { ...row.mean, heel: 0 } }));
    const vane = { mastheadOffset: 0, upwash: radians(4), upwashSlope: 0, upwashBroad: 0 };
    const symmetric = upright
      .flatMap((one) => [one, mirroredRow(one)])
      .map((row): TableRow => {
        // the offset turns both tacks the same way, so it is put on after mirroring
        return { ...row, mean: { ...row.mean, awa: wrapAngle(row.mean.awa + offset) } };
      });
    const settings = { ...noCorrections, vane: { ...vane, mastheadOffset: offset } };
    const tables = correctionTables(sureFit(settings), base, noCorrections, boat, symmetric);
    const found = tables.settings.find(({ name }) => name === "masthead offset")!;
    agrees(degrees(found.estimate.value), -2, 1e-6, "what is opposite on the tacks cancels to rounding");
    expect(found.advice).toBe("key in");
  });

  it("has no compromise with one tack only, and says that it was not learnt", () => {
    const oneTack = rows.filter(({ tack }) => tack === "port");
    const { settings, worked } = correctionTables(fit, base, noCorrections, boat, oneTack);
    const offset = settings.find(({ name }) => name === "masthead offset")!;
    expect(offset.estimate.value).toBeNaN();
    expect(offset.advice).toBe("not learnt");
    expect(worked.map(({ tack }) => tack)).toEqual(["port"]);
  });

  it("gives the leeway coefficient to no computer that does not reckon with it", () => {
    const advice = (correctsLeeway: boolean) =>
      correctionTables(
        sureFit(fit.settings),
        base,
        noCorrections,
        boatWith({ correctsHeel: true, correctsLeeway, table: "true" }),
        rows,
      ).settings.find(({ name }) => name === "leeway coefficient")!.advice;
    expect(advice(true)).toBe("key in");
    expect(advice(false)).toBe("no place");
  });
});
