/**
 * INPUTS: fits that know nothing but the priors, or sums of parameters (tests/support/knownSums.ts); a steady wind; an invented boat.
 * MARGIN: slopes are exact to 10⁻⁶ (M193); mirror images and turns are exact but for them.
 */
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { PARAMETER_NAMES, type ParameterName } from "../../packages/core/src/fit/boatFit.ts";
import type { FitContext, RecordingChannels } from "../../packages/core/src/fit/fitContext.ts";
import { BOAT_PRIORS } from "../../packages/core/src/fit/priors.ts";
import { expectedInformation, stretchSlopes } from "../../packages/core/src/judge/expectedInformation.ts";
import { hypotheticRows } from "../../packages/core/src/judge/hypotheticRows.ts";
import { type PlanRequest, planOf } from "../../packages/core/src/judge/plan.ts";
import {
  EXERCISES,
  type ExerciseName,
  type PlannedLeg,
  secondsOfExercises,
} from "../../packages/core/src/judge/plannedLeg.ts";
import { statesCorrected } from "../../packages/core/src/judge/rowWind.ts";
import { sailNextWords } from "../../packages/core/src/report/nextWords.ts";
import { exerciseWords } from "../../packages/core/src/report/planWords.ts";
import { radians } from "../../packages/core/src/units.ts";
import { solvedAnswerFixture } from "../support/answerFixture.ts";
import { fitKnowing, type Known } from "../support/knownSums.ts";

const ALL: RecordingChannels = { compass: true, paddle: true, gps: true, heel: true };
const CONTEXT: FitContext = { heelSign: "auto", steeredBy: "sails", leewayLawHolds: true };
const WIND = { direction: radians(215), speed: 6 };

const ignorant = fitKnowing([]);
const legsOf = (...names: readonly ExerciseName[]): readonly PlannedLeg[] =>
  names.flatMap((name) => EXERCISES.find((exercise) => exercise.name === name)!.legs);

/** What legs add, in prior scales. */
function informationOf(legs: readonly PlannedLeg[], channels = ALL, wind = WIND, context = CONTEXT): Matrix {
  const rows = hypotheticRows(legs, wind, ignorant.settings, channels);
  return expectedInformation(
    [{ stretch: stretchSlopes(ignorant, rows, channels, context), start: 0 }],
    ignorant,
  );
}

const index = (name: ParameterName): number => PARAMETER_NAMES.indexOf(name);
const of = (information: Matrix, name: ParameterName): number => information.get(index(name), index(name));

describe("rows that legs would make (M83)", () => {
  it("give back wind and boat once the settings that made them are undone", () => {
    const rows = hypotheticRows(
      legsOf("tacks", "gybes", "beam reaches", "motor along the wind", "circles"),
      WIND,
      ignorant.settings,
      ALL,
    );
    const states = statesCorrected(rows, ignorant.settings);
    expect(rows.length).toBeGreaterThan(60);
    rows.forEach((_, row) => {
      const direction = Math.atan2(states.windEast[row]!, states.windNorth[row]!);
      // the way there and back is exact (M27), but for the iterations of vane and compass
      expect(Math.cos(direction - WIND.direction)).toBeCloseTo(1, 9);
      expect(Math.hypot(states.windEast[row]!, states.windNorth[row]!)).toBeCloseTo(WIND.speed, 6);
      expect(Math.hypot(states.currentEast[row]!, states.currentNorth[row]!)).toBeLessThan(1e-6);
    });
  });

  it("are under sail on the tack that was planned, with heel away from the wind, and upright under power", () => {
    for (const { kind, tack, mean } of hypotheticRows(
      legsOf("tacks", "gybes", "motor slowly"),
      WIND,
      ignorant.settings,
      ALL,
    )) {
      if (kind === "sailing") expect(Math.sign(mean.awa)).toBe(tack === "starboard" ? 1 : -1);
      if (kind === "sailing") expect(Math.sign(mean.heel)).toBe(-Math.sign(mean.awa));
      if (kind === "motoring") expect(mean.heel).toBeCloseTo(0, 12);
    }
  });

  it("lack what the boat's instruments lack", () => {
    const [row] = hypotheticRows(legsOf("tacks"), WIND, ignorant.settings, {
      ...ALL,
      gps: false,
      heel: false,
    });
    expect(row!.mean.east).toBeNaN();
    expect(row!.mean.heel).toBeNaN();
    expect(row!.mean.stw).toBeGreaterThan(1);
  });
});

