import { type BlockScatter, blockScatter } from "./blockScatter.ts";
import type { FitSetting } from "./fitSetting.ts";
import { priorSds } from "./priors.ts";
import type { Settled } from "./settle.ts";

/** From this informed share on a parameter is learnt. */
const LEARNT = 0.5;

/**
 * M180. Beyond this the mean variance that blocks of legs show, over the posterior's, is hardly chance: of 24 simulated boats that kept to the fit's
 * physics none was above it, of the same 24 with a compass that turned and was set back all.
 */
const BEYOND_CHANCE = 1.25;

/** What the navigator is told then. */
export const LEGS_DIFFER =
  "Legs differ more than the fit expects, as they do when a sensor is moved under way or comes and goes: the intervals were widened.";

/** How intervals are widened where legs differ more than the fit expects. */
export interface Widening {
  /** Of the free parameters' standard deviations, 1 where nothing is widened. */
  readonly factors: Float64Array;
  /** A sentence for the navigator. */
  readonly note?: string;
}

/** Mean of the ratios of what was learnt; NaN where nothing was. */
function meanOfLearnt({ ratios }: BlockScatter, { free }: FitSetting, { covariance }: Settled): number {
  const priors = priorSds();
  const learnt = ratios.filter((_, place) => {
    const variance = covariance[place * (free.length + 1)]!;
    return 1 - variance / priors[free[place]!]! ** 2 >= LEARNT;
  });
  return learnt.reduce((sum, ratio) => sum + ratio, 0) / learnt.length;
}

/**
 * M180. What follows from the scatter of blocks of legs: where its mean m over what was learnt is beyond chance, variances grow by m · max(1, own ratio).
 *
 * Never throws.
 */
export function legsDiffer(settled: Settled, setting: FitSetting): Widening {
  const none = { factors: new Float64Array(setting.free.length).fill(1) };
  const scatter = blockScatter(settled, setting);
  if (scatter === undefined) return none;
  const mean = meanOfLearnt(scatter, setting, settled);
  if (!(mean > BEYOND_CHANCE)) return none;
  return {
    factors: scatter.ratios.map((ratio) => Math.sqrt(mean * Math.max(1, ratio))),
    note: LEGS_DIFFER,
  };
}
