/**
 * FIXTURE FOR RENDERING ONLY. An invented answer about an invented boat: plausible numbers with which the summary, the
 * words, the tables and the report can be drawn and looked at. Nothing in it was fitted or measured, and no test may
 * take its numbers for truth about the method.
 */

import { wrapAngle, wrapDirection } from "../../packages/core/src/angles.ts";
import type { Agreements } from "../../packages/core/src/calibration/calibration.ts";
import {
  PARAMETER_NAMES,
  type ParameterName,
  type SolvedBoatFit,
} from "../../packages/core/src/fit/boatFit.ts";
import { errorCovariance } from "../../packages/core/src/fit/doubtOfPriors.ts";
import { BOAT_PRIORS } from "../../packages/core/src/fit/priors.ts";
import { settingsOf } from "../../packages/core/src/fit/settingsVector.ts";
import type { Answer, RecordingSummary, WindTrack } from "../../packages/core/src/report/answer.ts";
import {
  AUTOCOVARIANCE_LAGS,
  type Leg,
  type LegRow,
  MOMENT_CHANNELS,
  type Turn,
} from "../../packages/core/src/sailing/legRow.ts";
import { metresPerSecond, radians } from "../../packages/core/src/units.ts";

const START = Date.UTC(2031, 5, 14, 13, 5) / 1000;
const ROW_SECONDS = 30;

/** Repeatable noise, about standard normal: the sum of four uniform numbers of a small generator. */
export function noise(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  return () => (uniform() + uniform() + uniform() + uniform() - 2) * Math.sqrt(3);
}

/** Mean and sd of each parameter as if fitted, and how often the prior was narrowed. */
const FITTED: Readonly<Partial<Record<ParameterName, readonly [value: number, share: number]>>> = {
  "speed.intercept": [metresPerSecond(0.21), 0.97],
  "speed.gain": [0.043, 0.55],
  "speed.gainDifference": [-0.018, 0.25],
  "compass.a": [radians(1.8), 0.2],
  "compass.b": [radians(-1.1), 0.3],
  "compass.c": [radians(0.9), 0.35],
  "compass.d": [radians(0.3), 0.6],
  "compass.e": [radians(-0.1), 0.9],
  "compass.heelingError": [0.02, 0.8],
  "heel.zero": [radians(1.4), 0.3],
  "leeway.coefficient": [BOAT_PRIORS["leeway.coefficient"].mean * 1.05, 0.85],
  "vane.mastheadOffset": [radians(2.4), 0.12],
  "vane.upwash": [radians(3.4), 0.3],
  "vane.upwashSlope": [radians(-0.9), 0.75],
  "vane.upwashBroad": [radians(0.3), 0.6],
  "anemometer.threshold": [0.28, 0.9],
  "anemometer.gain": [-0.035, 0.4],
  "anemometer.speedUp": [0.04, 0.9],
};

/** A solved fit: the numbers of FITTED, independent but for two pairs that trade off. */
export function fitFixture(): SolvedBoatFit {
  const told = PARAMETER_NAMES.map((name) => {
    const prior = BOAT_PRIORS[name];
    const [value, share] = FITTED[name] ?? [prior.mean, 1];
    const sd = prior.sd * share;
    return {
      name,
      value,
      sd,
      priorMean: prior.mean,
      priorSd: prior.sd,
      informed: 1 - share ** 2,
    };
  });
  const size = told.length;
  const covariance = new Float64Array(size * size);
  told.forEach(({ sd }, index) => {
    covariance[index * size + index] = sd ** 2;
  });
  const tie = (one: ParameterName, other: ParameterName, correlation: number) => {
    const [i, j] = [PARAMETER_NAMES.indexOf(one), PARAMETER_NAMES.indexOf(other)];
    const value = correlation * told[i]!.sd * told[j]!.sd;
    covariance[i * size + j] = value;
    covariance[j * size + i] = value;
  };
  tie("speed.intercept", "speed.gain", -0.97);
  tie("leeway.coefficient", "compass.heelingError", -0.88);
  const errors = errorCovariance({ parameters: told, covariance });
  const parameters = told.map((one, index) => ({ ...one, sd: Math.sqrt(errors[index * (size + 1)]!) }));
  return {
    status: "solved",
    settings: settingsOf(
      parameters.map(({ value }) => value),
      1,
    ),
    parameters,
    covariance,
    wander: {
      slowDirection: radians(0.25),
      slowLogSpeed: 0.008,
      fastDirection: radians(3.2),
      fastLogSpeed: 0.07,
      fastSeconds: 24,
    },
    rows: 0,
    outliers: [],
    notes: [
      "The heel sensor reads heel to starboard as positive; the sign was found from the wind.",
      "Boat speed below 1 kn was left out, since a paddle wheel that hardly turns says nothing.",
    ],
  };
}

