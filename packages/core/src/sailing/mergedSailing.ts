import type { Seconds } from "../units.ts";
import { type CandidateLeg, meanAwaOfRows } from "./candidates.ts";
import { type HeadingJump, thrownCompass } from "./headingJumps.ts";
import type { Leg, LegRow, RowKind, Tack, Turn } from "./legRow.ts";
import { kindsOfLegs, showsEngine } from "./motoring.ts";
import { withoutOverlaps } from "./overlaps.ts";
import { type Sailing, secondsInRows } from "./sailing.ts";
import type { WatchedStays } from "./staysWatch.ts";
import { sailingWithout } from "./troubleCure.ts";
import { frozenSensors } from "./troubleFrozen.ts";
import { spikesOf } from "./troubleSpikes.ts";

/** What one file, or one piece of a recording, held: plain values, to be merged with others. */
export interface SailingPart {
  readonly legs: readonly CandidateLeg[];
  readonly turns: readonly Turn[];
  /** How many seconds the recording has. */
  readonly seconds: number;
  /** Values that stayed. */
  readonly watched: WatchedStays;
  /** Jumps of the heading that no boat makes, and where the recording begins and ends, s since 1970. */
  readonly jumps: readonly HeadingJump[];
  readonly start: Seconds;
  readonly end: Seconds;
}

const tackOf = (awa: number): Tack => (awa >= 0 ? "starboard" : "port");

/**
 * The sailing of one or several recordings together: what drove the boat is told from all their legs, and legs are
 * numbered in time order. What several of them hold counts once. What sensors in trouble touched is left out (M90 to M93).
 *
 * @param all in any order
 * @returns legs, turns and rows in time order. Never throws.
 * @example
 * const part = new SailingSummary();
 * part.push(block);
 * mergedSailing([part.finish()]).legs.length > 0 // true
 */
export function mergedSailing(all: readonly SailingPart[]): Sailing {
  const parts = withoutOverlaps(all);
  const candidates = parts.flatMap(({ legs }) => legs).sort((a, b) => a.rows[0]!.start - b.rows[0]!.start);
  const turns = parts.flatMap((part) => part.turns).sort((a, b) => a.start - b.start);
  const kinds = kindsOfLegs(candidates);
  const legs: Leg[] = [];
  const rows: LegRow[] = [];
  candidates.forEach((candidate, index) => {
    const kind = kinds[index]!;
    const kept = kind === "sailing" ? candidate.rows.filter((row) => !showsEngine(row)) : candidate.rows;
    if (kind === "doubtful" || kept.length === 0) return;
    const leg = legOf(kept, kind, legs.length);
    legs.push(leg);
    rows.push(...kept.map((row) => ({ leg: leg.number, kind, tack: tackOf(row.mean.awa), ...row })));
  });
  const seconds = parts.reduce((sum, part) => sum + part.seconds, 0);
  const sailing: Sailing = {
    legs,
    turns: turnsBetween(legs, turns),
    rows,
    seconds: secondsInRows(rows, seconds),
    troubles: [],
  };
  const thrown = parts.map((part) => thrownCompass(part.jumps, part.start, part.end));
  const strays = [...rows.flatMap((row) => row.strays ?? []), ...thrown.flatMap((one) => one.strays)];
  return sailingWithout(sailing, [
    ...frozenSensors(parts.map(({ watched }) => watched)),
    ...thrown.flatMap((one) => one.troubles),
    ...spikesOf(strays),
  ]);
}

/** M37. Turns with the legs on both sides known: beside a leg under power none is a tack or a gybe, since no sail was tacked or gybed. */
function turnsBetween(legs: readonly Leg[], turns: readonly Turn[]): readonly Turn[] {
  let next = 0;
  return turns.map((turn) => {
    while (next < legs.length && legs[next]!.start < turn.end) next++;
    const underPower = [legs[next - 1], legs[next]].some((leg) => leg?.kind === "motoring");
    return underPower ? { ...turn, kind: "other" } : turn;
  });
}

function legOf(rows: CandidateLeg["rows"], kind: RowKind, number: number): Leg {
  const last = rows.at(-1)!;
  const meanAwa = meanAwaOfRows(rows);
  return {
    number,
    kind,
    tack: tackOf(meanAwa),
    start: rows[0]!.start,
    end: last.start + last.duration,
    meanAwa,
  };
}
