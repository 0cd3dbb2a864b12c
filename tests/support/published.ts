import { expect, it } from "vitest";

/**
 * A test against a number that someone else published; the source stands in the test's name.
 *
 * @param what the quantity that is compared
 * @param source who published it: author, year, title, table or page; "second-hand through …" where it was not read
 *   in the original
 */
export function published(what: string, source: string, body: () => void | Promise<void>): void {
  if (what.trim() === "" || source.trim() === "")
    throw new TypeError("published: needs a quantity and the source of its value");
  it(`${what} [${source}]`, body);
}

/**
 * Asserts that a number lies within a margin of the one expected, ends included.
 *
 * @param within margin in the unit of the numbers, not negative
 * @param because why the margin is this wide and no wider; shown when the numbers disagree
 */
export function agrees(actual: number, expected: number, within: number, because: string): void {
  if (!Number.isFinite(expected) || !(within >= 0) || within === Infinity)
    throw new RangeError(`agrees: expected value and margin must be finite, got ${expected} ± ${within}`);
  if (because.trim() === "") throw new TypeError("agrees: a margin needs a reason");
  const difference = Math.abs(actual - expected);
  if (!(difference <= within))
    expect.fail(`${actual} is ${difference} from ${expected}; allowed ${within}, because: ${because}`);
}
