import type { Leg, LegRow, Turn } from "../sailing/legRow.ts";
import type { Sailing } from "../sailing/sailing.ts";

/** What of a sailing an answer is not to rest on. */
export interface LeaveOut {
  /** Legs by number of the leg (`Leg.number`), from 0. */
  readonly legs?: readonly number[];
  /** Places in the sailing's turns: the wind before such a turn is not compared with the wind after it. */
  readonly turns?: readonly number[];
}

/** What an answer rests on, and what was left out. */
export interface SailingKept {
  readonly kept: Sailing;
  readonly leftOut: { readonly legs: readonly Leg[]; readonly turns: readonly Turn[] };
}

function requireThere(what: "legs" | "turns", asked: readonly number[], there: number): void {
  const missing = asked.find((one) => !(Number.isInteger(one) && one >= 0 && one < there));
  if (missing !== undefined)
    throw new RangeError(`sailingKept: ${what} must be among the ${there} of the sailing, got ${missing}`);
}

/** Counts, for each row, the turns that are left out before it. */
function withTurnsLeftOut(rows: readonly LegRow[], turns: readonly Turn[]): readonly LegRow[] {
  if (turns.length === 0) return rows;
  return rows.map((row) => {
    const middle = row.start + row.duration / 2;
    return { ...row, turnsLeftOut: turns.filter(({ start, end }) => (start + end) / 2 < middle).length };
  });
}

/** Seconds of rows that are left out count as other time. */
function secondsKept({ seconds }: Sailing, rows: readonly LegRow[]): Sailing["seconds"] {
  const of = (kind: LegRow["kind"]): number =>
    rows.reduce((sum, row) => sum + (row.kind === kind ? row.count : 0), 0);
  const [sailing, motoring] = [of("sailing"), of("motoring")];
  return {
    sailing,
    motoring,
    other: seconds.sailing + seconds.motoring + seconds.other - sailing - motoring,
  };
}

/**
 * M61. A sailing without some of its legs and turns. A leg left out is as if it had not been sailed. A turn left out stays
 * sailed, but compares nothing: the wind before it is forgotten, as if the rest were another day, so that a shift of the wind in
 * that turn, or a turn gone wrong, cannot pass for an error of the sensors; each of its legs is still compared at its other end.
 *
 * @throws RangeError for a leg or turn that the sailing does not have
 */
export function sailingKept(sailing: Sailing, { legs = [], turns = [] }: LeaveOut = {}): SailingKept {
  requireThere("legs", legs, sailing.legs.length);
  requireThere("turns", turns, sailing.turns.length);
  const isLegKept = (number: number): boolean => !legs.includes(number);
  const isTurnKept = (_: Turn, place: number): boolean => !turns.includes(place);
  const leftOut = {
    legs: sailing.legs.filter(({ number }) => !isLegKept(number)),
    turns: sailing.turns.filter((turn, place) => !isTurnKept(turn, place)),
  };
  const rows = withTurnsLeftOut(
    sailing.rows.filter(({ leg }) => isLegKept(leg)),
    leftOut.turns,
  );
  const kept: Sailing = {
    legs: sailing.legs.filter(({ number }) => isLegKept(number)),
    turns: sailing.turns.filter(isTurnKept),
    rows,
    seconds: secondsKept(sailing, rows),
    troubles: sailing.troubles,
  };
  return { kept, leftOut };
}
