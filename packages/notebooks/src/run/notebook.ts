import type { CellWords } from "../contract.ts";

/** The values of names, by name. */
export type Names = Readonly<Record<string, unknown>>;

/** A cell that can be run. */
export interface RunnableCell {
  /** Line in the Markdown, from 1. */
  readonly line: number;
  readonly declares: readonly string[];
  /** Names that cells above declare. */
  readonly needs: readonly string[];
  /** The declared names that are answers to inputs, in the order in which they are asked. */
  readonly asks: readonly string[];
  /** @returns the values of what it declares */
  readonly run: (names: Names, words: CellWords) => Promise<Names>;
}

/** What a notebook's Markdown becomes: a module with this as its default export. */
export interface Notebook {
  readonly title: string;
  /** From top to bottom: a cell needs only what those before it declare. */
  readonly cells: readonly RunnableCell[];
}
