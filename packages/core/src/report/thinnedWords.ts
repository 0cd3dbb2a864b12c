import type { WordlessAnswer } from "./answer.ts";
import { grouped } from "./format.ts";

/** That an answer rests on some of the rows only, where there are very many (M164). Never throws. */
export function thinnedWords({ recording: { rows } }: WordlessAnswer): readonly string[] {
  if (rows === undefined) return [];
  return [
    `Of ${grouped(rows.all)} half minutes of steady sailing the answer rests on ${grouped(rows.used)}, spread evenly over all legs of all days: so many tell nearly what all would, in a time that can be waited for.`,
  ];
}
