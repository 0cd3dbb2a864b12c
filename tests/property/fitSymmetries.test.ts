/**
 * The fit knows neither port from starboard nor north from east: a sail in the mirror gives the mirror's settings, a sail
 * turned gives the same boat and a turned wind.
 * INPUTS: an hour of a simulated sail with faults drawn at random.
 * MARGIN: the fit is at rest when no parameter moves by 0.01 of its standard deviation; two fits may differ by a few times
 * that.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { angleBetween } from "../../packages/core/src/angles.ts";
import type { SolvedBoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import { priorMeans } from "../../packages/core/src/fit/priors.ts";
import { channelsOf, heelSignOf } from "../../packages/core/src/fit/recordingChannels.ts";
import { rowEvidence } from "../../packages/core/src/fit/rowEvidence.ts";
import { INDEX_OF } from "../../packages/core/src/fit/settingsVector.ts";
import { type Settled, settle } from "../../packages/core/src/fit/settle.ts";
import { agreementsOf } from "../../packages/core/src/judge/agreements.ts";
import { statesCorrected } from "../../packages/core/src/judge/rowWind.ts";
import type { LegRow } from "../../packages/core/src/sailing/legRow.ts";
import { PARAMETER_NAMES, type ParameterName } from "../../packages/core/src/sensors/parameterNames.ts";
import { drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import { mirrored, turnedAQuarter } from "../support/alteredRows.ts";
import { requireSolved, seenSail } from "../support/scoredSails.ts";

const CONTEXT = { heelSign: "auto", steeredBy: "sails", leewayLawHolds: true } as const;

/** Share of a standard deviation within which two fits of the same are the same. */
const SAME = 0.05;

/** Change sign in the mirror; the deviation's sine terms and the heeling error do not. */
const ODD: readonly ParameterName[] = [
  "speed.gainDifference",
  "compass.a",
  "compass.c",
  "compass.e",
  "heel.zero",
  "vane.mastheadOffset",
];

let rows: readonly LegRow[];
beforeAll(() => {
  rows = seenSail(drawScenario(11, { seconds: 3600 })).sailing.rows;
});

describe("port and starboard", () => {
  let seen: SolvedBoatFit;
  let inMirror: SolvedBoatFit;

  beforeAll(() => {
    seen = requireSolved(fitBoat(rows, CONTEXT));
    inMirror = requireSolved(fitBoat(rows.map(mirrored), CONTEXT));
  });

  it("what is one-sided changes sign, what is not stays", () => {
    PARAMETER_NAMES.forEach((name, index) => {
      const { value, sd } = seen.parameters[index]!;
      const sign = ODD.includes(name) ? -1 : 1;
      const { value: other, sd: otherSd } = inMirror.parameters[index]!;
      expect(Math.abs(other - sign * value) / sd, name).toBeLessThan(SAME);
      expect(Math.abs(Math.log(otherSd / sd)), name).toBeLessThan(SAME);
    });
  });

  it("something one-sided was there to be found", () => {
    const found = ODD.map((name) => seen.parameters[PARAMETER_NAMES.indexOf(name)]!);
    expect(found.filter(({ value, sd }) => Math.abs(value) > 3 * sd).length).toBeGreaterThan(1);
  });

  it("wander, weights and agreements are the mirror's", () => {
    expect(inMirror.wander.fastDirection / seen.wander.fastDirection).toBeCloseTo(1, 2);
    expect(inMirror.outliers.length).toBe(seen.outliers.length);
    const agreements = agreementsOf(rows, statesCorrected(rows, seen.settings), seen.wander);
    const other = rows.map(mirrored);
    const mirrors = agreementsOf(other, statesCorrected(other, inMirror.settings), inMirror.wander);
    // (−D on starboard, −D′ on port) swap sides: the gap between tacks stays, that between points of sailing turns
    const signs = [1, -1, -1];
    agreements.forEach(({ value, sd, contrasts }, index) => {
      expect(Math.abs(mirrors[index]!.value - signs[index]! * value)).toBeLessThan(SAME * sd);
      expect(mirrors[index]!.contrasts).toBe(contrasts);
    });
  });
});

describe("north and east", () => {
  // a heeling error acts by the cosine of the magnetic heading, so it alone tells north from east
  const free = PARAMETER_NAMES.filter(
    (name) => name !== "compass.heelingError" && name !== "heelModel.fullHeel",
  ).map((name) => INDEX_OF[name]);

  function settled(sailed: readonly LegRow[]): Settled {
    const channels = channelsOf(sailed);
    return settle({
      evidence: rowEvidence(sailed, channels),
      context: CONTEXT,
      channels,
      heelSign: heelSignOf(sailed, "auto"),
      free,
      series: ["direction", "logSpeed", "currentEast", "currentNorth", "calmEast", "calmNorth"],
      start: priorMeans(),
    });
  }

  it("a quarter turn turns the wind and the deviation, and nothing else", () => {
    const before = settled(rows);
    const after = settled(rows.map(turnedAQuarter));
    const value = (fit: Settled, name: ParameterName): number => fit.vector[INDEX_OF[name]]!;
    free.forEach((index, place) => {
      const name = PARAMETER_NAMES[index]!;
      const sd = Math.sqrt(before.covariance[place * (free.length + 1)]!);
      // b sin c + c cos c with c one quarter on; d sin 2c + e cos 2c half a turn on
      const expected =
        name === "compass.b"
          ? value(before, "compass.c")
          : name === "compass.c"
            ? -value(before, "compass.b")
            : name === "compass.d" || name === "compass.e"
              ? -value(before, name)
              : value(before, name);
      expect(Math.abs(value(after, name) - expected) / sd, name).toBeLessThan(SAME);
    });
    rows.forEach((_, row) => {
      const direction = ({ states }: Settled) => Math.atan2(states.windEast[row]!, states.windNorth[row]!);
      const turn = angleBetween(direction(after), direction(before));
      // 0.06°: a twentieth, as for the settings, of a direction known to a degree or so
      if (!Number.isNaN(turn)) expect(Math.abs(turn - Math.PI / 2)).toBeLessThan(0.001);
    });
  });
});
