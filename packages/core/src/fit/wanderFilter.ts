import type { Seconds } from "../units.ts";
import { type AveragedStep, averagedStep } from "./averagedWander.ts";

/** How a quantity wanders: a random walk that nothing bounds, and turbulence about it. */
export interface WanderModel {
  /** Random walk, unit of the quantity per √s. */
  readonly slow: number;
  /** Standard deviation of the turbulence (Ornstein-Uhlenbeck), unit of the quantity. */
  readonly fast: number;
  /** Its time scale, s. */
  readonly fastSeconds: Seconds;
}

/** s. After a silence so long nothing is known of the level again, exactly so; no recording has one by itself. */
export const FORGOTTEN: Seconds = 1e9;

/**
 * M44. Kalman filter of level and turbulence at the end of each row, without the values: variances and gains depend on
 * times and errors only, so that one pass serves any number of series. Of the level nothing is known before the first
 * row, exactly so: that row has an innovation of infinite variance and the gain 1. Likewise after a silence of FORGOTTEN.
 */
export class WanderFilter {
  /** Variance of the row's innovation; Infinity for the first row, and the first after all was forgotten. */
  variance = Number.POSITIVE_INFINITY;
  /** What of the turbulence at the end of the last row is left at the start of this. */
  kept = 1;
  /** Weight of the turbulence at the start of the row in the row's mean, and in its end. */
  onMean = 1;
  onEnd = 1;
  /** What of the innovation goes to the level and the turbulence at the end of the row. */
  levelGain = 1;
  gustGain = 0;
  readonly #fastSeconds: Seconds;
  readonly #walk: number;
  readonly #turbulence: number;
  readonly #step: AveragedStep = { onMean: 1, onEnd: 1, meanVariance: 0, endVariance: 0, covariance: 0 };
  /** Of the last row, since most last as long. */
  #duration: Seconds = Number.NaN;
  #levelVariance = 0;
  #gustVariance = 0;
  #covariance = 0;
  #end = Number.NEGATIVE_INFINITY;

  constructor({ slow, fast, fastSeconds }: WanderModel) {
    this.#fastSeconds = fastSeconds;
    this.#walk = slow ** 2;
    this.#turbulence = fast ** 2;
  }

  /**
   * Goes on to a row; a row that overlaps the last counts as touching it.
   *
   * @param time middle of the row, s
   * @param duration s
   * @param error variance of the row's own error, finite
   */
  advance(time: Seconds, duration: Seconds, error: number): void {
    if (duration !== this.#duration) averagedStep(duration, this.#fastSeconds, this.#step);
    this.#duration = duration;
    this.onMean = this.#step.onMean;
    this.onEnd = this.#step.onEnd;
    const start = time - duration / 2;
    const gap = Math.max(0, start - this.#end);
    if (gap >= FORGOTTEN) this.#begin(duration, error);
    else {
      this.#crossGap(gap);
      this.#observe(duration, error);
    }
    this.#end = Math.max(start + duration, this.#end);
  }

  /** The first row's value is the level at its end, but for turbulence, walk and error within it. */
  #begin(duration: Seconds, error: number): void {
    const { onMean, meanVariance } = this.#step;
    this.variance = Number.POSITIVE_INFINITY;
    this.kept = 0;
    this.levelGain = 1;
    this.gustGain = 0;
    this.#levelVariance =
      (this.#walk * duration) / 3 + this.#turbulence * (meanVariance + onMean ** 2) + error;
    this.#covariance = -this.#turbulence * onMean;
    this.#gustVariance = this.#turbulence;
  }

  #crossGap(gap: Seconds): void {
    this.kept = 1;
    if (gap === 0) return;
    this.kept = Math.exp(-gap / this.#fastSeconds);
    this.#levelVariance += this.#walk * gap;
    this.#covariance *= this.kept;
    this.#gustVariance = this.#turbulence + this.kept ** 2 * (this.#gustVariance - this.#turbulence);
  }

  /** The row's mean is predicted and seen, and level and turbulence at its end follow. */
  #observe(duration: Seconds, error: number): void {
    const { onMean, onEnd, meanVariance, endVariance, covariance } = this.#step;
    const levelWithMean = this.#levelVariance + onMean * this.#covariance;
    const gustWithMean = this.#covariance + onMean * this.#gustVariance;
    const within = (this.#walk * duration) / 3 + this.#turbulence * meanVariance + error;
    const level = levelWithMean + (this.#walk * duration) / 2;
    const gust = onEnd * gustWithMean + this.#turbulence * covariance;
    this.variance = levelWithMean + onMean * gustWithMean + within;
    this.levelGain = level / this.variance;
    this.gustGain = gust / this.variance;
    this.#levelVariance += this.#walk * duration - level * this.levelGain;
    this.#covariance = onEnd * this.#covariance - level * this.gustGain;
    this.#gustVariance =
      onEnd ** 2 * this.#gustVariance + this.#turbulence * endVariance - gust * this.gustGain;
  }
}
