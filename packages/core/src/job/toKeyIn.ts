import type { ToKeyIn } from "../calibration/recordFiles.ts";
import type { Seconds } from "../units.ts";
import type { Calibrated } from "./answerOf.ts";

/**
 * What a solved answer asks to be keyed in, as the instruments take it (M137).
 *
 * @param made when, s since 1970 UTC
 * @returns undefined where the fit is unsolved. Never throws.
 */
export const toKeyIn = ({ answer, tables }: Calibrated, made: Seconds): ToKeyIn | undefined =>
  tables && {
    made,
    madeFrom: answer.recording.files,
    settings: { base: answer.base, active: tables.rounding.settings },
  };
