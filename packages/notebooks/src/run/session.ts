import type { CellWords, Input } from "../contract.ts";
import { freezePlain } from "./frozen.ts";
import type { Names, Notebook, RunnableCell } from "./notebook.ts";
import type { Outcome, Stage } from "./stage.ts";

type Status = "stale" | "running" | Outcome["status"];

/** A cell with where it stands. */
interface State {
  readonly cell: RunnableCell;
  readonly index: number;
  /** The cells that declare what it needs. */
  readonly above: readonly State[];
  status: Status;
  /** Ends the run that goes on. */
  controller: AbortController;
  /** The line of the failed cell that holds this one. */
  heldBy: number;
}

function statesOf({ cells }: Notebook): readonly State[] {
  const owner = new Map<string, State>();
  return cells.map((cell, index) => {
    const above = [...new Set(cell.needs.flatMap((name) => owner.get(name) ?? []))];
    const controller = new AbortController();
    const state: State = { cell, index, above, status: "stale", controller, heldBy: 0 };
    for (const name of cell.declares) owner.set(name, state);
    return state;
  });
}

/**
 * A notebook that runs: each cell when all that it needs is there, from top to bottom; again when an answer changes that it
 * depends on. A cell that fails holds those which need it until a run of it succeeds.
 */
export class Session {
  private readonly states: readonly State[];
  private readonly values = new Map<string, unknown>();
  /** Answers that the reader has changed since their cell ran. */
  private readonly changed = new Map<string, unknown>();
  /** The reader's last answers, which stand when their cell runs again and its input accepts them. */
  private readonly answers = new Map<string, unknown>();
  private waiting: (() => void)[] = [];

  /** @param given answers by name, which stand for the inputs' initial values */
  constructor(
    notebook: Notebook,
    private readonly stage: Stage,
    private readonly given: Names = {},
  ) {
    this.states = statesOf(notebook);
  }

  /** Runs all cells. Never throws: a cell's error goes to the stage. */
  start(): void {
    this.runStale();
  }

  /**
   * Takes a new answer to an input; the cells that depend on it run again.
   *
   * @throws RangeError where no cell asks for the name
   */
  answer(name: string, value: unknown): void {
    const asking = this.states.find(({ cell }) => cell.asks.includes(name));
    if (!asking) throw new RangeError(`answer: no input of this notebook is called "${name}"`);
    freezePlain(value);
    this.changed.set(name, value);
    this.answers.set(name, value);
    if (asking.status !== "done") return;
    this.values.set(name, value);
    const stale = new Set(this.states.filter(({ cell }) => cell.needs.includes(name)));
    for (const state of this.states) if (state.above.some((one) => stale.has(one))) stale.add(state);
    for (const state of stale) makeStale(state);
    this.runStale();
  }

  /** The values of all names whose cells have run well. */
  names(): Names {
    const done = this.states.filter(({ status }) => status === "done");
    return Object.fromEntries(
      done.flatMap(({ cell }) => cell.declares.map((name) => [name, this.values.get(name)])),
    );
  }

  /** Resolves when no cell runs or can run. Never rejects. */
  settled(): Promise<void> {
    if (!this.isRunning()) return Promise.resolve();
    return new Promise((resolve) => void this.waiting.push(resolve));
  }

  private isRunning(): boolean {
    return this.states.some(({ status }) => status === "running");
  }

  private runStale(): void {
    for (const state of this.states) {
      if (state.status !== "stale") continue;
      const cause = state.above.find(({ status }) => status === "failed" || status === "held");
      if (cause) this.hold(state, cause);
      else if (state.above.every(({ status }) => status === "done")) void this.run(state);
    }
    if (this.isRunning()) return;
    const waiting = this.waiting;
    this.waiting = [];
    for (const resolve of waiting) resolve();
  }

  private hold(state: State, cause: State): void {
    state.heldBy = cause.status === "failed" ? cause.cell.line : cause.heldBy;
    this.end(state, { status: "held", line: state.heldBy });
  }

  private end(state: State, outcome: Outcome): void {
    state.status = outcome.status;
    this.stage.end(state.index, outcome);
  }

  private async run(state: State): Promise<void> {
    const { cell, index, controller } = state;
    state.status = "running";
    for (const name of cell.asks) this.changed.delete(name);
    this.stage.begin(index);
    try {
      const needed = Object.fromEntries(cell.needs.map((name) => [name, this.values.get(name)]));
      const values = await cell.run(needed, this.words(state));
      if (controller.signal.aborted) return;
      this.keep(values);
      this.end(state, { status: "done" });
    } catch (error) {
      if (controller.signal.aborted) return;
      this.end(state, { status: "failed", error });
    }
    this.runStale();
  }

  private keep(values: Names): void {
    for (const [name, value] of Object.entries(values)) {
      freezePlain(value);
      this.values.set(name, this.changed.has(name) ? this.changed.get(name) : value);
    }
  }

  /** What the words mean in one run: when it is out of date they do nothing. */
  private words({ cell, index, controller: { signal } }: State): CellWords {
    const asks = [...cell.asks];
    return {
      signal,
      show: (...shown) => {
        if (!signal.aborted) this.stage.show(index, shown);
      },
      ask: <Value>(input: Input<Value>): Value => {
        const name = asks.shift();
        if (name === undefined) throw new Error("ask: it stands alone to the right of: const name =");
        // what is given by name comes from the caller of the run, who vouches for its kind; an answer came from this very input
        const answered = this.answers.get(name) as Value;
        const stands = this.answers.has(name) && input.accepts?.(answered) === true;
        const asked = stands ? answered : input.initial;
        if (!signal.aborted) this.stage.ask(index, name, input, asked);
        return name in this.given && !stands ? (this.given[name] as Value) : asked;
      },
    };
  }
}

function makeStale(state: State): void {
  state.controller.abort();
  state.controller = new AbortController();
  state.status = "stale";
}