describe("what legs would tell (M83)", () => {
  it("is never less than nothing, and never less with one leg more", () => {
    const smallest = (matrix: Matrix): number =>
      Math.min(...new EigenvalueDecomposition(matrix, { assumeSymmetric: true }).realEigenvalues);
    const some = informationOf(legsOf("tacks", "circles"));
    const more = informationOf(legsOf("tacks", "circles", "gybes"));
    const rounding = -1e-9 * some.norm();
    expect(smallest(some)).toBeGreaterThan(rounding);
    expect(smallest(Matrix.sub(more, some))).toBeGreaterThan(rounding);
  });

  it("is nothing of the compass or the log's gain without GPS, and nothing of upwash under power", () => {
    const blind = informationOf(legsOf("tacks", "gybes", "circles"), { ...ALL, gps: false });
    const seeing = informationOf(legsOf("tacks", "gybes", "circles"));
    expect(of(blind, "compass.a")).toBeLessThan(1e-6 * of(seeing, "compass.a"));
    const power = informationOf(legsOf("circles", "motor along the wind", "motor across the wind"));
    for (const name of [
      "vane.upwash",
      "vane.upwashBroad",
      "leeway.coefficient",
      "anemometer.speedUp",
    ] as const)
      expect(of(power, name), name).toBe(0);
    // more than the prior tells
    expect(of(power, "vane.mastheadOffset")).toBeGreaterThan(1);
  });

  it("is less where the wind wanders more", () => {
    const rows = hypotheticRows(legsOf("tacks", "tacks"), WIND, ignorant.settings, ALL);
    const { wander } = ignorant;
    const wild = {
      ...ignorant,
      wander: { ...wander, slowDirection: 3 * wander.slowDirection, fastDirection: 3 * wander.fastDirection },
    };
    const [calm, restless] = [ignorant, wild].map((fit) =>
      of(
        expectedInformation([{ stretch: stretchSlopes(fit, rows, ALL, CONTEXT), start: 0 }], fit),
        "vane.upwash",
      ),
    );
    expect(restless).toBeLessThan(0.3 * calm!);
    expect(restless).toBeGreaterThan(0);
  });

  it("does not care which tack comes first, nor where north is, but for the compass", () => {
    const mirrored = legsOf("tacks", "beam reaches").toReversed();
    const [one, other] = [informationOf(legsOf("beam reaches", "tacks")), informationOf(mirrored)];
    for (const name of ["vane.upwash", "anemometer.gain", "vane.mastheadOffset"] as const) {
      // the wind's level is forgotten in the first row, which is another one
      expect(of(other, name) / of(one, name)).toBeGreaterThan(0.8);
      expect(of(other, name) / of(one, name)).toBeLessThan(1.25);
    }
    const turned = informationOf(legsOf("beam reaches", "tacks"), ALL, { ...WIND, direction: radians(35) });
    for (const name of ["vane.upwash", "anemometer.gain", "vane.mastheadOffset", "speed.gain"] as const)
      expect(of(turned, name) / of(one, name)).toBeCloseTo(1, 2);
  });

  it("takes no symmetry from a boat that is steered to the display, nor twice what a fit had once", () => {
    const rows = hypotheticRows(legsOf("tacks"), WIND, ignorant.settings, ALL);
    const means = (context: FitContext) =>
      stretchSlopes(ignorant, rows, ALL, context).means.map(({ name }) => name);
    expect(means(CONTEXT)).toContain("symmetry of sailing");
    expect(means({ ...CONTEXT, steeredBy: "display" })).toEqual([]);
    const leftOut = { ...ignorant, notes: ["Symmetry of sailing was left out: too little was sailed."] };
    const place = [{ stretch: stretchSlopes(ignorant, rows, ALL, CONTEXT), start: 0 }];
    expect(of(expectedInformation(place, leftOut), "vane.mastheadOffset")).toBeGreaterThan(
      of(expectedInformation(place, ignorant), "vane.mastheadOffset") + 1,
    );
  });
});

const planned = (request: Partial<PlanRequest> = {}) =>
  planOf({ fit: ignorant, channels: ALL, context: CONTEXT, seconds: 3600, ...request });

describe("what the report says to sail next", () => {
  const { answer } = solvedAnswerFixture();
  const plan = planned({ seconds: 1800 });

  it("is what a plan of half an hour holds, with what it is expected to tell", () => {
    const words = sailNextWords(answer, undefined, plan);
    for (const { name } of plan.exercises) expect(words.join(" "), name).toContain(LOOKS_LIKE[name]);
    expect(words.join(" ")).toMatch(
      /from ± [\d.]+° to ± [\d.]+°; the command plan and the page Between regattas reckon/,
    );
    for (const sentence of words) expect(sentence).toMatch(/^[A-Z][\s\S]*\.$/);
    expect(new Set(words).size).toBe(words.length);
  });

  it("has no rules of thumb beside a plan, but for what is to be recorded", () => {
    const unplanned = sailNextWords(answer, undefined);
    const words = sailNextWords(answer, undefined, plan);
    const both = words.filter((sentence) => unplanned.includes(sentence));
    for (const sentence of both) expect(sentence).toMatch(/^Record /);
  });
});

