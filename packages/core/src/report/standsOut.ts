import { probit } from "simple-statistics";
import type { Estimate } from "./estimate.ts";
import { HALF_WIDTH_95, LEARNT } from "./format.ts";

/** The share of faultless boats whose table or card may be called for all the same. */
const FALSE_ALARMS = 0.05;

/**
 * M65. Whether, of many entries looked at together, any is further from what stands there than chance would bring it: beyond
 * the standard deviations that a normal number exceeds with probability 0.05 / n, n the entries learnt.
 *
 * @param changes what is asked for, less what stands there
 * @returns false without entries. Never throws.
 */
export function anyStandsOut(changes: readonly Estimate[]): boolean {
  const learnt = changes.filter(({ informed }) => informed >= LEARNT);
  const limit = probit(1 - FALSE_ALARMS / (2 * Math.max(1, learnt.length)));
  return learnt.some(({ value, sd }) => Math.abs(value) > limit * sd);
}

/** Whether an entry is no more than its own doubt. Never throws. */
export const isWithinDoubt = ({ value, sd }: Estimate): boolean => Math.abs(value) <= HALF_WIDTH_95 * sd;
