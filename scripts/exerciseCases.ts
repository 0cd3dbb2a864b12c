import { attitudeZero } from "../packages/core/src/fit/attitudeZero.ts";
import { circleFromBearings, deviationTable } from "../packages/core/src/fit/circleFromBearings.ts";
import { clockAgainstGps } from "../packages/core/src/fit/clockAgainstGps.ts";
import { correlatedMean } from "../packages/core/src/fit/correlatedMean.ts";
import { linearCalibration } from "../packages/core/src/fit/linearCalibration.ts";
import { positionAtBerth } from "../packages/core/src/fit/positionAtBerth.ts";
import { type LoggedRun, speedFromRuns } from "../packages/core/src/fit/speedFromRuns.ts";
import { deviation } from "../packages/core/src/sensors/compass.ts";
import { METRES_PER_SECOND_IN_A_KNOT as KNOT, radians } from "../packages/core/src/units.ts";
import { runsIn } from "../tests/support/tidalRuns.ts";
import { about, between, type ExerciseCase, type Held, holds, normal, wandering } from "./exerciseDraws.ts";

const STREAM = 2 * KNOT;
const STATED = 0.05 * KNOT;

/** How runs differ from those of the plainest case. */
export interface Otherwise {
  readonly scatterAsStated?: boolean;
  readonly falls?: boolean;
  readonly tacks?: boolean;
  /** How much larger the gain is at 20°, where every other pair heels. */
  readonly heeled?: number;
}

/** What of the wheel's deficit at 5 kn is there at a speed. */
const shareOf = (speed: number, falls = false): number => (falls ? Math.min(2, (5 * KNOT) / speed) : 1);

/** The log's reading as tack and heel make it. */
function asSailed(run: LoggedRun, at: number, difference: number, { tacks, heeled }: Otherwise): LoggedRun {
  const isUnderSail = at % 4 >= 2;
  const tack = tacks && (at % 8 < 4 ? ("starboard" as const) : ("port" as const));
  const heel = isUnderSail ? radians(20) : 0;
  const side = tack === "starboard" ? difference / 2 : tack === "port" ? -difference / 2 : 0;
  const more = heeled === undefined ? 1 : 1 + (heeled * heel) / radians(20);
  return {
    ...run,
    reading: run.reading / (more * (1 + side)),
    ...(tack ? { tack } : {}),
    ...(heeled === undefined ? {} : { heel }),
  };
}

/** A speed sensor drawn, runs of it, and what was found of them. */
export function drawnRuns(speeds: readonly number[], otherwise: Otherwise) {
  const [deficit, gain] = [0.2 * KNOT * (1 + normal()), 1 + 0.06 * normal()];
  const scatter = otherwise.scatterAsStated ? STATED : about(STATED);
  const difference = otherwise.tacks ? 0.03 * normal() : 0;
  const boat = {
    intercept: deficit,
    gain,
    stream: STREAM,
    phase: between(0, 2 * Math.PI),
    error: () => scatter * normal(),
    reading: (speed: number) => (speed - deficit * shareOf(speed, otherwise.falls)) / gain,
  };
  const runs = runsIn(boat, speeds).map((run, at) => asSailed(run, at, difference, otherwise));
  return {
    deficit,
    gain,
    difference,
    found: speedFromRuns(runs, { deviation: STATED, stream: STREAM }),
  };
}

