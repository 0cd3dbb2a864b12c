/**
 * Probabilities of 0 to n successes in n trials, by their ratios from the likeliest count on, so that none over- or underflows on the way.
 */
function binomialProbabilities(trials: number, chance: number): Float64Array {
  const relative = new Float64Array(trials + 1);
  const odds = chance / (1 - chance);
  const likeliest = Math.min(trials, Math.floor((trials + 1) * chance));
  relative[likeliest] = 1;
  for (let count = likeliest; count < trials; count++)
    relative[count + 1] = (relative[count]! * odds * (trials - count)) / (count + 1);
  for (let count = likeliest; count > 0; count--)
    relative[count - 1] = (relative[count]! * count) / (odds * (trials - count + 1));
  const sum = relative.reduce((total, value) => total + value, 0);
  return relative.map((value) => value / sum);
}

/** Counts as likely as the one found, but for rounding, count as such. */
const ROUNDING = 1 + 1e-7;

/**
 * M175. Exact test of a share: the probability of all counts that are no likelier than the one found.
 *
 * @param chance in (0, 1), of each of `trials` independent ones
 * @returns 1 for no trials. Never throws.
 */
export function binomialTest(successes: number, trials: number, chance: number): number {
  const probabilities = binomialProbabilities(trials, chance);
  const limit = probabilities[successes]! * ROUNDING;
  return Math.min(
    1,
    probabilities.reduce((sum, value) => sum + (value <= limit ? value : 0), 0),
  );
}

/** Probability of so many successes or more. Never throws. */
export const binomialTail = (successes: number, trials: number, chance: number): number =>
  binomialProbabilities(trials, chance)
    .subarray(successes)
    .reduce((sum, value) => sum + value, 0);
