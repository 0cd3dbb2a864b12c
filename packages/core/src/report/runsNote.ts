import type { BoatFit } from "../fit/boatFit.ts";
import { runsInLog } from "../fit/runsInLog.ts";
import { speedFromRuns } from "../fit/speedFromRuns.ts";
import { factorAt } from "../judge/evidence.ts";
import { knots, metresPerSecond } from "../units.ts";
import type { TableRow } from "./cells.ts";
import { counted, plain, signed } from "./format.ts";

/** What GPS, helm and display leave of error on a run, and the strongest stream that is taken for granted. Judgement. */
const OPTIONS = { deviation: metresPerSecond(0.05), stream: metresPerSecond(2) };

const percent = (share: number): string => signed(100 * share, 1);

/**
 * Straight runs under power both ways that the recording holds (M134), by themselves beside the whole fit: a sentence; none where there are none.
 * Never throws.
 */
export function runsNotes(rows: readonly TableRow[], fit: BoatFit): readonly string[] {
  const runs = runsInLog(rows);
  if (fit.status === "unsolved" || runs.length === 0) return [];
  const found = speedFromRuns(runs, OPTIONS);
  if (found.status === "unsolved") return [];
  const middle = found.gains[found.gains.length >> 1]!;
  const whole = factorAt(fit, "speed", middle.reading);
  if (!whole) return [];
  const alone = { value: Math.log(middle.gain), half: middle.half / middle.gain };
  const agree = Math.abs(alone.value - whole.value) <= Math.hypot(alone.half, whole.half);
  const verdict = agree
    ? "they agree"
    : "they disagree by more than chance: look at the wheel, at weed, and at the stream there";
  return [
    `The recording holds ${counted(runs.length, "straight run")} under power on reciprocal headings: at a reading of ${plain(knots(middle.reading), 1)} kn they alone ask for ${percent(alone.value)} % ± ${plain(100 * alone.half, 1)} % of boat speed, the whole recording for ${percent(whole.value)} % ± ${plain(100 * whole.half, 1)} %; ${verdict}.`,
  ];
}
