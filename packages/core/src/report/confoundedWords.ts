import type { ConfoundedGroup } from "../judge/confounded.ts";
import { capital, listed } from "./format.ts";
import { parameterInterval, weighted } from "./parameterAmounts.ts";
import { PARAMETER_WORDS } from "./parameterWords.ts";

/** What a group of moves comes to that could hardly be told apart, likewise. Never throws. */
export const confoundedMovesSentence = (group: ConfoundedGroup): string => sentenceOf(group, "moves of ");

/**
 * What a group of parameters that move together comes to, in a sentence: which they are, how little is known of each alone, and
 * which sum of them is known. Never throws.
 */
export const confoundedSentence = (group: ConfoundedGroup): string => sentenceOf(group, "");

function sentenceOf({ members, sdOfSum }: ConfoundedGroup, of: string): string {
  const names = listed(members.map(({ name }) => PARAMETER_WORDS[name]));
  const alone = listed(members.map(({ name, sd }) => parameterInterval(name, sd)));
  const [first, ...others] = members;
  if (first === undefined) return "";
  const sum = others
    .map(
      ({ name, weight }) => `${weight < 0 ? "less" : "plus"} ${weighted(name, Math.abs(weight), first.name)}`,
    )
    .join(" ");
  return `${capital(`${of}${names}`)} could hardly be told apart: alone they are known to ${alone}, but ${PARAMETER_WORDS[first.name]} ${sum} to ${parameterInterval(first.name, sdOfSum)}.`;
}
