import type { SolvedChannel } from "../../fit/linearCalibration.ts";
import { plain, signed } from "../format.ts";

/** What known points tell of a channel, in sentences. @param unit as it is to be written. Never throws. */
export function channelWords(
  { offset, offsetHalf, gain, gainHalf, middle, spare, scatter }: SolvedChannel,
  name: string,
  unit: string,
  decimals: number,
): readonly string[] {
  const change = middle.truth - middle.reading;
  const at = `${plain(middle.reading, decimals)}${unit}`;
  const isRight = Math.abs(change) <= middle.half && Math.abs(gain - 1) <= gainHalf;
  const verdict = isRight
    ? `Leave the ${name} alone: at ${at} it is right within ± ${plain(middle.half, decimals)}${unit}.`
    : `At ${at} add ${signed(change, decimals)}${unit} ± ${plain(middle.half, decimals)}${unit} to the ${name}.`;
  const line = `In all: truth = ${signed(offset, decimals)}${unit} + ${plain(gain, 4)} · reading (offset ± ${plain(offsetHalf, decimals)}${unit}, gain ± ${plain(gainHalf, 4)}).`;
  const checked =
    spare > 0 && scatter > 2
      ? [`The points scatter ${plain(scatter, 1)} times as much as was stated: look for one noted wrongly.`]
      : [];
  return [verdict, line, ...checked];
}
