import type { Seconds } from "../units.ts";
import type { CandidateLeg, RowLengths } from "./candidates.ts";
import { HeadingJumps } from "./headingJumps.ts";
import type { Turn } from "./legRow.ts";
import { mergedSailing, type SailingPart } from "./mergedSailing.ts";
import { Passage } from "./passage.ts";
import type { Sailing } from "./sailing.ts";
import type { Channel, SecondsBlock } from "./series.ts";
import { StaysWatch } from "./staysWatch.ts";

/** How seconds are summed up; what is left out takes its default. */
export interface SailingOptions {
  /** Seconds that a row spans at most; 30 unless told. */
  readonly rowSeconds?: Seconds;
  /** Seconds of data without which there is no row; 15 unless told. */
  readonly leastSeconds?: Seconds;
  /** Changes a second's [awa, aws, stw, heading, heel] in place before anything else sees it: undoes active settings. */
  readonly transform?: (values: Float64Array) => void;
}

const TRANSFORMED = ["awa", "aws", "stw", "heading", "heel"] as const satisfies readonly Channel[];

/**
 * Sums up the seconds of one recording as they come; memory does not grow but by the rows.
 *
 * @example
 * const summary = new SailingSummary();
 * summary.push(block);
 * mergedSailing([summary.finish()]).rows.length > 0 // true
 */
export class SailingSummary {
  readonly #lengths: RowLengths;
  readonly #transform: SailingOptions["transform"];
  readonly #legs: CandidateLeg[] = [];
  readonly #turns: Turn[] = [];
  readonly #watch = new StaysWatch();
  readonly #jumps = new HeadingJumps();
  #start: Seconds = Number.NaN;
  #end: Seconds = Number.NaN;
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
    this.#lengths = { rowSeconds, leastSeconds };
    this.#transform = options.transform;
  }

  /** Takes the next block of seconds. Never throws. */
  push(block: SecondsBlock): void {
    for (let index = 0; index < block.length; index++) {
      const second = Math.floor(block.time[index]!);
      if (this.#passage !== undefined && !this.#passage.follows(second)) this.#endPassage();
      this.#passage ??= new Passage(this.#lengths, this.#legs, this.#turns);
      this.#seconds += 1;
      const asLogged = (channel: Channel): number => block.columns[channel][index]!;
      this.#watch.push(second, asLogged);
      this.#jumps.push(second, asLogged);
      if (Number.isNaN(this.#start)) this.#start = second;
      this.#end = second + 1;
      this.#passage.push(second, this.#reader(block, index), block.headingIsTrue);
    }
  }

  /** Ends the recording. Never throws. */
  finish(): SailingPart {
    this.#endPassage();
    return {
      legs: this.#legs,
      turns: this.#turns,
      seconds: this.#seconds,
      watched: this.#watch.finish(),
      jumps: this.#jumps.finish(),
      start: this.#start,
      end: this.#end,
    };
  }

  #endPassage(): void {
    this.#passage?.finish();
    this.#passage = undefined;
  }

  /** The values of a second by channel, transformed. */
  #reader({ columns }: SecondsBlock, index: number): (channel: Channel) => number {
    const transform = this.#transform;
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

/**
 * The sailing in some blocks of seconds.
 *
 * @throws RangeError as SailingSummary does
 *
 * @example
 * summariseSailing([block]).legs.length > 0 // true
 */
export function summariseSailing(blocks: Iterable<SecondsBlock>, options: SailingOptions = {}): Sailing {
  const summary = new SailingSummary(options);
  for (const block of blocks) summary.push(block);
  return mergedSailing([summary.finish()]);
}
