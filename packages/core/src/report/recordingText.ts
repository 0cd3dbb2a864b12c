import type { Answer } from "./answer.ts";
import { clock, counted, filesInWords, grouped, inWords, listed, plain, sailedWords } from "./format.ts";
import { heading, paragraph } from "./textLines.ts";

/** What was recorded and what became of it. */
export type RecordedSailing = Pick<Answer, "recording" | "legs" | "turns" | "troubles">;

/** How many lines there are, of what, and what became of them. Never throws. */
export function linesInWords({ lines, records = [] }: RecordedSailing["recording"]): string {
  const counts = `${grouped(lines.lines)} lines: ${grouped(lines.used)} used, ${grouped(lines.ignored)} ignored, ${grouped(lines.problems)} with problems.`;
  return records.length === 0 ? counts : `${counts} They are ${listed(records.map((one) => `${one}s`))}.`;
}

/** The recording as the printed text tells it, but for its sources: span, sailing, lines, files not used. Never throws. */
export function spanLines({ recording, legs, turns }: RecordedSailing): readonly string[] {
  const { files, seconds } = recording;
  const turned = (["tack", "gybe"] as const).map((kind) =>
    counted(turns.filter((turn) => turn.kind === kind).length, kind),
  );
  return [
    ...heading("In the recording"),
    ...paragraph(`${filesInWords(files)}: ${clock(recording.start)} to ${clock(recording.end)}.`, "  "),
    ...paragraph(
      `${sailedWords(seconds)}; ${counted(legs.length, "leg")}, ${listed(turned)}. Directions are ${recording.directionsAre}.`,
      "  ",
    ),
    ...paragraph(linesInWords(recording), "  "),
    ...(recording.filesLeftOut ?? []).flatMap(({ name, reason }) =>
      paragraph(`not used: ${name}, ${reason}.`, "    "),
    ),
  ];
}

/** The recording as the printed text tells it: span, sailing, lines, sources. Never throws. */
export function recordingLines(recorded: RecordedSailing): readonly string[] {
  const { chosen, others } = recorded.recording;
  return [
    ...spanLines(recorded),
    ...chosen.flatMap(({ source, why, rate }) =>
      paragraph(`${inWords(source.quantity)}: ${source.name} at ${plain(rate, 1)} Hz, ${why}.`, "    "),
    ),
    ...others.flatMap(({ source, why }) =>
      paragraph(`not taken: ${source.name} for ${inWords(source.quantity)}, ${why}.`, "    "),
    ),
  ];
}
