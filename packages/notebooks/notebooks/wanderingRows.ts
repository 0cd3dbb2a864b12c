import {
  apparentWind,
  flowAngleFromReading,
  metresPerSecond,
  noCorrections,
  radians,
  randomNumbers,
  type VaneParameters,
  vaneReadingOf,
  type Wind,
  whiten,
  windOverWater,
  wrapAngle,
  wrapDirection,
} from "@bothtacks/core";

/** An invented afternoon: a boat whose only faults are upwash and the anemometer, in a wind that does as winds do. */
export interface Afternoon {
  readonly seed: number;
  /** Upwash that she has, °, and how much too little the anemometer shows, %. */
  readonly upwash: number;
  readonly windLow: number;
  /** How far the wind veers from the first row to the last, °. */
  readonly veer: number;
  /** How much the wind's strength varies, standard deviation, %. */
  readonly gusts: number;
  /** How unevenly she is steered upwind, standard deviation, °. */
  readonly steering: number;
}

/** A minute of sailing, as its instruments showed it. */
export interface SailedRow {
  /** Middle of the row, s from the start. */
  readonly time: number;
  readonly tack: 1 | -1;
  readonly isUpwind: boolean;
  readonly heading: number;
  readonly awa: number;
  readonly aws: number;
  readonly stw: number;
}

/** What the rows make of the wind with a pair of settings. */
export interface MadeWind {
  /** rad, from the first row's, m/s, rad to the bow. */
  readonly direction: number;
  readonly speed: number;
  readonly angle: number;
}

export const MINUTE = 60;

/** Minutes on each leg: starboard +, port −; the first lap goes mostly to starboard tack, the second mostly to port. */
const UPWIND_LEGS = [12, -4, 10, -5, -12, 5, -10, 4];
const DOWNWIND_LEGS = [9, -9];

const legs = [
  ...UPWIND_LEGS.slice(0, 4).map((minutes) => ({ minutes, isUpwind: true })),
  ...DOWNWIND_LEGS.map((minutes) => ({ minutes, isUpwind: false })),
  ...UPWIND_LEGS.slice(4).map((minutes) => ({ minutes, isUpwind: true })),
  ...DOWNWIND_LEGS.map((minutes) => ({ minutes, isUpwind: false })),
];

const vaneOf = (upwash: number): VaneParameters => ({ ...noCorrections.vane, upwash: radians(upwash) });

/** No boat's in particular, kn: fastest abeam. */
const boatSpeed = (angle: number, wind: number): number =>
  7.5 * (1 - Math.exp(-wind / 7)) * (0.75 + 0.25 * Math.sin(angle) ** 2);

/** Rows of an afternoon; the same for everyone who has its number. Never throws for a whole seed. */
export function afternoonRows(given: Afternoon): readonly SailedRow[] {
  const { normal } = randomNumbers(given.seed, 7);
  const plan = legs.flatMap(({ minutes, isUpwind }) =>
    Array.from({ length: Math.abs(minutes) }, () => ({ tack: Math.sign(minutes) as 1 | -1, isUpwind })),
  );
  let [turned, stronger] = [0, 0];
  return plan.map(({ tack, isUpwind }, row) => {
    turned += radians(0.6) * normal();
    stronger += 0.15 * (given.gusts / 100) * normal();
    const slow = turned + radians((given.veer * row) / (plan.length - 1));
    const wind: Wind = {
      direction: wrapDirection(slow + radians(2) * normal()),
      speed: metresPerSecond(14 * Math.exp(stronger + (given.gusts / 100) * normal())),
    };
    const sailed = radians(isUpwind ? 42 + given.steering * normal() : 150 + 4 * normal());
    const heading = wrapDirection(slow - tack * sailed);
    const speed = metresPerSecond(boatSpeed(sailed, 14 * Math.exp(stronger)));
    const felt = apparentWind(wind, heading, { direction: heading, speed });
    return {
      time: MINUTE * (row + 0.5),
      tack,
      isUpwind,
      heading,
      awa: vaneReadingOf(felt.angle, felt.speed, vaneOf(given.upwash)) + radians(0.3) * normal(),
      aws: felt.speed * (1 - given.windLow / 100) * (1 + 0.005 * normal()),
      stw: speed,
    };
  });
}

/**
 * The wind that the rows make with an upwash, °, taken off the vane and a factor on the anemometer. Never throws.
 */
export function madeWinds(rows: readonly SailedRow[], upwash: number, gain: number): readonly MadeWind[] {
  const vane = vaneOf(upwash);
  let north = Number.NaN;
  return rows.map(({ heading, awa, aws, stw }) => {
    const speed = gain * aws;
    const felt = { angle: flowAngleFromReading(awa, speed, vane), speed };
    const wind = windOverWater(felt, heading, { direction: heading, speed: stw });
    if (Number.isNaN(north)) north = wind.direction;
    return {
      direction: wrapAngle(wind.direction - north),
      speed: wind.speed,
      angle: wrapAngle(wind.direction - heading),
    };
  });
}

/** Standard deviation about the mean. Never throws; NaN of nothing. */
export function scatterOf(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
}

/** How a quantity wanders over the rows. */
export interface Wander {
  /** What it turns by from one row to the next, for good; standard deviation. */
  readonly slow: number;
  /** What each row has beside, gusts of its own minute; standard deviation. */
  readonly own: number;
}

/** How a quantity varies from row to row, when its slow wander is known only from the rows before: M44. Never throws. */
export function whitenedScatter(
  rows: readonly SailedRow[],
  values: readonly number[],
  wander: Wander,
): number {
  const innovations = whitened(rows, values, wander);
  return Math.sqrt(innovations.reduce((sum, one) => sum + one * one, 0) / (rows.length - 1));
}

/** Standardised innovations of values over the rows, the first being 0. Never throws. */
export function whitened(
  rows: readonly SailedRow[],
  values: readonly number[],
  wander: Wander,
): Float64Array {
  const out = new Float64Array(rows.length);
  const times = Float64Array.from(rows, ({ time }) => time);
  const durations = new Float64Array(rows.length).fill(MINUTE);
  const errors = new Float64Array(rows.length).fill(wander.own ** 2);
  const model = { slow: wander.slow / Math.sqrt(MINUTE), fast: 0, fastSeconds: MINUTE };
  whiten(model, times, durations, errors, Float64Array.from(values), out);
  return out;
}

/** Where along a grid a curve is lowest. Never throws. */
export const lowestAt = (grid: readonly number[], curve: readonly number[]): number =>
  grid[curve.indexOf(Math.min(...curve))] ?? Number.NaN;

/** The same rows with the readings that are usual for their tack and point of sailing, each on its own heading. Never throws. */
export function usualRows(rows: readonly SailedRow[]): readonly SailedRow[] {
  const usual = (like: SailedRow, what: "awa" | "aws" | "stw"): number => {
    const own = rows.filter(({ tack, isUpwind }) => tack === like.tack && isUpwind === like.isUpwind);
    return own.reduce((sum, row) => sum + row[what], 0) / own.length;
  };
  return rows.map((row) => ({
    ...row,
    awa: usual(row, "awa"),
    aws: usual(row, "aws"),
    stw: usual(row, "stw"),
  }));
}
