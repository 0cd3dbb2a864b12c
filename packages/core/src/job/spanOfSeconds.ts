import type { Gap } from "../report/check.ts";
import type { SecondsBlock } from "../sailing/series.ts";
import type { Seconds } from "../units.ts";

/** Silences shorter than this are a logger's hiccup. */
const SHORTEST_GAP: Seconds = 30;

/** Span, gaps and north of one log: plain values. */
export interface Span {
  /** First and last second with a value, s since 1970 UTC; NaN without any. */
  readonly start: Seconds;
  readonly end: Seconds;
  readonly gaps: readonly Gap[];
  readonly knowsNorth: boolean;
}

/** Gathers span, gaps and north from the seconds of one log as they come. Never throws. */
export class SpanOfSeconds {
  #start = Number.NaN;
  #end = Number.NaN;
  readonly #gaps: Gap[] = [];
  #knowsNorth = false;

  push({ time, columns, headingIsTrue, length }: SecondsBlock): void {
    for (let index = 0; index < length; index++) {
      const second = time[index]!;
      if (!(this.#start <= second)) this.#start = second;
      if (second - this.#end > SHORTEST_GAP)
        this.#gaps.push({ start: this.#end, seconds: second - this.#end });
      this.#end = second;
      this.#knowsNorth ||= headingIsTrue || !Number.isNaN(columns.variation[index]!);
    }
  }

  get span(): Span {
    return { start: this.#start, end: this.#end, gaps: this.#gaps, knowsNorth: this.#knowsNorth };
  }
}

/** The first or last of times, of which some may be NaN. */
const outermost = (sign: 1 | -1, times: readonly Seconds[]): Seconds =>
  times
    .filter((time) => !Number.isNaN(time))
    .reduce((best, time) => (sign * time >= sign * best ? best : time), Number.NaN);

/** The span of some logs together: from the first second to the last, with the gaps of each. Never throws. */
export const spanOfAll = (spans: readonly Span[]): Span => ({
  start: outermost(
    1,
    spans.map(({ start }) => start),
  ),
  end: outermost(
    -1,
    spans.map(({ end }) => end),
  ),
  gaps: spans.flatMap(({ gaps }) => gaps),
  knowsNorth: spans.some(({ knowsNorth }) => knowsNorth),
});