interface Sailing {
  readonly rows: readonly LegRow[];
  readonly legs: readonly Leg[];
  readonly turns: readonly Turn[];
  readonly track: WindTrack;
}

/** One leg of the invented course: minutes, true wind angle (signed), boat speed in knots. */
type Course = readonly [minutes: number, angle: number, speed: number];

const BEAT: readonly Course[] = Array.from({ length: 8 }, (_, n) => [4.5, n % 2 ? -41 : 41, 6.1] as const);
const RUN: readonly Course[] = Array.from({ length: 4 }, (_, n) => [6, n % 2 ? 146 : -146, 6.8] as const);
const REACH: readonly Course[] = [
  [6, 92, 7.2],
  [6, -94, 7.3],
];
const AFTERNOON: readonly Course[] = [...BEAT, ...RUN, ...BEAT, ...RUN, ...REACH];

function rowOf(
  time: number,
  number: number,
  twa: number,
  windSpeed: number,
  direction: number,
  stw: number,
): LegRow {
  const ahead = windSpeed * Math.cos(twa) + stw;
  const athwart = windSpeed * Math.sin(twa);
  const upwash = radians(3) * Math.sign(twa) * Math.sin(Math.abs(twa)) * (Math.cos(twa / 2) > 0.7 ? 1 : 0.3);
  const heading = wrapDirection(direction - twa - radians(1.8));
  const heel = -Math.sign(twa) * radians(20) * Math.cos(twa / 2) ** 3 + radians(1.4);
  const mean = {
    awa: wrapAngle(Math.atan2(athwart, ahead) + radians(2.4) + upwash),
    aws: Math.hypot(ahead, athwart) * 1.035,
    stw: stw / 1.043 - metresPerSecond(0.2),
    heading,
    heel,
    east: stw * Math.sin(heading),
    north: stw * Math.cos(heading),
  };
  return {
    leg: number,
    kind: "sailing",
    tack: twa > 0 ? "starboard" : "port",
    start: time,
    duration: ROW_SECONDS,
    count: ROW_SECONDS,
    mean,
    covariance: new Float64Array(MOMENT_CHANNELS.length ** 2).fill(1e-4),
    autocovariance: new Float64Array(3 * AUTOCOVARIANCE_LAGS.length).fill(1e-5),
    headingIsTrue: false,
    variation: radians(2.1),
    latitude: radians(54.2),
    longitude: radians(10.6),
  };
}

