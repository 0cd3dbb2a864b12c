import { UNKNOWN_BOAT } from "../../packages/core/src/calibration/boatFile.ts";
import type { BoatFit, SolvedBoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { fitBoat } from "../../packages/core/src/fit/fitBoat.ts";
import type { FitContext } from "../../packages/core/src/fit/fitContext.ts";
import { tackGapDeviation } from "../../packages/core/src/judge/tackGap.ts";
import { correctedSeconds } from "../../packages/core/src/sailing/correctedSeconds.ts";
import { LagShifter } from "../../packages/core/src/sailing/lagShifter.ts";
import { LagEstimator } from "../../packages/core/src/sailing/lags.ts";
import type { LegRow } from "../../packages/core/src/sailing/legRow.ts";
import type { Sailing } from "../../packages/core/src/sailing/sailing.ts";
import type { SecondsBlock } from "../../packages/core/src/sailing/series.ts";
import { summariseSailing } from "../../packages/core/src/sailing/summary.ts";
import { noCorrections } from "../../packages/core/src/sensors/noCorrections.ts";
import type { SensorSettings } from "../../packages/core/src/sensors/parameters.ts";
import { anotherDay, drawScenario, type Outing } from "../../packages/core/src/simulate/drawScenario.ts";
import { nearestSettings } from "../../packages/core/src/simulate/nearestSettings.ts";
import type { Scenario } from "../../packages/core/src/simulate/scenario.ts";
import { type SimulatedSail, simulatedSail } from "../../packages/core/src/simulate/simulatedSail.ts";
import { secondsOfSail } from "../../packages/core/src/simulate/simulatedSeconds.ts";
import { degrees, radians } from "../../packages/core/src/units.ts";

/** A simulated sail as the job sees it: seconds in step, and what was sailed. */
export interface SeenSail {
  readonly sail: SimulatedSail;
  readonly blocks: readonly SecondsBlock[];
  readonly sailing: Sailing;
}

export function seenSail(scenario: Scenario): SeenSail {
  const sail = simulatedSail(scenario);
  const seconds = secondsOfSail(sail);
  const estimator = new LagEstimator();
  for (const block of seconds) estimator.push(block);
  const shifter = new LagShifter(estimator.lags());
  const blocks = [...seconds.map((block) => shifter.push(block)), shifter.finish()];
  return { sail, blocks, sailing: summariseSailing(blocks) };
}

const AS_SAILED = { heelSign: "auto", steeredBy: "sails", leewayLawHolds: true } as const;

export const fitOf = ({ sailing }: SeenSail): BoatFit => fitBoat(sailing.rows, AS_SAILED);

/** Errors of true wind direction over the water, in degrees: means of 30 s of steady sailing. */
export interface Score {
  /** Mean on starboard less mean on port; upwind and off the wind. */
  readonly upwind: number;
  readonly offTheWind: number;
  /** Root mean square of the 30 s means. */
  readonly rms: number;
}

const UPWIND = radians(70);
const MEANS_OF = 30;

/** Settings that leave readings as they are, heel and leeway taken as none: what plain arithmetic would show. */
export const plainVectorSum: SensorSettings = { ...noCorrections, leeway: { coefficient: 0 } };

interface MeanError {
  readonly error: number;
  readonly side: 1 | -1;
  readonly upwind: boolean;
}

function meanErrors({ sail, blocks, sailing }: SeenSail, settings: SensorSettings, upright: boolean) {
  const { truth, scenario } = sail;
  const options = {
    settings,
    boat: { ...UNKNOWN_BOAT, windSensorHeight: scenario.mastHeight },
    has: { paddle: true, compass: true, heel: true },
    directionsAre: "true" as const,
    isMotoring: () => false,
  };
  const errors = new Map<number, { sine: number; cosine: number; count: number; angle: number }>();
  const windows = new Map<number, number>();
  sailing.rows.forEach((row, index) => {
    if (row.kind !== "sailing") return;
    for (let second = 0; second < row.duration; second++) windows.set(row.start + second, index);
  });
  for (const block of blocks) {
    const seen = upright
      ? { ...block, columns: { ...block.columns, heel: new Float64Array(block.length) } }
      : block;
    for (const { time, twd } of correctedSeconds(seen, options)) {
      const window = windows.get(time);
      const second = time - scenario.start;
      if (window === undefined || Number.isNaN(twd)) continue;
      const direction = truth.columns.waterWindDirection[second]!;
      const sum = errors.get(window) ?? { sine: 0, cosine: 0, count: 0, angle: 0 };
      const angle = direction - truth.columns.heading[second]!;
      errors.set(window, {
        sine: sum.sine + Math.sin(twd - direction),
        cosine: sum.cosine + Math.cos(twd - direction),
        count: sum.count + 1,
        angle: sum.angle + Math.atan2(Math.sin(angle), Math.cos(angle)),
      });
    }
  }
  return [...errors.values()]
    .filter(({ count }) => count >= MEANS_OF / 2)
    .map(({ sine, cosine, count, angle }): MeanError => {
      const mean = angle / count;
      return {
        error: degrees(Math.atan2(sine, cosine)),
        side: mean > 0 ? 1 : -1,
        upwind: Math.abs(mean) < UPWIND,
      };
    });
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

export function scoreOf(seen: SeenSail, settings: SensorSettings, upright = false): Score {
  const errors = meanErrors(seen, settings, upright);
  const gap = (upwind: boolean): number => {
    const on = (side: 1 | -1) =>
      mean(errors.filter((one) => one.upwind === upwind && one.side === side).map(({ error }) => error));
    return on(1) - on(-1);
  };
  return {
    upwind: gap(true),
    offTheWind: gap(false),
    rms: Math.sqrt(mean(errors.map(({ error }) => error ** 2))),
  };
}

export class Unsolved extends Error {}

export function requireSolved(fit: BoatFit): SolvedBoatFit {
  if (fit.status !== "solved") throw new Unsolved(`the fit was not solved: ${fit.reason}`);
  return fit;
}

/** Rows of several days as one recording: in time order, no leg number twice. */
export function rowsOfDays(days: readonly (readonly LegRow[])[]): readonly LegRow[] {
  let legs = 0;
  const numbered = days.map((rows) => {
    const from = legs;
    legs += Math.max(...rows.map(({ leg }) => leg)) + 1;
    return rows.map((row) => ({ ...row, leg: row.leg + from }));
  });
  return numbered.flat().sort((one, other) => one.start - other.start);
}

/** A boat fitted on some days and scored on another. */
export interface ScoredBoat {
  readonly seed: number;
  readonly faults: Scenario["faults"];
  readonly fit: SolvedBoatFit;
  readonly corrected: Score;
  /** Standard deviations of both tack gaps that the fit expects on the other day, degrees. */
  readonly expected: { readonly upwind: number; readonly offTheWind: number };
  readonly uncorrected: Score;
  /** With the settings that undo the true faults best: what noise, sea and faults of other forms leave. */
  readonly best: Score;
}

export interface ScoredOptions {
  readonly faults?: "drawn" | "none";
  /** What each of the days is for that she is fitted on: one day's racing unless told. */
  readonly days?: readonly Outing[];
  /** Parameters held at their priors' means. */
  readonly held?: FitContext["held"];
}

const contextOf = ({ held }: ScoredOptions): FitContext => (held ? { ...AS_SAILED, held } : AS_SAILED);

const A_WEEK = 7 * 24 * 3600;

/**
 * Draws a boat with her faults (or with none), fits her on one day or several, each in a wind of its own, and scores her on another day's
 * racing in another wind.
 */
export function scoredBoat(seed: number, options: ScoredOptions = {}): ScoredBoat {
  const { faults = "drawn" } = options;
  const { scenario, rows } = daysOfBoat(seed, options);
  const fit = requireSolved(fitBoat(rows, contextOf(options)));
  const other = seenSail(anotherDay(scenario, seed + 1_000_000, { faults }));
  const expected = (point: "upwind" | "off the wind"): number =>
    degrees(tackGapDeviation(fit, other.sailing.rows, point));
  return {
    seed,
    faults: scenario.faults,
    fit,
    corrected: scoreOf(other, fit.settings),
    expected: { upwind: expected("upwind"), offTheWind: expected("off the wind") },
    uncorrected: scoreOf(other, plainVectorSum, true),
    best: scoreOf(other, nearestSettings(scenario.faults)),
  };
}

/** The fit of such a boat, without the day that it would be scored on. */
export const fitOfDays = (seed: number, options: ScoredOptions = {}): BoatFit =>
  fitBoat(daysOfBoat(seed, options).rows, contextOf(options));

/** A boat drawn from a seed on her days, as the rows of one recording. */
function daysOfBoat(seed: number, { faults = "drawn", days = ["racing"] }: ScoredOptions) {
  const [first = "racing", ...others] = days;
  const scenario = drawScenario(seed, { faults, outing: first });
  const sailed = [
    scenario,
    ...others.map((outing, day) => ({
      ...anotherDay(scenario, seed + 2_000_000 + 1_000_000 * day, { faults, outing }),
      start: scenario.start + A_WEEK * (day + 1),
    })),
  ];
  return { scenario, rows: rowsOfDays(sailed.map((day) => seenSail(day).sailing.rows)) };
}

export const meanOf = mean;

export const rootMeanSquare = (values: readonly number[]): number =>
  Math.sqrt(mean(values.map((value) => value ** 2)));
