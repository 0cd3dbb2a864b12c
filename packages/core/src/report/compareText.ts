import type { ComparedCalibrations } from "../judge/history.ts";
import {
  COMPARISON_TITLES,
  comparisonWords,
  levelSentence,
  type NameOf,
  SETTINGS_NOTE,
} from "./compareWords.ts";
import { columns, heading, list, paragraph } from "./textLines.ts";

const settingsLines = (rows: readonly (readonly string[])[]): readonly string[] =>
  rows.length === 0
    ? []
    : [...heading(COMPARISON_TITLES.settings), ...columns(rows), "", ...paragraph(SETTINGS_NOTE, "  ")];

function pairLines(pair: ComparedCalibrations, nameOf: NameOf): readonly string[] {
  const words = comparisonWords(pair, nameOf);
  return [
    ...paragraph(words.verdict),
    ...list(COMPARISON_TITLES.moved, words.moved),
    ...settingsLines(words.settings),
    ...list(COMPARISON_TITLES.untold, words.untold),
    ...list(COMPARISON_TITLES.notes, words.notes),
  ];
}

/**
 * What has moved from calibration to calibration, as printed text of at most 92 columns.
 *
 * @param pairs of `historyOf`
 * @param nameOf what a calibration is called, such as its file
 * @returns text that ends in a line feed. Never throws.
 * @example
 * typeof printedComparison([], ({ made }) => String(made)) // "string"
 */
export function printedComparison(pairs: readonly ComparedCalibrations[], nameOf: NameOf): string {
  return [
    ...pairs.flatMap((pair, index) => [...(index > 0 ? ["", ""] : []), ...pairLines(pair, nameOf)]),
    "",
    ...paragraph(levelSentence(pairs.length)),
    "",
  ].join("\n");
}