/** An afternoon of laps in a wind about north, so that the picture has to cross 360°; `days` of them in a season. */
export function sailingFixture(days = 1, seed = 7): Sailing {
  const next = noise(seed);
  const rows: LegRow[] = [];
  const legs: Leg[] = [];
  const turns: Turn[] = [];
  const before: number[] = [];
  const after: number[] = [];
  const speedBefore: number[] = [];
  const speedAfter: number[] = [];
  const angleAfter: number[] = [];
  for (let day = 0; day < days; day++) {
    let time = START + day * 86_400;
    let shift = radians(-3);
    AFTERNOON.forEach(([minutes, degreesOfAngle, speed], index) => {
      const twa = radians(degreesOfAngle);
      const side = Math.sign(twa);
      const start = time;
      const number = legs.length;
      for (let row = 0; row < minutes * 2; row++, time += ROW_SECONDS) {
        shift += radians(1.3) * next();
        const direction = radians(2) + shift + radians(9) * Math.sin((time - START) / 2300);
        const fluctuation = radians(2) * next();
        const windSpeed = metresPerSecond(13) * Math.exp(0.06 * next()) + 1.5 * Math.sin(time / 1900);
        const error = side * radians(Math.abs(degreesOfAngle) < 90 ? 3.3 : 2.2) + radians(2.2);
        rows.push(rowOf(time, number, twa, windSpeed, direction, metresPerSecond(speed + 0.15 * next())));
        after.push(wrapDirection(direction + fluctuation));
        before.push(wrapDirection(direction + fluctuation + error));
        speedAfter.push(windSpeed);
        speedBefore.push(windSpeed * (1.04 + 0.03 * side));
        angleAfter.push(twa);
      }
      const tack = side > 0 ? "starboard" : "port";
      const meanAwa = rows.at(-1)!.mean.awa;
      legs.push({ number, kind: "sailing", tack, start, end: time, meanAwa });
      const following = AFTERNOON[index + 1];
      if (!following) return;
      const change = wrapAngle(twa - radians(following[1]));
      const upwind = Math.abs(degreesOfAngle) < 70 && Math.abs(following[1]) < 70;
      const downwind = Math.abs(degreesOfAngle) > 110 && Math.abs(following[1]) > 110;
      turns.push({
        kind: upwind ? "tack" : downwind ? "gybe" : "other",
        start: time,
        end: time + 40,
        change,
      });
      time += 45;
    });
  }
  const column = (values: readonly number[]) => Float64Array.from(values);
  return {
    rows,
    legs,
    turns,
    track: {
      time: Float64Array.from(rows, ({ start }) => start + ROW_SECONDS / 2),
      tack: rows.map(({ tack }) => tack),
      kind: rows.map(({ kind }) => kind),
      directionBefore: column(before),
      directionAfter: column(after),
      speedBefore: column(speedBefore),
      speedAfter: column(speedAfter),
      angleAfter: column(angleAfter),
      directionResidual: Float64Array.from(rows, next),
      speedResidual: Float64Array.from(rows, next),
      overGround: true,
    },
  };
}

const recordingFixture = (end: number): RecordingSummary => ({
  files: ["saturday-race.nmea"],
  start: START,
  end,
  lines: { lines: 184_212, used: 151_006, ignored: 33_171, problems: 35 },
  problems: [
    {
      kind: "checksum",
      file: "saturday-race.nmea",
      line: 20_117,
      received: "$WIMWV,031.2,R,14.9,N,A*1F",
      expected: "checksum 2C",
    },
    {
      kind: "cut",
      file: "saturday-race.nmea",
      line: 97_450,
      received: "$HCHDG,341.",
      expected: "a whole sentence",
    },
  ],
  chosen: [
    { source: { quantity: "apparentWindAngle", name: "WI MWV" }, why: "the only one", rate: 2 },
    { source: { quantity: "apparentWindSpeed", name: "WI MWV" }, why: "the only one", rate: 2 },
    { source: { quantity: "speedThroughWater", name: "VW VHW" }, why: "the only one", rate: 1 },
    {
      source: { quantity: "headingMagnetic", name: "HC HDG" },
      why: "faster than the other and never frozen",
      rate: 5,
    },
    { source: { quantity: "heel", name: "YX XDR ROLL" }, why: "the only one", rate: 5 },
    {
      source: { quantity: "courseOverGround", name: "GP RMC" },
      why: "with speed over ground in one sentence",
      rate: 1,
    },
    { source: { quantity: "speedOverGround", name: "GP RMC" }, why: "the only one", rate: 1 },
  ],
  others: [
    {
      source: { quantity: "headingMagnetic", name: "VW VHW" },
      why: "frozen at 127° from 13:40 on",
      rate: 1,
    },
  ],
  lags: [
    { channel: "heading", seconds: -0.8 },
    { channel: "stw", seconds: 1.6 },
  ],
  seconds: { sailing: 9_930, motoring: 0, other: 1_240 },
  directionsAre: "true",
});

