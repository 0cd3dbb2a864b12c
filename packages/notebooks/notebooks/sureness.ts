import { type ConfoundedGroup, confoundedGroups, metresPerSecond, randomNumbers } from "@bothtacks/core";

/** Half of a 95 % interval of a normal distribution, in standard deviations. */
export const HALF_95 = 1.96;

/** The same for an ellipse: the square root of the 95 % point of χ² with two degrees of freedom, √(−2 ln 0.05). */
const HALF_ELLIPSE_95 = Math.sqrt(-2 * Math.log(0.05));

/** Means of the differences at some tacks, one mean an afternoon. Never throws for a whole seed. */
export function afternoonMeans(seed: number, count: number, tacks: number, scatter: number, truth: number) {
  const { normal } = randomNumbers(seed, 11);
  return Array.from({ length: count }, () => {
    let sum = 0;
    for (let tack = 0; tack < tacks; tack++) sum += truth + scatter * normal();
    return sum / tacks;
  });
}

/** How much a minute's value has in common with that of the next, where it remembers for so many minutes; 0: nothing. */
const likeNext = (memory: number): number => (memory === 0 ? 0 : Math.exp(-1 / memory));

/** Means of minutes that hang together, one an afternoon; each minute scatters alike. Never throws for a whole seed. */
export function rememberingMeans(
  seed: number,
  count: number,
  minutes: number,
  scatter: number,
  memory: number,
) {
  const { normal } = randomNumbers(seed, 12);
  const like = likeNext(memory);
  const fresh = scatter * Math.sqrt(1 - like * like);
  return Array.from({ length: count }, () => {
    let value = scatter * normal();
    let sum = value;
    for (let minute = 1; minute < minutes; minute++) {
      value = like * value + fresh * normal();
      sum += value;
    }
    return sum / minutes;
  });
}

/** Standard deviation of such a mean: of each pair of minutes it counts what the two have in common. Never throws. */
export function rememberingSd(minutes: number, scatter: number, memory: number): number {
  const like = likeNext(memory);
  let sum = minutes;
  for (let apart = 1; apart < minutes; apart++) sum += 2 * (minutes - apart) * like ** apart;
  return (scatter * Math.sqrt(sum)) / minutes;
}

/** What is known before or after, as a normal distribution. */
export interface Known {
  readonly mean: number;
  readonly sd: number;
}

/** Two pieces of knowledge put together, each weighing by 1 / sd². Never throws. */
export function together(one: Known, other: Known): Known {
  const [a, b] = [1 / one.sd ** 2, 1 / other.sd ** 2];
  return { mean: (a * one.mean + b * other.mean) / (a + b), sd: 1 / Math.sqrt(a + b) };
}

/** 1 − (sd after / sd before)². Never throws. */
export const informedShare = (before: number, after: number): number => 1 - (after / before) ** 2;

/** Pairs of runs at one speed, kn, each pair telling the log's error there to `sd`, kn. */
export interface Runs {
  readonly speed: number;
  readonly pairs: number;
  readonly sd: number;
}

/** What is known of a log's two numbers: intercept in kn, gain in percent. */
export interface LogKnown {
  readonly intercept: Known;
  readonly gain: Known;
  /** Covariance of the two, kn · %. */
  readonly common: number;
}

/** What is usual for a log before any run: as the library's fit has it (M46). */
export const LOG_BEFORE: LogKnown = {
  intercept: { mean: 0.2, sd: 0.2 },
  gain: { mean: 0, sd: 6 },
  common: 0,
};

/** The log that the runs are made with. */
export const LOG_TRUTH = { intercept: 0.35, gain: 4 } as const;

/**
 * What runs tell of the log beside what is usual; they happen to hit the truth, so that only the doubt shows. Its error at a speed v is
 * intercept + gain · v / 100. Never throws.
 */
export function logKnown(runs: readonly Runs[]): LogKnown {
  const { intercept, gain } = LOG_BEFORE;
  let [ii, ig, gg] = [1 / intercept.sd ** 2, 0, 1 / gain.sd ** 2];
  let [i, g] = [ii * intercept.mean, gg * gain.mean];
  for (const { speed, pairs, sd } of runs) {
    const [weight, slope] = [pairs / sd ** 2, speed / 100];
    const error = LOG_TRUTH.intercept + LOG_TRUTH.gain * slope;
    ii += weight;
    ig += weight * slope;
    gg += weight * slope ** 2;
    i += weight * error;
    g += weight * slope * error;
  }
  const determinant = ii * gg - ig * ig;
  return {
    intercept: { mean: (gg * i - ig * g) / determinant, sd: Math.sqrt(gg / determinant) },
    gain: { mean: (ii * g - ig * i) / determinant, sd: Math.sqrt(ii / determinant) },
    common: -ig / determinant,
  };
}

/** Standard deviation of the log's error at a speed, kn. Never throws. */
export const errorSd = ({ intercept, gain, common }: LogKnown, speed: number): number =>
  Math.sqrt(intercept.sd ** 2 + (speed / 100) ** 2 * gain.sd ** 2 + 2 * (speed / 100) * common);

/** The ellipse that holds both numbers in 95 of 100 cases, point by point. Never throws. */
export function ellipseOf({ intercept, gain, common }: LogKnown) {
  const like = common / (intercept.sd * gain.sd);
  return Array.from({ length: 73 }, (_, step) => {
    const turn = (step * Math.PI) / 36;
    const along = HALF_ELLIPSE_95 * Math.cos(turn);
    const across = HALF_ELLIPSE_95 * Math.sin(turn);
    return {
      gain: gain.mean + gain.sd * along,
      intercept: intercept.mean + intercept.sd * (like * along + Math.sqrt(1 - like * like) * across),
    };
  });
}

/** What the library says of two numbers that can hardly be told apart (M82); none where they can. Never throws. */
export function groupsOf({ intercept, gain, common }: LogKnown): readonly ConfoundedGroup[] {
  const [kn, percent] = [metresPerSecond(1), 0.01];
  const parameter = (name: "speed.intercept" | "speed.gain", known: Known, before: Known, unit: number) => ({
    name,
    value: known.mean * unit,
    sd: known.sd * unit,
    priorMean: before.mean * unit,
    priorSd: before.sd * unit,
    informed: informedShare(before.sd, known.sd),
  });
  return confoundedGroups({
    parameters: [
      parameter("speed.intercept", intercept, LOG_BEFORE.intercept, kn),
      parameter("speed.gain", gain, LOG_BEFORE.gain, percent),
    ],
    covariance: Float64Array.of(
      (intercept.sd * kn) ** 2,
      common * kn * percent,
      common * kn * percent,
      (gain.sd * percent) ** 2,
    ),
  });
}

/** Masthead offset, °, from sails on some days: what a sail tells to `sd`, and each day's own shear. Never throws. */
export const offsetSd = (sails: number, days: number, sd: number, shear: number): number =>
  Math.sqrt(sd ** 2 / sails + shear ** 2 / days);
