import type { SolvedChannel } from "../../fit/linearCalibration.ts";
import { plain, signed } from "../format.ts";
import { suspectsInWords } from "./suspectsInWords.ts";

/** How a channel's numbers are written. */
export interface ChannelWriting {
  readonly name: string;
  /** The truth's unit, as it is to follow a number. */
  readonly unit: string;
  readonly decimals: number;
  /** The places of points of which one is probably wrong. */
  readonly suspects: readonly number[];
}

/** Points that scatter more than so many times what was stated are said to; above the second nothing is to be keyed in. Judgement. */
const SCATTERED = 2;
const MUCH_SCATTERED = 3;

/** A channel whose gain is nearer to 1 than this shows the truth's own unit; any other has another. Judgement. */
const SAME_UNIT = 0.3;

/** What points have of scatter, in sentences. Never throws. */
export function pointScatterWords(
  { scatter, spare }: Pick<SolvedChannel, "scatter" | "spare">,
  suspects: readonly number[],
): readonly string[] {
  if (!(spare > 0 && scatter > SCATTERED)) return [];
  const which =
    suspects.length === 0
      ? "look for one noted wrongly, or for friction"
      : `${suspectsInWords("point", suspects)}, so look at that first`;
  return [
    ...(scatter > MUCH_SCATTERED ? ["Key in nothing yet: the points contradict each other."] : []),
    `The points scatter ${plain(scatter, 1)} times as much as was stated: ${which}.`,
  ];
}

/** "−0.41 kN + 0.9799 · reading". */
const lineText = (offset: string, gain: number): string =>
  `${offset} ${gain < 0 ? "−" : "+"} ${plain(Math.abs(gain), 4)} · reading`;

/** What known points tell of a channel whose gain they tell, in sentences. Never throws. */
export function channelWords(found: SolvedChannel, writing: ChannelWriting): readonly string[] {
  const { offset, offsetHalf, gain, gainHalf, middle } = found;
  const { name, unit, decimals, suspects } = writing;
  const amount = (value: number): string => `${plain(value, decimals)}${unit}`;
  const line = `Truth = ${lineText(`${signed(offset, decimals)}${unit}`, gain)} (offset ± ${amount(offsetHalf)}, gain ± ${plain(gainHalf, 4)}).`;
  const halfway = `Where the ${name} reads ${plain(middle.reading, decimals)}, the truth is ${amount(middle.truth)} ± ${amount(middle.half)}`;
  const scatter = pointScatterWords(found, suspects);
  if (Math.abs(gain - 1) > SAME_UNIT) return [...scatter, line, `${halfway}.`];
  const isRight = Math.abs(middle.truth - middle.reading) <= middle.half && Math.abs(gain - 1) <= gainHalf;
  return isRight
    ? [
        ...scatter,
        `Leave the ${name} alone: at ${amount(middle.reading)} it is right within ± ${amount(middle.half)}.`,
        line,
      ]
    : [...scatter, line, `${halfway}: add ${signed(middle.truth - middle.reading, decimals)}${unit} there.`];
}

/** What known points tell of a channel whose gain is known beforehand, so that only an amount is to be added. Never throws. */
export function offsetWords(
  found: SolvedChannel,
  { name, unit, decimals, suspects }: ChannelWriting,
): readonly string[] {
  const { middle } = found;
  const change = middle.truth - middle.reading;
  const at = `${plain(middle.reading, decimals)}${unit}`;
  const half = `± ${plain(middle.half, decimals)}${unit}`;
  return [
    ...pointScatterWords(found, suspects),
    Math.abs(change) <= middle.half
      ? `Leave the ${name} alone: at ${at} it is right within ${half}.`
      : `Add ${signed(change, decimals)}${unit} ${half} to the ${name}; found at ${at}.`,
  ];
}
