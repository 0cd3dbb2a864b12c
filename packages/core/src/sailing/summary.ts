import type { Seconds } from "../units.ts";
import { CandidateCollector, type CandidateLeg, meanAwaOfRows } from "./candidates.ts";
import type { Leg, LegRow, RowKind, Tack, Turn } from "./legRow.ts";
import { kindsOfLegs } from "./motoring.ts";
import { SecondsWindow } from "./secondsWindow.ts";
import type { Channel, SecondsBlock } from "./series.ts";
import { FORESIGHT, SteadinessJudge } from "./steadiness.ts";
import { RATE_REACH, TurnDetector } from "./turnDetector.ts";

/** A silence of this length ends all that is open; shorter ones are seconds without values. */
const SILENCE: Seconds = 30;

/** What of the future a turning needs when it ends. */
const TURN_FORESIGHT = RATE_REACH + 5;

export interface SailingOptions {
  /** Seconds that a row spans at most; 30 unless told. */
  readonly rowSeconds?: Seconds;
  /** Seconds of data without which there is no row; 15 unless told. */
  readonly leastSeconds?: Seconds;
  /** Changes a second's [awa, aws, stw, heading, heel] in place before anything else sees it: undoes active settings. */
  readonly transform?: (values: Float64Array) => void;
}

/** What one file, or one piece of a recording, held: plain values, to be merged with others. */
export interface SailingPart {
  readonly legs: readonly CandidateLeg[];
  readonly turns: readonly Turn[];
  /** Seconds that the recording has. */
  readonly seconds: number;
}

/** The sailing of a recording, or of several. */
export interface Sailing {
  readonly legs: readonly Leg[];
  readonly turns: readonly Turn[];
  readonly rows: readonly LegRow[];
  /** Seconds in rows under sail, in rows under power, and all the others. */
  readonly seconds: { readonly sailing: number; readonly motoring: number; readonly other: number };
}

const TRANSFORMED = ["awa", "aws", "stw", "heading", "heel"] as const satisfies readonly Channel[];

/** Sums up the seconds of one recording as they come; memory does not grow but by the rows. */
export class SailingSummary {
  readonly #options: SailingOptions;
  readonly #legs: CandidateLeg[] = [];
  readonly #turns: Turn[] = [];
  #passage: Passage | undefined;
  #seconds = 0;
  readonly #values = new Float64Array(TRANSFORMED.length);

  /** @throws RangeError where a row would be shorter than its least seconds */
  constructor(options: SailingOptions = {}) {
    const { rowSeconds = 30, leastSeconds = 15 } = options;
    if (!(leastSeconds >= 1 && rowSeconds >= leastSeconds))
      throw new RangeError(
        `SailingSummary: 1 ≤ leastSeconds ≤ rowSeconds must hold, got ${leastSeconds} and ${rowSeconds}`,
      );
    this.#options = options;
  }

  /** Takes the next block of seconds. Never throws. */
  push(block: SecondsBlock): void {
    for (let index = 0; index < block.length; index++) {
      const second = Math.floor(block.time[index]!);
      if (this.#passage !== undefined && !this.#passage.follows(second)) this.#endPassage();
      this.#passage ??= new Passage(this.#options, this.#legs, this.#turns);
      this.#seconds += 1;
      this.#passage.push(second, this.#reader(block, index), block.headingIsTrue);
    }
  }

  /** Ends the recording. Never throws. */
  finish(): SailingPart {
    this.#endPassage();
    return { legs: this.#legs, turns: this.#turns, seconds: this.#seconds };
  }

  #endPassage(): void {
    this.#passage?.finish();
    this.#passage = undefined;
  }

  /** The values of a second by channel, transformed. */
  #reader({ columns }: SecondsBlock, index: number): (channel: Channel) => number {
    const { transform } = this.#options;
    if (transform === undefined) return (channel) => columns[channel][index]!;
    const values = this.#values;
    TRANSFORMED.forEach((channel, place) => {
      values[place] = columns[channel][index]!;
    });
    transform(values);
    return (channel) => {
      const place = (TRANSFORMED as readonly Channel[]).indexOf(channel);
      return place < 0 ? columns[channel][index]! : values[place]!;
    };
  }
}

