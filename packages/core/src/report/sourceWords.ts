import { SHORTEST_GAP } from "../recording/healthPart.ts";
import type { SourceRow } from "../recording/inventoryPart.ts";
import type { QuantityName } from "../recording/readings.ts";
import { outside, type Stretch, totalSeconds } from "../recording/stretches.ts";
import type { SourcePair } from "../sailing/sourcePairs.ts";
import type { CheckedRecording, LogSpan, RecordingHealth } from "./check.ts";
import { capital, clock, counted, duration, grouped, inWords, listed, plain } from "./format.ts";
import { amountOf, inShownUnit, signedAmountOf, stepOf, unitLetters } from "./quantityUnits.ts";

/** Less than this share of the time in silence, frozen or at 0 is not worth a sentence. */
const WORTH_TELLING = 0.02;

/** So many lines that cannot be placed are hardly a clock's slip. */
const MANY_LINES = 100;

/** So many stretches are named one by one. */
const MOST_NAMED = 2;

const longestFirst = (stretches: readonly Stretch[]): readonly Stretch[] =>
  [...stretches].sort((one, other) => other.seconds - one.seconds);

/** "8 min from 2031-06-14 13:05 UTC, and 3 more" */
function stretchWords(stretches: readonly Stretch[]): string {
  const named = longestFirst(stretches).slice(0, MOST_NAMED);
  const more = stretches.length - named.length;
  return listed([
    ...named.map(({ start, seconds }) => `${duration(seconds)} from ${clock(start)}`),
    ...(more > 0 ? [`${more} more`] : []),
  ]);
}

const percent = (share: number): string => `${plain(100 * share, share < 0.1 ? 1 : 0)} %`;

const covered = ({ spans }: SourceRow): number => totalSeconds(spans);

/** Steps so coarse that a correction of the usual size hides in them: 1° and 0.1 kn are what many displays send. */
const COARSE: Readonly<Record<string, number>> = { deg: 1, kn: 0.5 };

/** Angles and speeds whose steps matter for a calibration. */
const MEASURED: ReadonlySet<QuantityName> = new Set<QuantityName>([
  "apparentWindAngle",
  "apparentWindSpeed",
  "speedThroughWater",
  "headingMagnetic",
  "headingTrue",
  "heel",
  "courseOverGround",
  "speedOverGround",
]);

const isCoarse = ({ source: { quantity }, resolution }: SourceRow): boolean =>
  MEASURED.has(quantity) &&
  inShownUnit(quantity, resolution) >= (COARSE[unitLetters(quantity)] ?? Number.POSITIVE_INFINITY) * 0.999;

/** Silences of a source that are not the whole log's, to its seconds. */
const ownSilences = ({ gaps }: SourceRow, ofAll: readonly Stretch[]): readonly Stretch[] =>
  gaps.flatMap((gap) => outside(gap, ofAll)).filter(({ seconds }) => seconds > SHORTEST_GAP);

/** What is wrong with one source, each entry what stands behind its name. */
function troublesOf(row: SourceRow, gapsOfAll: readonly Stretch[]): readonly string[] {
  const { source, untimed, frozen, frozenSeconds, heardSeconds } = row;
  const { zeroSeconds, spikes, leaps, repeats, isCourse, courseShare, resolution } = row;
  const isMoving = source.quantity === "speedThroughWater" || source.quantity === "apparentWindSpeed";
  const silences = ownSilences(row, gapsOfAll);
  const silent = totalSeconds(silences) / covered(row);
  const tells = (isSo: boolean, words: () => string): readonly string[] => (isSo ? [words()] : []);
  return [
    ...tells(
      isCourse,
      () => `the course over ground in ${percent(courseShare)} of the changes, so no compass`,
    ),
    ...tells(repeats !== undefined, () => `the same as ${repeats}, value for value`),
    ...tells(
      silent > WORTH_TELLING,
      () => `silent for ${percent(silent)} of the time: ${stretchWords(silences)}`,
    ),
    ...tells(
      frozenSeconds > WORTH_TELLING * heardSeconds,
      () => `at one value for ${percent(frozenSeconds / heardSeconds)} of the time: ${stretchWords(frozen)}`,
    ),
    ...tells(
      isMoving && zeroSeconds > WORTH_TELLING * heardSeconds,
      () => `0 for ${percent(zeroSeconds / heardSeconds)} of the time, with too little to turn it, or stuck`,
    ),
    ...tells(spikes > 0, () => `${counted(spikes, "lone reading")} far from both neighbours`),
    ...tells(leaps > 0, () => `${counted(leaps, "change")} faster than a boat can turn (60° in a second)`),
    ...tells(untimed > 0, () => `${counted(untimed, "reading")} before the log told any time`),
    ...tells(isCoarse(row), () => `in steps of ${stepOf(source.quantity, resolution)} only`),
  ];
}

/** The same of several quantities from one source in one sentence: a gap of a GPS is one of all that it tells. */
function sourceSentences({ sources, gaps }: RecordingHealth): readonly string[] {
  const quantities = new Map<string, string[]>();
  for (const row of sources)
    for (const trouble of troublesOf(row, gaps)) {
      const key = JSON.stringify([row.source.name, trouble]);
      quantities.set(key, [...(quantities.get(key) ?? []), inWords(row.source.quantity)]);
    }
  return [...quantities].map(([key, of]) => {
    const [name, trouble]: readonly string[] = JSON.parse(key);
    return `${name}, ${listed(of)}: ${trouble}.`;
  });
}

