import type { Seconds } from "../units.ts";

/** The mean of a series whose values hang together over time. */
export interface CorrelatedMean {
  readonly mean: number;
  /** Standard deviation of one value. */
  readonly spread: number;
  /** Over how long one value tells of the next: n · step / (number of independent values that n are worth). */
  readonly correlation: Seconds;
  /** Standard deviation of the mean, as far as the series itself shows it. */
  readonly deviation: number;
  /** Whether the series lasts long enough, twenty correlation times, to show its own correlation. */
  readonly isLong: boolean;
}

/** A series shorter than this many correlation times does not show how slowly it wanders. */
const LONG = 20;

/**
 * M128. Mean of a series at equal steps, its standard deviation from the sum of autocorrelations up to where pairs of them fall to nothing:
 * variance of the mean = variance / n · (1 + 2 Σ ρₖ).
 *
 * @param values NaN where one is missing
 * @param step between values
 * @returns NaN throughout where fewer than three are there. Never throws.
 * @see C. J. Geyer, 1992: Practical Markov Chain Monte Carlo, Statistical Science 7 (the initial positive sequence)
 */
export function correlatedMean(values: ArrayLike<number>, step: Seconds): CorrelatedMean {
  const there = Array.from(values).filter(Number.isFinite);
  const none = Number.NaN;
  if (there.length < 3)
    return { mean: none, spread: none, correlation: none, deviation: none, isLong: false };
  const mean = there.reduce((sum, value) => sum + value, 0) / there.length;
  const variance = there.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (there.length - 1);
  const correlations = 1 + 2 * sumOfCorrelations(values, mean, variance);
  const correlation = step * Math.max(1, correlations);
  const worth = Math.max(1, (there.length * step) / correlation);
  return {
    mean,
    spread: Math.sqrt(variance),
    correlation,
    deviation: Math.sqrt(variance / worth),
    isLong: there.length * step >= LONG * correlation,
  };
}

/** Σ ρₖ from 1, up to where ρ at an even lag and the next together are no longer positive, or half of the series. */
function sumOfCorrelations(values: ArrayLike<number>, mean: number, variance: number): number {
  if (!(variance > 0)) return 0;
  const last = Math.floor(values.length / 2);
  let sum = 0;
  for (let lag = 1; lag < last; lag += 2) {
    const pair = correlationAt(values, mean, variance, lag) + correlationAt(values, mean, variance, lag + 1);
    if (!(pair > 0)) break;
    sum += pair;
  }
  return sum;
}

function correlationAt(values: ArrayLike<number>, mean: number, variance: number, lag: number): number {
  let [sum, count] = [0, 0];
  for (let at = 0; at + lag < values.length; at++) {
    const product = (values[at]! - mean) * (values[at + lag]! - mean);
    if (Number.isNaN(product)) continue;
    sum += product;
    count += 1;
  }
  return count > 0 ? sum / count / variance : 0;
}