/** An unbroken piece of a recording: a second of it is judged when the minute after it is known. */
class Passage {
  readonly #window = new SecondsWindow();
  readonly #turns: Turn[];
  readonly #detector = new TurnDetector(this.#window);
  readonly #judge = new SteadinessJudge(this.#window, this.#detector.turnings);
  readonly #collector: CandidateCollector;
  #headingIsTrue = false;

  constructor({ rowSeconds = 30, leastSeconds = 15 }: SailingOptions, legs: CandidateLeg[], turns: Turn[]) {
    this.#turns = turns;
    this.#collector = new CandidateCollector(this.#window, { rowSeconds, leastSeconds }, legs);
  }

  follows(second: number): boolean {
    return second > this.#window.last && second - this.#window.last <= SILENCE;
  }

  push(second: number, value: (channel: Channel) => number, headingIsTrue: boolean): void {
    this.#headingIsTrue = headingIsTrue;
    while (second > this.#window.last + 1) this.#add(this.#window.last + 1, () => Number.NaN);
    this.#add(second, value);
  }

  finish(): void {
    const { first, last } = this.#window;
    for (let second = Math.max(first, last - TURN_FORESIGHT + 1); second <= last; second++)
      this.#detect(second);
    this.#note(this.#detector.finish()?.turn);
    for (let second = Math.max(first, last - FORESIGHT + 1); second <= last; second++) this.#decide(second);
    this.#collector.finish();
  }

  #add(second: number, value: (channel: Channel) => number): void {
    this.#window.push(second, value);
    this.#detect(second - TURN_FORESIGHT);
    this.#decide(second - FORESIGHT);
  }

  #detect(second: number): void {
    if (second >= this.#window.first) this.#note(this.#detector.advance(second)?.turn);
  }

  #decide(second: number): void {
    if (!(second >= this.#window.first)) return;
    const judgement = this.#judge.judge(second);
    this.#collector.push(second, judgement, this.#judge.turningAt(second), this.#headingIsTrue);
    this.#detector.forget(second - FORESIGHT - 1);
  }

  #note(turn: Turn | undefined): void {
    if (turn !== undefined) this.#turns.push(turn);
  }
}

const tackOf = (awa: number): Tack => (awa >= 0 ? "starboard" : "port");

/**
 * The sailing of one or several recordings together: what drove the boat is told from all their legs, and legs are
 * numbered in time order.
 *
 * @param parts in any order
 * @returns legs, turns and rows in time order. Never throws.
 */
export function mergedSailing(parts: readonly SailingPart[]): Sailing {
  const candidates = parts.flatMap(({ legs }) => legs).sort((a, b) => a.rows[0]!.start - b.rows[0]!.start);
  const turns = parts.flatMap((part) => part.turns).sort((a, b) => a.start - b.start);
  const kinds = kindsOfLegs(candidates);
  const legs: Leg[] = [];
  const rows: LegRow[] = [];
  candidates.forEach((candidate, index) => {
    const kind = kinds[index]!;
    if (kind === "doubtful") return;
    const leg = legOf(candidate, kind, legs.length);
    legs.push(leg);
    rows.push(
      ...candidate.rows.map((row) => ({ leg: leg.number, kind, tack: tackOf(row.mean.awa), ...row })),
    );
  });
  return { legs, turns, rows, seconds: secondsOf(rows, parts) };
}

function legOf({ rows }: CandidateLeg, kind: RowKind, number: number): Leg {
  const last = rows.at(-1)!;
  const meanAwa = meanAwaOfRows(rows);
  return {
    number,
    kind,
    tack: tackOf(meanAwa),
    start: rows[0]!.start,
    end: last.start + last.duration,
    meanAwa,
  };
}

function secondsOf(rows: readonly LegRow[], parts: readonly SailingPart[]): Sailing["seconds"] {
  const of = (kind: RowKind) => rows.reduce((sum, row) => sum + (row.kind === kind ? row.count : 0), 0);
  const [sailing, motoring] = [of("sailing"), of("motoring")];
  const all = parts.reduce((sum, part) => sum + part.seconds, 0);
  return { sailing, motoring, other: all - sailing - motoring };
}

/** The sailing in some blocks of seconds. @throws RangeError as SailingSummary does */
export function summariseSailing(blocks: Iterable<SecondsBlock>, options: SailingOptions = {}): Sailing {
  const summary = new SailingSummary(options);
  for (const block of blocks) summary.push(block);
  return mergedSailing([summary.finish()]);
}
