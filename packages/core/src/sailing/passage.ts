import type { Seconds } from "../units.ts";
import { CandidateCollector, type CandidateLeg, type RowLengths } from "./candidates.ts";
import type { Turn } from "./legRow.ts";
import { SecondsWindow } from "./secondsWindow.ts";
import type { Channel } from "./series.ts";
import { FORESIGHT, SteadinessJudge } from "./steadiness.ts";
import { TURN_FORESIGHT, TurnDetector } from "./turnDetector.ts";

/** A silence of this length ends all that is open; shorter ones are seconds without values. */
const SILENCE: Seconds = 30;

/** An unbroken piece of a recording: a second of it is judged when the minute after it is known. */
export class Passage {
  readonly #window = new SecondsWindow();
  readonly #turns: Turn[];
  readonly #detector = new TurnDetector(this.#window);
  readonly #judge = new SteadinessJudge(this.#window, this.#detector.turnings);
  readonly #collector: CandidateCollector;
  #headingIsTrue = false;

  constructor(lengths: RowLengths, legs: CandidateLeg[], turns: Turn[]) {
    this.#turns = turns;
    this.#collector = new CandidateCollector(this.#window, lengths, legs);
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
