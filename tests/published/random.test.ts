/**
 * The generator of random numbers (M70).
 * SOURCE: the words that the authors' own program xoshiro128starstar.c, version 1.1, puts out from the state 1, 2, 3, 4.
 * STATUS: second-hand, through the test of the Rust package rand_xoshiro (src/xoshiro128starstar.rs), which names that program.
 * MARGIN: none, whole numbers.
 */
import { expect } from "vitest";
import { xoshiro128StarStar } from "../../packages/core/src/simulate/random.ts";
import { published } from "../support/published.ts";

const WORDS = [
  11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
];

published(
  "the first ten words of xoshiro128** from the state 1, 2, 3, 4",
  "D. Blackman, S. Vigna: xoshiro128starstar.c 1.1, second-hand through the test of the Rust package rand_xoshiro",
  () => {
    const next = xoshiro128StarStar([1, 2, 3, 4]);
    expect(WORDS.map(() => next())).toEqual(WORDS);
  },
);
