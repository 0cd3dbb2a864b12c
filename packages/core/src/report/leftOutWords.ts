import type { Leg, Turn } from "../sailing/legRow.ts";
import type { WordlessAnswer } from "./answer.ts";
import { counted, listed, timeOfDay, timesOf } from "./format.ts";

type Told = ReturnType<typeof timesOf>;

/** A leg as the page and the words call it: they count from 1. Never throws. */
const legName = ({ number, start, end, tack, kind }: Leg, told: Told): string =>
  `leg ${number + 1} (${told(start)} to ${timeOfDay(end)}, ${kind === "motoring" ? "under power" : `${tack} tack`})`;

/** A turn as the page and the words call it. Never throws. */
const turnName = ({ kind, start }: Turn, told: Told): string =>
  `the ${kind === "other" ? "turn" : kind} at ${told(start)}`;

const IN_A_LIST = 12;

/** Names in a list; so many that nobody would read them are counted. */
const named = (names: readonly string[], one: string): string =>
  names.length > IN_A_LIST ? counted(names.length, one) : listed(names);

/** What was left out at the navigator's wish, in sentences; none where nothing was. Never throws. */
export function leftOutWords({ leftOut, recording }: WordlessAnswer): readonly string[] {
  if (leftOut === undefined) return [];
  const told = timesOf(recording);
  const { legs, turns } = leftOut;
  return [
    ...(legs.length > 0
      ? [
          `Left out at your wish: ${named(
            legs.map((leg) => legName(leg, told)),
            "leg",
          )}.`,
        ]
      : []),
    ...(turns.length > 0
      ? [
          `Left out at your wish: ${named(
            turns.map((turn) => turnName(turn, told)),
            "turn",
          )}; the wind before is not compared with the wind after.`,
        ]
      : []),
  ];
}
