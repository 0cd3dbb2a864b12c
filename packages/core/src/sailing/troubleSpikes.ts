import type { Seconds } from "../units.ts";
import type { StraySecond } from "./straySeconds.ts";
import { type Trouble, WATCHED, type WatchedChannel } from "./trouble.ts";

/** Stray seconds this close together are told as one trouble. */
const TOGETHER: Seconds = 900;

function spellsOf(channel: WatchedChannel, seconds: readonly number[]): readonly Trouble[] {
  const starts = seconds.flatMap((second, place) =>
    place === 0 || second - seconds[place - 1]! > TOGETHER ? [place] : [],
  );
  return starts.map((from, index) => {
    const spell = seconds.slice(from, starts[index + 1] ?? seconds.length);
    return {
      kind: "spikes",
      channel,
      start: spell[0]!,
      end: spell.at(-1)! + 1,
      size: spell.length,
      remedy: "seconds left out",
    };
  });
}

/** M92. Seconds that rows left out since they stand off, in spells. Never throws. */
export const spikesOf = (strays: readonly StraySecond[]): readonly Trouble[] =>
  WATCHED.flatMap((channel) =>
    spellsOf(
      channel,
      strays
        .filter((stray) => stray.channel === channel)
        .map(({ second }) => second)
        .sort((a, b) => a - b),
    ),
  );
