import type { Seconds } from "../units.ts";

/** Stays up to this long are counted one by one; longer ones together. */
const LONGEST_COUNTED: Seconds = 600;

/** How long a sensor keeps one value: how many of its stays lasted 0, 1, 2 … 600 s and more. */
export type StayLengths = Uint32Array;

export const stayLengths = (): StayLengths => new Uint32Array(LONGEST_COUNTED + 1);

/** Counts a stay. Never throws. */
export function countStay(lengths: StayLengths, seconds: Seconds): void {
  const length = Math.min(LONGEST_COUNTED, Math.max(1, Math.round(seconds)));
  lengths[length]! += 1;
}

/** The stays of several parts of a recording together. Never throws. */
export const stayLengthsOf = (parts: readonly StayLengths[]): StayLengths =>
  stayLengths().map((_, length) => parts.reduce((sum, part) => sum + part[length]!, 0));

/** Quantiles that tell the tail, and the chance of so long a stay that is still taken for the sensor's habit. */
const [USUAL, RARE] = [0.9, 0.99] as const;
const CHANCE = 1e-3;

/** Stays come in company (a calm spell, a smooth leg): what is rare by the tail alone is met twice as long. */
const COMPANY = 2;

function quantile(lengths: StayLengths, stays: number, share: number): Seconds {
  let below = 0;
  for (let length = 1; length <= LONGEST_COUNTED; length++) {
    below += lengths[length]!;
    if (below >= share * stays) return length;
  }
  return LONGEST_COUNTED;
}

/**
 * M90. Length (s) that no stay of a sensor that works exceeds, but for a chance of 1 in 1000 in the whole recording: quantiles of
 * 90 and 99 % give the scale τ of a tail that falls as exp(−length / τ); twice (L₉₀ + τ ln(stays / chance)), at most 600 s: a
 * recording whose sensor is dead from the start has few stays to go by. Never throws.
 */
export function longestUsualStay(lengths: StayLengths): Seconds {
  const stays = lengths.reduce((sum, count) => sum + count, 0);
  const [usual, rare] = [quantile(lengths, stays, USUAL), quantile(lengths, stays, RARE)];
  const scale = Math.max(1, rare - usual) / Math.log((1 - USUAL) / (1 - RARE));
  return Math.min(LONGEST_COUNTED, COMPANY * (usual + scale * Math.log(Math.max(1, stays) / CHANCE)));
}