function runsHeld(speeds: readonly number[], otherwise: Otherwise): Held {
  const { deficit, gain, difference, found } = drawnRuns(speeds, otherwise);
  if (found.status === "unsolved") return undefined;
  const middle = found.gains[found.gains.length >> 1]!;
  // speed = gain · reading + deficit · share(speed), by substitution
  let speed = middle.gain * middle.reading;
  for (let round = 0; round < 20; round++)
    speed = gain * middle.reading + deficit * shareOf(speed, otherwise.falls);
  const line = otherwise.falls
    ? {}
    : {
        gain: holds(found.gain, gain, found.gainHalf),
        intercept: holds(found.intercept, deficit, found.interceptHalf),
      };
  return {
    "gain there": holds(middle.gain, speed / middle.reading, middle.half),
    ...line,
    ...(otherwise.tacks
      ? { "tacks' difference": holds(found.gainDifference, difference, found.gainDifferenceHalf) }
      : {}),
    ...(otherwise.heeled === undefined
      ? {}
      : { "growth with heel": holds(found.heelSlope, otherwise.heeled / radians(20), found.heelSlopeHalf) }),
  };
}

/** Speeds, each there and back. */
export const twice = (...speeds: readonly number[]): readonly number[] => speeds.flatMap((one) => [one, one]);

const runs = (name: string, speeds: readonly number[], otherwise: Otherwise = {}): ExerciseCase => ({
  name: `runs typed: ${name}`,
  draw: () => runsHeld(speeds, otherwise),
});

/** A compass drawn, and headings of it known from bearings. */
function circleHeld(count: number, options: { readonly heels?: boolean; readonly lag?: number }): Held {
  const [a, b, c, d, e] = [1, 2, 2, 1, 0.5].map((size) => radians(size * normal()));
  const heelingError = options.heels ? 0.04 * normal() : 0;
  const series = { a: a!, b: b!, c: c!, d: d!, e: e!, heelingError };
  const rate = (2 * Math.PI) / 240;
  const lagged = options.lag === undefined ? 0 : options.lag * rate * normal();
  const [scatter, common] = [about(radians(1)), radians(0.7) * normal()];
  const heels = options.heels ? [radians(-15), radians(15)] : [0];
  const known = heels.flatMap((heel) =>
    Array.from({ length: count }, (_, at) => {
      const compass = (2 * Math.PI * at) / count;
      const magnetic = compass + deviation(compass, heel, series) + common + lagged + scatter * normal();
      return { compass, magnetic, ...(options.heels ? { heel } : {}) };
    }),
  );
  const found = circleFromBearings(known, {
    deviation: radians(1),
    common: radians(0.7),
    ...(options.lag === undefined ? {} : { turning: { rate, bothWays: false } }),
    withHeelingError: options.heels ?? false,
  });
  if (found.status === "unsolved") return undefined;
  const told = deviationTable(found, 15)[5]!;
  const beside = common + lagged;
  const term = (name: "a" | "b" | "c" | "d" | "e"): boolean =>
    holds(found.series[name], series[name], found.halves[name]);
  return {
    A: term("a"),
    B: term("b"),
    C: term("c"),
    D: term("d"),
    E: term("e"),
    "table at 075°": holds(
      told.deviation - beside,
      deviation(told.heading, 0, { ...series, heelingError: 0 }),
      told.half,
    ),
    ...(options.heels
      ? {
          "heeling error": holds(found.series.heelingError, heelingError, found.halves.heelingError),
        }
      : {}),
  };
}

const circle = (
  name: string,
  count: number,
  options: Parameters<typeof circleHeld>[1] = {},
): ExerciseCase => ({
  name: `circle typed: ${name}`,
  draw: () => circleHeld(count, options),
});

function channelHeld(readings: readonly number[], stated: number, gainSd: number): Held {
  const known = gainSd > 0;
  const [offset, gain] = [normal(), 1 + (known ? gainSd : 0.1) * normal()];
  const scatter = about(stated);
  const points = readings.map((reading) => ({
    reading,
    truth: offset + gain * reading + scatter * normal(),
  }));
  const options = { deviation: stated, ...(known ? { gain: { mean: 1, sd: gainSd } } : {}) };
  const found = linearCalibration(points, options);
  if (found.status === "unsolved") return undefined;
  const { reading, truth, half } = found.middle;
  const middle = holds(truth, offset + gain * reading, half);
  return known
    ? { "offset there": middle }
    : {
        "truth there": middle,
        offset: holds(found.offset, offset, found.offsetHalf),
        gain: holds(found.gain, gain, found.gainHalf),
      };
}

