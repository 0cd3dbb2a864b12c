import type { Leg, LegRow, RowKind, Turn } from "./legRow.ts";
import type { Trouble } from "./trouble.ts";

/** The sailing of a recording, or of several. */
export interface Sailing {
  readonly legs: readonly Leg[];
  readonly turns: readonly Turn[];
  readonly rows: readonly LegRow[];
  /** Seconds in rows under sail, in rows under power, and all the others. */
  readonly seconds: {
    /** s. */
    readonly sailing: number;
    /** s. */
    readonly motoring: number;
    /** s. */
    readonly other: number;
  };
  /** Troubles of sensors in the order of time; what they touched is in no row any more. */
  readonly troubles: readonly Trouble[];
}

/** How many seconds are in rows under sail, in rows under power, and in none. Never throws. */
export function secondsInRows(rows: readonly LegRow[], all: number): Sailing["seconds"] {
  const of = (kind: RowKind): number =>
    rows.reduce((sum, row) => sum + (row.kind === kind ? row.count : 0), 0);
  const [sailing, motoring] = [of("sailing"), of("motoring")];
  return { sailing, motoring, other: all - sailing - motoring };
}
