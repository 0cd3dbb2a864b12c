import type { Answer } from "./answer.ts";
import { clock, counted, filesInWords, grouped, inWords, listed, plain, sailedWords } from "./format.ts";
import { heading, paragraph } from "./textLines.ts";

/** What was recorded and what became of it. */
export type RecordedSailing = Pick<Answer, "recording" | "legs" | "turns" | "troubles">;

/** The recording as the printed text tells it: span, sailing, lines, sources. Never throws. */
export function recordingLines({ recording, legs, turns }: RecordedSailing): readonly string[] {
  const { files, lines, seconds, chosen, others } = recording;
  const turned = (["tack", "gybe"] as const).map((kind) =>
    counted(turns.filter((turn) => turn.kind === kind).length, kind),
  );
  const sources = chosen.map(({ source, why, rate }) => [
    source.quantity,
    source.name,
    `${plain(rate, 1)} Hz`,
    why,
  ]);
  return [
    ...heading("In the recording"),
    ...paragraph(`${filesInWords(files)}: ${clock(recording.start)} to ${clock(recording.end)}.`, "  "),
    ...paragraph(
      `${sailedWords(seconds)}; ${counted(legs.length, "leg")}, ${listed(turned)}. Directions are ${recording.directionsAre}.`,
      "  ",
    ),
    ...paragraph(
      `${grouped(lines.lines)} lines: ${grouped(lines.used)} used, ${grouped(lines.ignored)} ignored, ${grouped(lines.problems)} with problems.`,
      "  ",
    ),
    ...(recording.filesLeftOut ?? []).flatMap(({ name, reason }) =>
      paragraph(`not used: ${name}, ${reason}.`, "    "),
    ),
    ...sources.flatMap(([quantity, name, rate, why]) =>
      paragraph(`${inWords(quantity!)}: ${name} at ${rate}, ${why}.`, "    "),
    ),
    ...others.flatMap(({ source, why }) =>
      paragraph(`not taken: ${source.name} for ${inWords(source.quantity)}, ${why}.`, "    "),
    ),
  ];
}
