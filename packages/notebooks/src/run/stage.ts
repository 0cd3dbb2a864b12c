import type { Input, Shown } from "../contract.ts";

/** How a run of a cell ended. */
export type Outcome =
  | { readonly status: "done" }
  | { readonly status: "failed"; readonly error: unknown }
  /** A cell that this one needs has failed, or is held itself. */
  | { readonly status: "held"; readonly line: number };

/** Where the cells of a running notebook show what they have; cells are named by their number, from 0. */
export interface Stage {
  /** A run begins; what an earlier one showed is out of date. */
  readonly begin: (cell: number) => void;
  readonly show: (cell: number, shown: readonly Shown[]) => void;
  readonly ask: (cell: number, name: string, input: Input<unknown>, value: unknown) => void;
  readonly end: (cell: number, outcome: Outcome) => void;
}
