import type { Calibration } from "../calibration/calibration.ts";
import { comparability } from "./comparable.ts";
import { type Comparison, compareFits, hasMoved } from "./compare.ts";

/** Two calibrations of a history, the earlier recording first, with what has moved between them. */
export interface ComparedCalibrations {
  readonly then: Calibration;
  readonly now: Calibration;
  readonly comparison: Comparison;
  readonly notes: readonly string[];
  readonly heelTurned: boolean;
}

/** Calibrations compared in the order of time, or why they cannot be. */
export type History =
  | { readonly status: "compared"; readonly pairs: readonly ComparedCalibrations[] }
  | {
      readonly status: "refused";
      /** A sentence's end, to stand after the names of the two files. */
      readonly reason: string;
      readonly then: Calibration;
      readonly now: Calibration;
    };

/** Each calibration against the one before it, and the last against the first where there are more than two. */
function pairsOf(ordered: readonly Calibration[]): readonly (readonly [Calibration, Calibration])[] {
  const steps = ordered
    .slice(1)
    .map((now, index): readonly [Calibration, Calibration] => [ordered[index]!, now]);
  return ordered.length > 2 ? [...steps, [ordered[0]!, ordered.at(-1)!]] : steps;
}

/**
 * What has moved from calibration to calibration, in the order of their recordings (M64); all comparisons share one level of false
 * alarms.
 *
 * @param calibrations two or more of one boat, in any order
 * @param nothingKeyedIn the user's word that no correction was keyed in between recordings of unknown corrections
 * @throws RangeError for fewer than two
 * @example
 * historyOf([calibration, { ...calibration, recording: { ...calibration.recording, start: calibration.recording.start + 86_400, end: calibration.recording.end + 86_400 } }], true).status // "compared"
 */
export function historyOf(calibrations: readonly Calibration[], nothingKeyedIn = false): History {
  if (calibrations.length < 2)
    throw new RangeError(`historyOf: needs two calibrations, got ${calibrations.length}`);
  const ordered = [...calibrations].sort((one, other) => one.recording.start - other.recording.start);
  const pairs = pairsOf(ordered);
  const compared: ComparedCalibrations[] = [];
  for (const [then, now] of pairs) {
    const can = comparability(then, now, nothingKeyedIn);
    if (can.status === "refused") return { status: "refused", reason: can.reason, then, now };
    const { notes, skipped, heelTurned } = can;
    const comparison = compareFits(then.fit, now.fit, { skipped, among: pairs.length });
    compared.push({ then, now, comparison, notes, heelTurned });
  }
  return { status: "compared", pairs: compared };
}

/**
 * What a history comes to: something moved; nothing did, as far as the data tell; or they tell of nothing. Never throws.
 *
 * @example
 * verdictOf([]) // "nothing moved"
 */
export function verdictOf(pairs: readonly ComparedCalibrations[]): "moved" | "nothing moved" | "not told" {
  if (pairs.some(({ comparison, heelTurned }) => heelTurned || hasMoved(comparison))) return "moved";
  return pairs.some(({ comparison }) => comparison.smallest.length === 0) ? "not told" : "nothing moved";
}
