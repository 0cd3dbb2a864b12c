import type { MetresPerSecond } from "../units.ts";
import { linearFit, toldBy } from "./linearFit.ts";
import { BOAT_PRIORS, type Prior } from "./priors.ts";

/** A straight run under power, the sails down, in a calm. */
export interface CalmRun {
  /** Through the water, from a log that is trusted. */
  readonly speed: MetresPerSecond;
  /** Mean wind speed that the anemometer showed. */
  readonly reading: MetresPerSecond;
  /** Mean cosine of its angle, a share, where a log tells it, and the reading is weighed by it: 1, right ahead, unless told. */
  readonly ahead?: number;
  /** 1 there, −1 back along the same line. */
  readonly way: 1 | -1;
}

/** What is stated of the runs beforehand, m/s and a share. */
export interface CalmOptions {
  /** Standard deviation of one run's speed against its reading, both together. */
  readonly deviation: MetresPerSecond;
  /** How well the boat speed's gain is known, one standard deviation. */
  readonly speedGain: number;
}

/**
 * Why runs in a calm cannot answer.
 *
 * @example
 * CALM_REFUSALS["no runs"].startsWith("there is no run") // true
 */
export const CALM_REFUSALS = {
  "no runs": "there is no run in which the cups turned",
  "one way": "all runs go one way, so that what wind there was cannot be told from the anemometer's error",
  "no calm": "the wind along the runs was more than a third of the boat's speed: this is no calm",
  "not told apart": "these runs do not tell threshold, gain and wind apart",
} as const;

/** One of the reasons of CALM_REFUSALS. */
export type CalmRefusal = keyof typeof CALM_REFUSALS;

/** An anemometer as runs in a calm tell it, m/s; gains are factors, with half 95 % intervals. */
export interface SolvedCalm {
  readonly status: "solved";
  readonly threshold: MetresPerSecond;
  readonly thresholdHalf: MetresPerSecond;
  readonly gain: number;
  readonly gainHalf: number;
  /** Wind that blew against the runs there. */
  readonly wind: MetresPerSecond;
  readonly atMean: { readonly reading: MetresPerSecond; readonly gain: number; readonly half: number };
  /** Truth over reading at any reading. */
  readonly gainAt: (reading: MetresPerSecond) => SolvedCalm["atMean"];
  readonly spare: number;
  readonly scatter: number;
}

/** What wind a calm may have along the runs, and the anemometer's usual gain and threshold (M46). */
const WIND: Prior = { mean: 0, sd: 1 };
const GAIN: Prior = { mean: 1, sd: BOAT_PRIORS["anemometer.gain"].sd };

/** A calm's wind is at most this share of the boat's speed: beyond it a wind from the side is felt, too. */
const CALM = 1 / 3;

/**
 * M133. Threshold and gain of an anemometer from motoring in a calm in both directions: on a run the air comes at the boat's speed, more by the
 * wind on the way there and less on the way back, (threshold + gain · reading) · ahead = speed + way · wind. Least squares with what is usual as prior rows.
 *
 * @returns `unsolved` with a reason of CALM_REFUSALS
 * @throws RangeError where a speed or reading is not finite, or negative
 *
 * @example
 * const runs = [[3, 2.8, 1], [3, 2.4, -1]].map(([speed, reading, way]) => ({ speed, reading, way }));
 * anemometerInCalm(runs, { deviation: 0.1, speedGain: 0.01 }).wind.toFixed(1) // "0.2"
 * anemometerInCalm(runs.slice(0, 1), { deviation: 0.1, speedGain: 0.01 }).reason // "one way"
 */
export function anemometerInCalm(
  runs: readonly CalmRun[],
  { deviation, speedGain }: CalmOptions,
): SolvedCalm | { readonly status: "unsolved"; readonly reason: CalmRefusal } {
  runs.forEach(({ speed, reading }, index) => {
    if (!(speed > 0 && reading >= 0 && speed + reading < Infinity))
      throw new RangeError(
        `anemometerInCalm: run ${index + 1} must have a speed above 0 and a reading, got ${speed}, ${reading}`,
      );
  });
  const turned = runs.filter(({ reading }) => reading > 0);
  if (turned.length === 0) return { status: "unsolved", reason: "no runs" };
  if (turned.every(({ way }) => way === turned[0]!.way)) return { status: "unsolved", reason: "one way" };
  const rows = turned.map(({ speed, reading, way, ahead = 1 }) => ({
    columns: [ahead, ahead * reading, -way],
    value: speed,
    deviation,
  }));
  const fit = linearFit(rows, [BOAT_PRIORS["anemometer.threshold"], GAIN, WIND]);
  if (fit.status === "unsolved") return { status: "unsolved", reason: "not told apart" };
  const wind = fit.values[2]!;
  if (Math.abs(wind) > CALM * Math.min(...turned.map(({ speed }) => speed)))
    return { status: "unsolved", reason: "no calm" };
  const mean = turned.reduce((sum, { reading }) => sum + reading, 0) / turned.length;
  const [threshold, gain] = [toldBy(fit, [1]), toldBy(fit, [0, 1])];
  const common = 1.96 * speedGain;
  const gainAt = (reading: MetresPerSecond): SolvedCalm["atMean"] => {
    const { value, half } = toldBy(fit, [1 / reading, 1]);
    return { reading, gain: value, half: Math.hypot(half, common * value) };
  };
  return {
    status: "solved",
    threshold: threshold.value,
    thresholdHalf: Math.hypot(threshold.half, common * threshold.value),
    gain: gain.value,
    gainHalf: Math.hypot(gain.half, common * gain.value),
    wind,
    atMean: gainAt(mean),
    gainAt,
    spare: fit.spare,
    scatter: fit.scatter,
  };
}