/** Lags below this are none. */
const LEAST_LAG = 0.3;

/** What two sensors of one quantity say of each other: bias, noise, lag. Never throws. */
export function pairWords({ health }: CheckedRecording): readonly string[] {
  const copies = new Set(
    health.sources.flatMap(({ source, repeats }) =>
      repeats === undefined ? [] : [JSON.stringify([source.quantity, [repeats, source.name]])],
    ),
  );
  return health.pairs.flatMap(({ quantity, names, seconds, bias, noise, spread, lag, isOpposite }) => {
    if (isOpposite) return [];
    if (copies.has(JSON.stringify([quantity, names]))) return [];
    const [one, other] = names;
    const behind =
      Math.abs(lag.seconds) >= LEAST_LAG
        ? `, and ${lag.seconds > 0 ? other : one} is ${plain(Math.abs(lag.seconds), 1)} s behind ${lag.seconds > 0 ? one : other}`
        : "";
    const quickly = Number.isNaN(noise) ? "" : ` (from one second to the next ${amountOf(quantity, noise)})`;
    return [
      `${capital(inWords(quantity))}: ${other} reads ${signedAmountOf(quantity, bias)} against ${one}, give or take ${amountOf(quantity, spread)}${quickly}${behind}; over ${duration(seconds)}.`,
    ];
  });
}

/** Which of two sources that move against each other is wrong, where the boat's turns tell it of the one that was taken. */
function wrongOf(
  { quantity, names: [one, other] }: SourcePair,
  { health, recording }: CheckedRecording,
): string {
  const isTaken = (name: string): boolean =>
    recording.chosen.some(({ source }) => source.quantity === quantity && source.name === name);
  const taken = [one, other].find(isTaken);
  if (quantity !== "apparentWindAngle" || taken === undefined) return "";
  const untaken = taken === one ? other : one;
  if (health.windIsMirrored) return `; by the boat's turns it is ${taken}`;
  return recording.lags.some(({ channel }) => channel === "wind")
    ? `; by the boat's turns it is ${untaken}`
    : "";
}

/** Sources of one quantity of which one has port and starboard swapped, in sentences. */
const oppositeWords = (checked: CheckedRecording): readonly string[] =>
  checked.health.pairs
    .filter(({ isOpposite }) => isOpposite)
    .map(
      (pair) =>
        `${capital(inWords(pair.quantity))}: ${pair.names.join(" and ")} move against each other, so one of them has port and starboard swapped${wrongOf(pair, checked)}.`,
    );

/** Logs of which one begins before the other ends, in sentences. */
function overlapWords(logs: readonly LogSpan[]): readonly string[] {
  const sorted = [...logs].filter(({ start }) => !Number.isNaN(start)).sort((a, b) => a.start - b.start);
  return sorted.flatMap((log, place) => {
    const before = sorted[place - 1];
    const shared = before === undefined ? 0 : Math.min(before.end, log.end) - log.start;
    return shared > 0
      ? [`${before!.name} and ${log.name} overlap by ${duration(shared)}: what both hold counts once.`]
      : [];
  });
}

/** A share of damaged lines that is more than a slip now and then. */
const MANY_DAMAGED = 0.01;

/** Lines that are no whole text, in a sentence where they are many. */
function damageWords({
  health: { problemCounts },
  recording: { lines },
}: CheckedRecording): readonly string[] {
  const kinds = [
    ["a wrong checksum", problemCounts.checksum],
    ["no end", problemCounts.cut],
    ["bytes that are no text", problemCounts.binary],
  ] as const;
  const damaged = kinds.reduce((sum, [, lines]) => sum + lines, 0);
  if (damaged < MANY_DAMAGED * lines.lines) return [];
  const found = kinds
    .filter(([, lines]) => lines > 0)
    .map(([words, lines]) => `${words} in ${grouped(lines)}`);
  return [
    `${percent(damaged / lines.lines)} of the lines are damaged (${listed(found)}), and left out: a loose wire, a line that carries too much, or a logger that loses bytes.`,
  ];
}

/** What stands out in the sources of a recording, in full sentences. Never throws. */
export function sourceWords(checked: CheckedRecording): readonly string[] {
  const { health } = checked;
  const { clock: clocks, compression } = health.problemCounts;
  return [
    ...health.swapped.map(
      ({ apparent, onboardTrue, share }) =>
        `The wind that ${apparent} calls apparent comes from further aft than the one that ${onboardTrue} calls true in ${percent(share)} of the moments: each seems to bear the other's name.`,
    ),
    ...(health.windIsMirrored
      ? [
          "In the boat's turns the wind angle turns with her, where it must turn against her: port and starboard of the wind sensor seem to be swapped.",
        ]
      : []),
    ...oppositeWords(checked),
    ...damageWords(checked),
    ...health.logs
      .filter(({ start }) => Number.isNaN(start))
      .map(({ name }) => `${name} tells nothing by the sources that were taken, so it adds nothing.`),
    ...overlapWords(health.logs),
    ...sourceSentences(health),
    ...(clocks > 0
      ? [
          `${counted(clocks, "line")} of the log could not be placed in time: the clock went back, or leapt and was not confirmed.${clocks >= MANY_LINES ? " Where logs were joined in the wrong order, give them as files of their own." : ""}`,
        ]
      : []),
    ...(compression > 0 ? ["A compressed log is cut or broken; what came before that was read."] : []),
  ];
}
