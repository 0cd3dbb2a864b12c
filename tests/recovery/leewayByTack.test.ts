/**
 * SOURCE: simulation. A boat (seed 84001) on an outing to tune, twice in the same wind, sea and tide: with waves that make her slide 1 + 5 · 0.03
 * times as much on starboard tack and 1 − 5 · 0.03 on port (M178), a difference of 0.30, and with waves that do not.
 * MARGIN: the prior of the difference, 0 ± 0.2 (M46), shrinks what the data say by the informed share (M65): the two sails of a boat differ by 0.30 times that, all else being the
 * same. Waves slow her on one tack as well, so that she sails other tracks: 0.08, a quarter of the difference.
 */
import { describe, expect, it } from "vitest";
import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import type { LeewayByTack, ToldNumber } from "../../packages/core/src/calibration/calibration.ts";
import {
  calibrationFileText,
  calibrationFromFile,
} from "../../packages/core/src/calibration/calibrationFile.ts";
import { tablesCsv } from "../../packages/core/src/report/csv.ts";
import { leewayWords } from "../../packages/core/src/report/leewayWords.ts";
import { correctionTables } from "../../packages/core/src/report/tables.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { METRES_PER_SECOND_IN_A_KNOT as KNOT } from "../../packages/core/src/units.ts";
import { fitFixture, solvedAnswerFixture } from "../support/answerFixture.ts";
import { calibrationFixture } from "../support/calibrationFixture.ts";
import { agrees } from "../support/published.ts";
import { fitOf, requireSolved, seenSail } from "../support/scoredSails.ts";

const SKEW = 0.03;
const DIFFERENCE = 2 * 5 * SKEW;

function differenceFound(seed: number, skew: number): ToldNumber {
  const scenario = drawScenario(seed, { outing: "tuning" });
  const fit = requireSolved(fitOf(seenSail({ ...scenario, sea: { ...scenario.sea, skew } })));
  return fit.leewayByTack!.difference;
}

describe("leeway by tack (M189)", () => {
  it.each([84001])("is found to differ by what the waves do: boat %i", (seed) => {
    const [even, skewed] = [differenceFound(seed, 0), differenceFound(seed, SKEW)];
    agrees(
      skewed.value - even.value,
      DIFFERENCE * skewed.informed,
      0.08,
      "the waves slow her too, and the tracks are others",
    );
    expect(Math.abs(even.value)).toBeLessThan(1.96 * even.sd);
  });
});

const told = (value: number, sd: number, informed: number): ToldNumber => ({ value, sd, informed });
const UNIT = KNOT ** 2;

const leeway = (difference: ToldNumber, informed = 0.8): LeewayByTack => ({
  starboard: told(10 * UNIT * (1 + difference.value / 2), 0.7 * UNIT, informed),
  port: told(10 * UNIT * (1 - difference.value / 2), 0.8 * UNIT, informed),
  difference,
});

const said = (difference: ToldNumber, informed?: number): string =>
  leewayWords({ leewayByTack: leeway(difference, informed) }).join(" ");

describe("words on leeway by tack", () => {
  it("say that the tacks differ only beyond the interval", () => {
    expect(said(told(0.3, 0.1, 0.75))).toContain(
      "differs between the tacks for real, by 30 % ± 20 % more on starboard tack",
    );
    expect(said(told(-0.3, 0.1, 0.75))).toContain("more on port tack");
    expect(said(told(0.15, 0.1, 0.75))).toContain("does not differ between the tacks beyond its doubt");
    expect(said(told(0.15, 0.19, 0.1))).toContain("was not learnt");
  });

  it("give each tack's coefficient with its interval, where it was learnt", () => {
    expect(said(told(0.2, 0.1, 0.75))).toContain(
      "11.0 ± 1.4 deg·kn²/deg on starboard tack and 9.0 ± 1.6 deg·kn²/deg on port tack",
    );
    expect(said(told(0.2, 0.1, 0.75), 0.2)).not.toContain("by tack, found");
    expect(leewayWords({})).toEqual([]);
  });
});

describe("files of leeway by tack", () => {
  const fit = { ...fitFixture(), leewayByTack: leeway(told(0.3, 0.1, 0.75)) };

  it("come back as written, and may lack it", () => {
    const text = calibrationFileText(calibrationFixture(fit, 1));
    const { fit: read } = calibrationFromFile(text, "calibration.json");
    agrees(
      read.leewayByTack!.port.value,
      fit.leewayByTack.port.value,
      1e-14,
      "rounding of a conversion there and back",
    );
    expect(read.leewayByTack!.difference).toEqual(fit.leewayByTack.difference);
    const without = calibrationFileText(calibrationFixture(fitFixture(), 1));
    expect(calibrationFromFile(without, "calibration.json").fit.leewayByTack).toBeUndefined();
  });

  it("tables.csv has a record for each tack", () => {
    const { answer, rows } = solvedAnswerFixture();
    const tables = correctionTables(fit, answer.base, answer.active, UNKNOWN_BOAT, rows);
    const records = tablesCsv(tables)
      .split("\r\n")
      .filter((record) => record.startsWith("by tack,"));
    expect(records).toHaveLength(2);
    expect(records[0]).toContain("by tack,leeway coefficient,starboard,");
    expect(records[0]).toContain(",11.5,1.37,0.8,");
  });
});
