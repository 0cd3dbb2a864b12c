import type { Input, Shown } from "../contract.ts";
import type { Names, Notebook } from "./notebook.ts";
import { Session } from "./session.ts";
import type { Outcome, Stage } from "./stage.ts";

/** What a cell has put on the page in its last run. */
export interface CellRecord {
  /** Line in the Markdown, from 1. */
  readonly line: number;
  readonly shown: readonly Shown[];
  readonly inputs: Readonly<Record<string, Input<unknown>>>;
  readonly outcome: Outcome | undefined;
}

/** A notebook that runs without a page. */
export interface HeadlessRun {
  /** The values of all names whose cells have run well. */
  readonly names: () => Names;
  readonly cells: () => readonly CellRecord[];
  /** Answers an input, and waits until everything that depends on it has run. */
  readonly answer: (name: string, value: unknown) => Promise<void>;
}

/** Keeps what is shown instead of drawing it. */
class Recorder implements Stage {
  readonly records: CellRecord[];

  constructor({ cells }: Notebook) {
    this.records = cells.map(({ line }) => ({ line, shown: [], inputs: {}, outcome: undefined }));
  }

  readonly begin = (cell: number): void => this.change(cell, { shown: [], inputs: {}, outcome: undefined });

  readonly show = (cell: number, shown: readonly Shown[]): void =>
    this.change(cell, { shown: [...this.records[cell]!.shown, ...shown] });

  readonly ask = (cell: number, name: string, input: Input<unknown>): void =>
    this.change(cell, { inputs: { ...this.records[cell]!.inputs, [name]: input } });

  readonly end = (cell: number, outcome: Outcome): void => this.change(cell, { outcome });

  private change(cell: number, to: Partial<CellRecord>): void {
    this.records[cell] = { ...this.records[cell]!, ...to };
  }
}

/**
 * Runs a notebook's cells without a page, in Node or anywhere, and waits until they have run.
 *
 * @param given answers to inputs by name; the others have their initial values
 * @returns the run. Never rejects: what went wrong is in the cells' outcomes.
 */
export async function runNotebook(notebook: Notebook, given: Names = {}): Promise<HeadlessRun> {
  const recorder = new Recorder(notebook);
  const session = new Session(notebook, recorder, given);
  session.start();
  await session.settled();
  return {
    names: () => session.names(),
    cells: () => recorder.records,
    answer: async (name, value) => {
      session.answer(name, value);
      await session.settled();
    },
  };
}
