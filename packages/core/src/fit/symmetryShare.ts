import type { SymmetryShare } from "../calibration/calibration.ts";
import { doubtedCovariance } from "./doubtedCovariance.ts";
import { errorsOfFree } from "./doubtOfPriors.ts";
import { errorOfDays } from "./scalarEvidence.ts";
import { INDEX_OF } from "./settingsVector.ts";
import { type Settled, type SettleRequest, settleInSteps } from "./settle.ts";
import type { Steps } from "./steps.ts";

/** Days in all that the navigator is told of. */
const SEVERAL = 3;

/**
 * M56. What symmetry of sailing did for the masthead offset: the fit once more without it, from where it came to rest. With
 * n days the symmetry's own variance is shared² + day²/n; what else tells the offset is left as it is.
 *
 * In steps, a round of the fit each.
 *
 * @returns undefined where symmetry was not used, or the fit without it did not come to rest
 * @throws what `signal` throws when it is aborted
 */
export function* symmetryShare(
  best: Settled,
  request: Omit<SettleRequest, "start">,
): Steps<SymmetryShare | undefined> {
  const used = best.scalars.filter(({ name }) => name === "symmetry of sailing");
  if (used.length === 0) return undefined;
  const setting = { ...request, context: { ...request.context, symmetry: false } };
  const without = yield* settleInSteps({ ...setting, start: best.vector });
  const offset = INDEX_OF["vane.mastheadOffset"];
  const place = request.free.indexOf(offset);
  if (!without.atRest || place < 0) return undefined;
  const errors = errorsOfFree(doubtedCovariance(without, setting), request.free);
  const variance = errors[place * (request.free.length + 1)]!;
  const days = Math.max(SEVERAL, used.length);
  const withDays = 1 / Math.sqrt(1 / variance + 1 / errorOfDays(used[0]!.error, days) ** 2);
  return {
    days: used.length,
    without: { value: without.vector[offset]!, sd: Math.sqrt(variance) },
    withDays: { days, sd: withDays },
  };
}
