import type { Boat } from "../calibration/boat.ts";
import type { Calibration } from "../calibration/calibration.ts";
import type { Seconds } from "../units.ts";
import type { Answer } from "./answer.ts";

/**
 * What an answer leaves for later: the calibration to be written to a file; undefined where the fit is unsolved.
 * Never throws.
 *
 * @param made when, s since 1970 UTC
 * @example
 * calibrationOf(answer, boat, 1_790_000_000).made // 1_790_000_000
 */
export function calibrationOf(answer: Answer, boat: Boat, made: Seconds): Calibration | undefined {
  const { recording, fit, before, after, base, active } = answer;
  if (fit.status !== "solved" || after === undefined) return undefined;
  const settings = { base, active };
  return {
    made,
    boat: { ...boat, settings },
    recording: {
      files: recording.files,
      start: recording.start,
      end: recording.end,
      lines: recording.lines,
      chosen: recording.chosen,
      directionsAre: recording.directionsAre,
    },
    settings,
    fit,
    before,
    after,
    notes: answer.words.notes,
  };
}
