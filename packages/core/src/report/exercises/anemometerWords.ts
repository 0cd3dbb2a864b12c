import { cupSpeedFromReading } from "../../sensors/anemometer.ts";
import type { AnemometerParameters } from "../../sensors/parameters.ts";
import { knots, type MetresPerSecond } from "../../units.ts";
import { plain, signed } from "../format.ts";

/** What was found of an anemometer, by whichever exercise. */
export interface FoundAnemometer {
  readonly threshold: MetresPerSecond;
  readonly thresholdHalf: MetresPerSecond;
  readonly gain: number;
  readonly gainHalf: number;
  readonly atMean: { readonly reading: MetresPerSecond; readonly gain: number; readonly half: number };
}

/** The threshold of cups by common practice. */
const USUAL_THRESHOLD: MetresPerSecond = 0.5;

/** "at 10.1 kn the truth is 1.06 ± 0.02 of the reading". Never throws. */
export const ratioSentence = ({ reading, gain, half }: FoundAnemometer["atMean"]): string =>
  `at ${plain(knots(reading), 1)} kn the truth is ${plain(gain, 3)} ± ${plain(half, 3)} times the reading, and for other speeds nothing is told`;

/** What to do at a few speeds: as much again and half of the mean. Never throws. */
export function anemometerTable(
  {
    threshold,
    gain,
    atMean,
    gainAt,
  }: FoundAnemometer & {
    readonly gainAt: (reading: MetresPerSecond) => FoundAnemometer["atMean"];
  },
  active: AnemometerParameters,
): readonly (readonly string[])[] {
  const rows = [0.5, 1, 1.5].map((share) => {
    const reading = share * atMean.reading;
    const shown = cupSpeedFromReading(reading, active);
    const truth = threshold + gain * reading;
    return [
      `${plain(knots(shown), 1)} kn`,
      `${signed(knots(truth - shown), 2)} kn`,
      `± ${plain(knots(gainAt(reading).half * reading), 2)} kn`,
      plain(truth / shown, 3),
    ];
  });
  return [["shown", "add", "95 %", "multiply by"], ...rows];
}

/** What is to be made of it, in sentences. Never throws. */
export function anemometerWords(found: FoundAnemometer, active: AnemometerParameters): readonly string[] {
  const { threshold, thresholdHalf, gain, gainHalf, atMean } = found;
  const shown = cupSpeedFromReading(atMean.reading, active);
  const change = atMean.gain * atMean.reading - shown;
  const half = atMean.half * atMean.reading;
  const isGood =
    Math.abs(change) <= half &&
    Math.abs(gain - active.gain) <= gainHalf &&
    Math.abs(threshold - active.threshold) <= thresholdHalf;
  const advice = isGood
    ? "Leave the anemometer as it is: what was found lies within its own doubt."
    : `At ${plain(knots(shown), 1)} kn add ${signed(knots(change), 2)} kn ± ${plain(knots(half), 2)} kn to the wind speed; for other speeds see the table.`;
  const law = `Threshold ${signed(knots(threshold), 2)} kn ± ${plain(knots(thresholdHalf), 2)} kn, gain ${plain(gain, 3)} ± ${plain(gainHalf, 3)}.`;
  const unusual =
    Math.abs(threshold - USUAL_THRESHOLD) > thresholdHalf
      ? [
          `The threshold is not the ${plain(knots(USUAL_THRESHOLD), 1)} kn that is usual of cups: the instrument may add it already, or a bearing rubs.`,
        ]
      : [];
  return [advice, law, ...unusual];
}
