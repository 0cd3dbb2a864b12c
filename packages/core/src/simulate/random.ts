/** Random numbers that are the same on every machine: M70. */

const WORD = 2 ** 32;

/** The odd number nearest to 2³² over the golden ratio: steps that spread counters evenly. */
const GOLDEN_STEP = 0x9e3779b9;

/** A. Appleby's finalizer of MurmurHash3: mixes the 32 bits of a word so that near words come out unlike. */
function mixed(word: number): number {
  let bits = word;
  bits = Math.imul(bits ^ (bits >>> 16), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
  return (bits ^ (bits >>> 16)) >>> 0;
}

const rotated = (word: number, by: number): number => (word << by) | (word >>> (32 - by));

/**
 * M70. The sequence of 32-bit words of the generator xoshiro128** from a state of four words, not all 0.
 *
 * @returns a function that gives the next word, 0 to 2³² − 1. Never throws.
 * @see D. Blackman, S. Vigna, 2021: Scrambled Linear Pseudorandom Number Generators, ACM Transactions on Mathematical
 *   Software 47
 */
export function xoshiro128StarStar(state: readonly [number, number, number, number]): () => number {
  let [s0, s1, s2, s3] = state;
  return () => {
    const word = Math.imul(rotated(Math.imul(s1, 5), 7), 9) >>> 0;
    const shifted = s1 << 9;
    s2 ^= s0;
    s3 ^= s1;
    s1 ^= s2;
    s0 ^= s3;
    s2 ^= shifted;
    s3 = rotated(s3, 11);
    return word;
  };
}

/** Numbers drawn one after another. */
export interface RandomNumbers {
  /** Evenly between two numbers, neither of them. */
  readonly between: (least: number, most: number) => number;
  /** Normally distributed with mean 0 and standard deviation 1. */
  readonly normal: () => number;
  /** True with a probability. */
  readonly chance: (probability: number) => boolean;
}

/** A state that differs in all its words for every seed and stream. */
function stateOf(seed: number, stream: number): readonly [number, number, number, number] {
  const high = mixed(Math.floor(seed / WORD) >>> 0);
  const start = mixed(mixed((seed >>> 0) ^ high) + Math.imul(stream + 1, GOLDEN_STEP));
  const word = (place: number): number => mixed(start + Math.imul(place, GOLDEN_STEP));
  return [word(1), word(2), word(3), word(4) | 1];
}

/**
 * M70. Repeatable random numbers. Streams of one seed are unlike each other, so that what one part of a simulation
 * draws changes nothing in another.
 *
 * @param seed a whole number from 0 to 2⁵³ − 1
 * @param stream a small whole number
 * @throws RangeError where the seed is none
 * @see G. Marsaglia, T. A. Bray, 1964: A Convenient Method for Generating Normal Variables, SIAM Review 6
 * @example
 * randomNumbers(5, 0).between(0, 1) === randomNumbers(5, 0).between(0, 1) // true
 */
export function randomNumbers(seed: number, stream: number): RandomNumbers {
  if (!Number.isSafeInteger(seed) || seed < 0)
    throw new RangeError(`randomNumbers: seed must be a whole number from 0 to 2^53 − 1, got ${seed}`);
  const next = xoshiro128StarStar(stateOf(seed, stream));
  const between = (least: number, most: number): number => least + ((most - least) * (next() + 0.5)) / WORD;
  let spare = Number.NaN;
  const normal = (): number => {
    if (!Number.isNaN(spare)) {
      const kept = spare;
      spare = Number.NaN;
      return kept;
    }
    for (;;) {
      const [x, y] = [between(-1, 1), between(-1, 1)];
      const square = x * x + y * y;
      if (square >= 1) continue;
      const stretch = Math.sqrt((-2 * Math.log(square)) / square);
      spare = y * stretch;
      return x * stretch;
    }
  };
  return { between, normal, chance: (probability) => between(0, 1) < probability };
}