function dockHeld(): Held {
  const [zero, level] = [radians(2 * normal()), radians(0.5) * normal()];
  const logged = wandering(600, 4).map((one) => zero + level + radians(0.3) * one);
  const found = attitudeZero(logged, 1, radians(0.5));
  return found.status === "unsolved" ? undefined : { zero: holds(found.zero, zero, found.half) };
}

/** Metres of a degree of latitude, the earth as M130 has it. */
const EARTH = 6_371_000;

function berthHeld(): Held {
  const place = { latitude: radians(54), longitude: radians(10) };
  const [slow, own, offset] = [1.5 * normal(), 2 * normal(), 5 * normal()];
  const north = wandering(1800, 60).map((one) => offset + slow + own + 1.2 * one);
  const found = positionAtBerth(
    north.map((metres) => ({ ...place, latitude: place.latitude + metres / EARTH })),
    1,
    place,
    2,
  );
  return { north: holds(found.north, offset, found.half) };
}

function clockHeld(): Held {
  const ahead = 20 * normal();
  const late = between(0, 1);
  const times = Array.from({ length: 600 }, (_, at) => ({
    gps: 1.9e9 + at,
    ahead: ahead + late + 0.02 * normal(),
    isUtc: true,
  }));
  const found = clockAgainstGps(times);
  return found.status === "unsolved" ? undefined : { ahead: holds(found.ahead, ahead, found.half) };
}

const meanCase = (length: number, constant: number, isTold?: true): ExerciseCase => ({
  name: `mean over ${length} s of what forgets in ${constant} s${isTold ? ", told as too short" : ""}`,
  draw: () => {
    const { mean, deviation: sd } = correlatedMean(wandering(length, constant), 1);
    return { mean: holds(mean, 0, 1.96 * sd) };
  },
  ...(isTold ? { isTold } : {}),
});

/** Exercises that are typed, or series that are drawn as they are: from what each method takes for granted. */
export const TYPED_CASES: readonly ExerciseCase[] = [
  runs("a pair at one speed", [5.5, 5.5]),
  runs("four at one speed", [5.5, 5.5, 5.5, 5.5]),
  runs("three speeds, there and back", twice(3.5, 5, 6.5)),
  runs("two speeds, four each", twice(4, 4, 6.5, 6.5)),
  runs("the same, scatter exactly as stated", twice(4, 4, 6.5, 6.5), { scatterAsStated: true }),
  runs("the same, a deficit that falls with speed", twice(4, 4, 6.5, 6.5), { falls: true }),
  runs("two speeds on both tacks", twice(4, 4, 6.5, 6.5), { tacks: true }),
  runs("upright and at 20°, heel does nothing", twice(5, 5, 6.5, 6.5), { heeled: 0 }),
  runs("upright and at 20°, gain 6 % larger", twice(5, 5, 6.5, 6.5), { heeled: 0.06 }),
  circle("5 headings", 5),
  circle("8 headings", 8),
  circle("16 headings", 16),
  circle("8 headings while turning one way in 4 minutes", 8, { lag: 0.7 }),
  circle("8 headings, heeled 15° to either side", 8, { heels: true }),
  { name: "depth, three soundings", draw: () => channelHeld([4, 4.1, 5.6], 0.1, 0.01) },
  { name: "temperature, two readings", draw: () => channelHeld([17, 17.3], 0.2, 0.005) },
  { name: "linear channel, four points", draw: () => channelHeld([5, 10, 15, 25], 0.2, 0) },
  { name: "heel zero alongside, ten minutes", draw: dockHeld },
  { name: "position at a berth, half an hour", draw: berthHeld },
  { name: "clock against GPS, ten minutes", draw: clockHeld },
  meanCase(600, 5),
  meanCase(1200, 10),
  meanCase(600, 60, true),
];