const agreementsFixture = (
  values: readonly [number, number, number],
  sds: readonly [number, number, number],
): Agreements => [
  {
    kind: "direction between tacks",
    value: radians(values[0]),
    sd: radians(sds[0]),
    contrasts: Number.isNaN(values[0]) ? 0 : 26,
  },
  {
    kind: "direction upwind against downwind",
    value: radians(values[1]),
    sd: radians(sds[1]),
    contrasts: Number.isNaN(values[1]) ? 0 : 4,
  },
  { kind: "speed between tacks", value: values[2], sd: sds[2], contrasts: Number.isNaN(values[2]) ? 0 : 26 },
];

export interface AnswerFixture {
  readonly answer: Answer;
  readonly rows: readonly LegRow[];
}

const NO_WORDS = { keyIn: [], leaveAlone: [], couldNotTell: [], sailNext: [], notes: [] };

/** A solved answer, and the rows that its tables are laid out from. */
export function solvedAnswerFixture(days = 1): AnswerFixture {
  const sailing = sailingFixture(days);
  const fit = { ...fitFixture(), rows: sailing.rows.length, outliers: [sailing.rows[17]!.start] };
  const active = settingsOf(
    PARAMETER_NAMES.map((name) => (name === "heelModel.fullHeel" ? BOAT_PRIORS[name].mean : 0)),
    1,
  );
  const answer: Answer = {
    recording: recordingFixture(sailing.legs.at(-1)!.end),
    legs: sailing.legs,
    turns: sailing.turns,
    base: "sensors without corrections",
    active,
    fit,
    before: agreementsFixture([6.2, 2.1, 0.061], [0.8, 1.6, 0.014]),
    after: agreementsFixture([0.4, -0.6, 0.006], [0.5, 1.1, 0.012]),
    track: sailing.track,
    words: NO_WORDS,
  };
  return { answer, rows: sailing.rows };
}

/** An answer that could not be had: one tack only, eleven minutes. */
export function unsolvedAnswerFixture(): AnswerFixture {
  const sailing = sailingFixture();
  const rows = sailing.rows.slice(0, 9);
  const unknown = new Float64Array(rows.length).fill(Number.NaN);
  const { after: _, ...answer } = solvedAnswerFixture().answer;
  const none = Number.NaN;
  return {
    rows,
    answer: {
      ...answer,
      recording: {
        ...answer.recording,
        end: START + 660,
        seconds: { sailing: 270, motoring: 0, other: 390 },
      },
      legs: sailing.legs.slice(0, 1),
      turns: [],
      base: "unknown corrections",
      fit: {
        status: "unsolved",
        reason:
          "The recording holds starboard tack only, and on one tack an error of the sensors looks just like the wind itself.",
        confounded: ["vane.mastheadOffset", "vane.upwash", "compass.a"],
        notes: [],
      },
      before: agreementsFixture([none, none, none], [none, none, none]),
      track: {
        ...sailing.track,
        time: sailing.track.time.slice(0, 9),
        tack: sailing.track.tack.slice(0, 9),
        kind: sailing.track.kind.slice(0, 9),
        directionBefore: sailing.track.directionBefore.slice(0, 9),
        directionAfter: unknown,
        speedBefore: sailing.track.speedBefore.slice(0, 9),
        speedAfter: unknown,
        angleAfter: unknown,
        directionResidual: unknown,
        speedResidual: unknown,
      },
    },
  };
}
