import type { CommandShape, Given } from "./arguments.ts";

/** What a command has around it: two streams of text, a place for progress where someone looks on, a signal to stop. */
export interface Surroundings {
  readonly print: (text: string) => void;
  readonly complain: (text: string) => void;
  readonly progress: ((text: string) => void) | undefined;
  readonly signal: AbortSignal;
  /** Where what is found in logs is kept for the next time; undefined: nowhere. */
  readonly cacheFolder?: string;
}

/** A command: how it is called, and what it does; its exit status where that is not 0. It throws where it cannot; see `failures.ts`. */
export interface Command {
  readonly shape: CommandShape;
  readonly execute: (given: Given, surroundings: Surroundings) => Promise<number | undefined>;
}
