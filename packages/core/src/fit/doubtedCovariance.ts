import { withDoubtOfLaws } from "./doubtOfPriors.ts";
import { withDoubtOfScales } from "./doubtOfScales.ts";
import type { FitSetting } from "./fitSetting.ts";
import type { Settled } from "./settle.ts";

/**
 * Posterior covariance of all that a fit leaves free, with the doubt of its scales of wander (M192) and of what the laws leave out (M184).
 *
 * @returns row-major. Never throws.
 */
export const doubtedCovariance = (settled: Settled, setting: FitSetting): Float64Array =>
  withDoubtOfLaws(withDoubtOfScales(settled, setting), setting.free);