/** Words by which each exercise is known. */
const LOOKS_LIKE: Readonly<Record<ExerciseName, string>> = {
  "motor along the wind": "straight into the wind and then straight away from it",
  "motor across the wind": "square across the wind",
  "motor slowly": "slowly",
  circles: "slow circle",
  tacks: "Sail close-hauled",
  gybes: "Sail downwind",
  "close reaches": "close reach",
  "beam reaches": "beam reach",
  "broad reaches": "broad reach",
};

describe("a plan (M84)", () => {
  it("keeps to the time, motors first, and makes nothing worse", () => {
    const plan = planned();
    expect(plan.seconds).toBeLessThanOrEqual(3600);
    expect(plan.seconds).toBe(secondsOfExercises(plan.exercises));
    const powers = plan.exercises.map(({ underPower }) => underPower);
    expect(powers).toEqual([...powers].sort((one, other) => Number(other) - Number(one)));
    for (const { before, after } of [...plan.measures, ...plan.parameters])
      expect(after).toBeLessThanOrEqual(before * (1 + 1e-9));
  });

  it("sends a boat of which nothing is known to windward and off the wind", () => {
    const names = planned().exercises.map(({ name }) => name);
    expect(names.some((name) => name === "tacks" || name === "close reaches")).toBe(true);
    expect(names.some((name) => name === "gybes" || name === "broad reaches")).toBe(true);
  });

  it("tells more the longer it is", () => {
    const worst = (seconds: number): number =>
      Math.max(...planned({ seconds }).measures.map(({ after }) => after));
    const [short, long] = [worst(1800), worst(5400)];
    expect(long).toBeLessThan(short);
  });

  it("goes where the doubt is", () => {
    const but = (...names: readonly ParameterName[]): readonly Known[] =>
      PARAMETER_NAMES.filter((name) => !names.includes(name)).map((name) => ({
        weights: { [name]: 1 },
        sd: 0.02 * BOAT_PRIORS[name].sd,
      }));
    const upwash = planned({ fit: fitKnowing(but("vane.upwash")), seconds: 1800 });
    expect(upwash.exercises.every(({ underPower }) => !underPower)).toBe(true);
    const compass = planned({ fit: fitKnowing(but("compass.b", "compass.c")), seconds: 1200 });
    expect(compass.exercises.map(({ name }) => name)).toContain("circles");
  });

  it("stays under sail on asking, and has nothing where there is no time", () => {
    expect(planned({ underPower: false }).exercises.some(({ underPower }) => underPower)).toBe(false);
    expect(planned({ seconds: 60 }).exercises).toEqual([]);
    expect(() => planned({ seconds: 0 })).toThrow(/planOf: seconds must be positive, got 0/);
  });

  it("names the worst parameter of which there is something to learn, and lessens its doubt", () => {
    const { worst, doubts, parameters } = planned();
    const at = index(worst!);
    expect(doubts[at]).toBeGreaterThan(1);
    // half of its variance could go, were all the time spent on it
    expect(parameters[at]!.after).toBeLessThan(0.75 * parameters[at]!.before);
    const known = PARAMETER_NAMES.map((name) => ({
      weights: { [name]: 1 },
      sd: 1e-3 * BOAT_PRIORS[name].sd,
    }));
    expect(planned({ fit: fitKnowing(known), seconds: 600 }).worst).toBeUndefined();
  });

  it("leaves alone what no instrument tells", () => {
    const { parameters } = planned({ channels: { ...ALL, gps: false } });
    const { before, after } = parameters[index("compass.a")]!;
    expect(after / before).toBeGreaterThan(0.999);
  });

  it.each([
    [{ ...ALL, heel: false }],
    [{ ...ALL, paddle: false }],
    [{ ...ALL, compass: false }],
    [{ ...ALL, gps: false, heel: false }],
    [{ compass: false, paddle: false, gps: true, heel: false }],
  ])("stands on what there is: %j", (channels) => {
    const context = { ...CONTEXT, leewayLawHolds: false };
    const { exercises, measures, parameters } = planned({ channels, context, seconds: 1200 });
    expect(exercises.length).toBeGreaterThan(0);
    for (const { before, after } of [...measures, ...parameters]) {
      expect(after).toBeGreaterThan(0);
      expect(after).toBeLessThanOrEqual(before * (1 + 1e-9));
    }
    const leeway = parameters[index("leeway.coefficient")]!;
    expect(leeway.after / leeway.before).toBeCloseTo(1, 9);
  });

  it("is said in full sentences, with minutes", () => {
    const words = exerciseWords({ exercises: [EXERCISES[3]!, EXERCISES[3]!, EXERCISES[4]!] });
    expect(words).toEqual([
      "Motor with the sails down in one slow circle to starboard and one to port, at 5.5 kn, 4 minutes each, clear of steel and of other boats, twice.",
      "Sail close-hauled, steering by the sails and not by the display, 3 minutes on starboard tack and as long on port.",
    ]);
    for (const exercise of EXERCISES)
      expect(exerciseWords({ exercises: [exercise] })[0]).toMatch(/^[A-Z].*\d minutes.*\.$/);
  });
});
