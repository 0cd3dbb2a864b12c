import type { LegRow } from "../sailing/legRow.ts";
import { evidenceIn } from "./evidence.ts";
import { clock, counted, duration } from "./format.ts";
import { type RecordedSailing, recordingLines } from "./recordingText.ts";
import { list } from "./textLines.ts";
import { sensorTroubleWords } from "./troubleWords.ts";

/** A silence of the whole log. */
export interface Gap {
  /** s since 1970 UTC. */
  readonly start: number;
  readonly seconds: number;
}

const MOST_SHOWN = 5;

/** The longest silences of the whole log, in sentences. Never throws. */
export function gapSentences(gaps: readonly Gap[]): readonly string[] {
  const longest = [...gaps].sort((a, b) => b.seconds - a.seconds).slice(0, MOST_SHOWN);
  const more = gaps.length - longest.length;
  return [
    ...longest.map(({ start, seconds }) => `${duration(seconds)} from ${clock(start)}.`),
    ...(more > 0 ? [`And ${counted(more, "shorter one")}.`] : []),
  ];
}

const problemSentences = ({ recording }: RecordedSailing): readonly string[] =>
  recording.problems
    .slice(0, MOST_SHOWN)
    .map(
      ({ kind, file, line, expected, received }) =>
        `${file}, line ${line} (${kind}): expected ${expected}, received ${received === "" ? "nothing" : received}.`,
    );

/**
 * What is in a recording, as printed text of at most 92 columns: span, sources, gaps, problems, and what it can calibrate.
 *
 * @param rows its summary rows
 * @returns text that ends in a line feed. Never throws.
 */
export function printedCheck(
  recorded: RecordedSailing,
  rows: readonly LegRow[],
  gaps: readonly Gap[],
): string {
  const { can, cannot } = evidenceIn(recorded, rows);
  return [
    ...recordingLines(recorded).slice(1),
    ...list("Gaps in the whole log", gapSentences(gaps)),
    ...list("Sensors in trouble", sensorTroubleWords(recorded)),
    ...list("The first problems", problemSentences(recorded)),
    ...list("It can calibrate", can),
    ...list("It cannot calibrate", cannot),
    "",
  ].join("\n");
}
