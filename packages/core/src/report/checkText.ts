import type { SourceRow } from "../recording/inventoryPart.ts";
import { QUANTITIES } from "../recording/readings.ts";
import { NIGHT } from "../recording/stretches.ts";
import type { Check, CheckedRecording, Gap } from "./check.ts";
import { evidenceIn } from "./evidence.ts";
import { capital, clock, counted, duration, inWords, listed, plain } from "./format.ts";
import { stepOf } from "./quantityUnits.ts";
import { type RecordedSailing, spanLines } from "./recordingText.ts";
import { pairWords, sourceWords } from "./sourceWords.ts";
import { columns, heading, list, paragraph, WIDTH } from "./textLines.ts";
import { sensorTroubleWords } from "./troubleWords.ts";

const MOST_SHOWN = 5;

/** Nobody sails on after so long: the clock was set. */
const A_YEAR = 365 * 86_400;

function gapSentence({ start, seconds }: Gap): string {
  if (seconds < NIGHT) return `${duration(seconds)} from ${clock(start)}.`;
  const days = `From ${clock(start)} to ${clock(start + seconds)}: what follows counts as another day`;
  return seconds < A_YEAR
    ? `${days}.`
    : `${days}. If the log ran on, its clock was set then, and what it has before bears a wrong date.`;
}

/** The longest silences of the whole log, in sentences. Never throws. */
export function gapSentences(gaps: readonly Gap[]): readonly string[] {
  const longest = [...gaps].sort((a, b) => b.seconds - a.seconds).slice(0, MOST_SHOWN);
  const more = gaps.length - longest.length;
  return [...longest.map(gapSentence), ...(more > 0 ? [`And ${counted(more, "shorter one")}.`] : [])];
}

const problemSentences = ({ recording }: RecordedSailing): readonly string[] =>
  recording.problems
    .slice(0, MOST_SHOWN)
    .map(
      ({ kind, file, line, expected, received }) =>
        `${file}, line ${line} (${kind}): expected ${expected}, received ${received === "" ? "nothing" : received}.`,
    );

const CHANNEL: Readonly<Record<string, string>> = {
  course: "course over ground",
  speed: "speed through water",
};

/** How far the sensors are behind the heading, in a sentence; none where no lag could be found. Never throws. */
export function lagSentences({ recording }: RecordedSailing): readonly string[] {
  const { lags, chosen } = recording;
  const hasCompass = chosen.some(({ source }) => source.quantity.startsWith("heading"));
  const after = hasCompass ? "the heading" : "the course over ground";
  return lags
    .filter(({ channel }) => hasCompass || channel !== "course")
    .map(
      ({ channel, seconds }) =>
        `The ${CHANNEL[channel] ?? channel} ${Math.abs(seconds) < 0.05 ? "is in step with" : `comes ${plain(Math.abs(seconds), 1)} s ${seconds > 0 ? "after" : "before"}`} ${after}, damping included.`,
    );
}

const share = (part: number, whole: number): string =>
  part === 0 ? "–" : part < 0.0005 * whole ? "< 0.1 %" : `${plain((100 * part) / whole, 1)} %`;

const count = (number: number): string => (number === 0 ? "–" : String(number));

/** One source in a line of the table. */
const sourceLine = ({ source, rate, resolution, ...row }: SourceRow, isTaken: boolean): readonly string[] => [
  `${isTaken ? "*" : " "} ${inWords(source.quantity)}`,
  source.name,
  Number.isNaN(rate) ? "" : `${plain(rate, 1)} Hz`,
  Number.isNaN(resolution) ? "" : stepOf(source.quantity, resolution),
  share(row.gapSeconds, row.gapSeconds + row.heardSeconds),
  share(row.frozenSeconds + row.zeroSeconds, row.heardSeconds),
  count(row.spikes + row.leaps),
];

const HEAD = ["  quantity", "source", "rate", "steps", "silent", "still", "wild"] as const;

/** Longer names are cut where the table would else be wider than the page. */
const LONGEST_NAME = 20;

/** How many letters of a name there is room for beside the other columns. */
function roomForNames(rows: readonly (readonly string[])[]): number {
  const widths = HEAD.map((_, at) => Math.max(...rows.map((row) => row[at]!.length)) + 2);
  return Math.max(
    LONGEST_NAME,
    WIDTH - 2 - widths.reduce((sum, width, at) => sum + (at === 1 ? 2 : width), 0),
  );
}

/** Sources in the order of the quantities, of each quantity the one that was taken first. Never throws. */
export function inOrder({
  recording,
  health,
}: CheckedRecording): readonly (SourceRow & { readonly isTaken: boolean })[] {
  const taken = new Set(recording.chosen.map(({ source }) => JSON.stringify(source)));
  const rank = (row: SourceRow & { readonly isTaken: boolean }): number =>
    2 * QUANTITIES.indexOf(row.source.quantity) + (row.isTaken ? 0 : 1);
  return health.sources
    .map((row) => ({ ...row, isTaken: taken.has(JSON.stringify(row.source)) }))
    .sort((one, other) => rank(one) - rank(other));
}

function sensorTable(check: Check): readonly string[] {
  const rows = inOrder(check).map((row) => sourceLine(row, row.isTaken));
  const room = roomForNames([HEAD, ...rows]);
  const cut = rows.map((row) => row.map((text, at) => (at === 1 ? text.slice(0, room) : text)));
  return [
    ...heading("Sensors"),
    ...columns([HEAD, ...cut]),
    ...paragraph(
      "* taken. Still: at one value, or a speed at 0. Wild: lone readings far off, and changes that no boat makes.",
      "  ",
    ),
  ];
}

/** Which source was taken where there was a choice, and why, in sentences. Never throws. */
export function choiceSentences({ recording: { chosen, others } }: RecordedSailing): readonly string[] {
  return chosen.flatMap(({ source: { quantity, name }, why }) => {
    const losers = others.filter(({ source }) => source.quantity === quantity);
    if (losers.length === 0) return [];
    const lost = losers.map(({ source, why: reason }) => `${source.name} (${reason})`);
    return [`${capital(inWords(quantity))}: ${name}, ${why}; not ${listed(lost)}.`];
  });
}

/**
 * What is in a recording, as printed text of at most 92 columns: span, sources and their health, gaps, problems, and what it can
 * calibrate.
 *
 * @returns text that ends in a line feed. Never throws.
 */
export function printedCheck(check: Check): string {
  const { can, cannot } = evidenceIn(check, check.rows);
  return [
    ...spanLines(check).slice(1),
    ...sensorTable(check),
    ...list("Which was taken", choiceSentences(check)),
    ...list("What stands out", sourceWords(check)),
    ...list("Sensors of one quantity beside each other", pairWords(check)),
    ...list("In step", lagSentences(check)),
    ...list("Gaps in the whole log", gapSentences(check.health.gaps)),
    ...list("Sensors in trouble", sensorTroubleWords(check)),
    ...list("The first problems", problemSentences(check)),
    ...list("It can calibrate", can),
    ...list("It cannot calibrate", cannot),
    "",
  ].join("\n");
}
