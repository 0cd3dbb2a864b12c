/**
 * SOURCE: NIST/SEMATECH e-Handbook of Statistical Methods, lower critical values of χ².
 * STATUS: second-hand through the appendix of a textbook that reprints them (its table 7b).
 * INPUTS: degrees of freedom 1 to 50, probabilities 0.90 to 0.999 of exceeding.
 * MARGIN: the table's last digit, half of 0.001, times the largest density there, 0.25, is 1.3e-4; and 2e-6 of the error function.
 */
import { describe } from "vitest";
import { chiSquareTail } from "../../packages/core/src/judge/chiSquare.ts";
import { agrees, published } from "../support/published.ts";

/** Degrees of freedom, and what is exceeded with probabilities 0.90, 0.95, 0.975 and 0.99. */
const TABLE: readonly (readonly [number, ...number[]])[] = [
  [4, 1.064, 0.711, 0.484, 0.297],
  [5, 1.61, 1.145, 0.831, 0.554],
  [9, 4.168, 3.325, 2.7, 2.088],
  [10, 4.865, 3.94, 3.247, 2.558],
  [19, 11.651, 10.117, 8.907, 7.633],
  [20, 12.443, 10.851, 9.591, 8.26],
  [50, 37.689, 34.764, 32.357, 29.707],
];
const PROBABILITIES = [0.9, 0.95, 0.975, 0.99];

describe("the tail of χ² (M80)", () => {
  for (const [freedom, ...values] of TABLE)
    published(
      `${freedom} degrees of freedom`,
      "NIST/SEMATECH e-Handbook of Statistical Methods, lower critical values, second-hand through a textbook's appendix",
      () =>
        values.forEach((value, at) => {
          agrees(chiSquareTail(value, freedom), PROBABILITIES[at]!, 1.4e-4, "half of the table's last digit");
        }),
    );
});
