import type { Seconds } from "../units.ts";

/** Below this ratio of duration to time scale the differences of nearly equal numbers give way to their series. */
const SHORT = 1e-3;

/**
 * M44. The mean of an Ornstein-Uhlenbeck process of unit variance over a duration, together with its value at the end,
 * both given the value at the start: mean = onMean · start + noise, end = onEnd · start + noise. With x = duration / time
 * scale: onEnd = e⁻ˣ, onMean = (1 − e⁻ˣ) / x, and the noises have the variances and covariance below.
 */
export interface AveragedStep {
  onMean: number;
  onEnd: number;
  /** ρ − onMean², where ρ = 2 (x − 1 + e⁻ˣ) / x² is the variance of the mean. */
  meanVariance: number;
  /** 1 − e⁻²ˣ. */
  endVariance: number;
  /** onMean · (1 − onEnd). */
  covariance: number;
}

/**
 * M44. Writes the step over a duration into `out`.
 *
 * @param duration s, not negative
 * @param timeScale s, positive
 * Never throws; NaN in, NaN out.
 * @see D. T. Gillespie, 1996: Exact numerical simulation of the Ornstein-Uhlenbeck process and its integral, Physical
 *   Review E 54, 2084-2091
 */
export function averagedStep(duration: Seconds, timeScale: Seconds, out: AveragedStep): void {
  const x = duration / timeScale;
  const fallen = -Math.expm1(-x);
  out.onEnd = 1 - fallen;
  out.endVariance = -Math.expm1(-2 * x);
  if (x < SHORT) {
    out.onMean = 1 - x / 2 + (x * x) / 6;
    out.meanVariance = (2 * x) / 3 - (x * x) / 2 + (7 * x ** 3) / 30;
  } else {
    out.onMean = fallen / x;
    out.meanVariance = (2 * (x - fallen)) / (x * x) - out.onMean ** 2;
  }
  out.covariance = out.onMean * fallen;
}
