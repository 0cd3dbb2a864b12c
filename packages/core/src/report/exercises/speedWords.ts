import type { SolvedSpeedSensor } from "../../fit/speedFromRuns.ts";
import { TOLD_APART } from "../../fit/speedFromRuns.ts";
import type { SpeedSensorParameters } from "../../sensors/parameters.ts";
import { speedFromReading } from "../../sensors/speedSensor.ts";
import { degrees, knots, type MetresPerSecond, metresPerSecond, type Radians, radians } from "../../units.ts";
import { plain, signed } from "../format.ts";
import { suspectsInWords } from "./suspectsInWords.ts";

/** The threshold of a paddle wheel by common practice. */
const USUAL_THRESHOLD: MetresPerSecond = metresPerSecond(0.4);

/** A correction smaller than this is not worth touching a log for. */
const HARDLY_ANY: MetresPerSecond = metresPerSecond(0.05);

/** What the instrument shows where the sensor alone would show a reading. */
const shownAt = (reading: MetresPerSecond, active: SpeedSensorParameters): MetresPerSecond =>
  speedFromReading(reading, 0, active);

/** Why runs that make a log wrong by a factor are refused, in the words of a sentence. Never throws. */
export const noLogWords = ({ reading, gain }: SolvedSpeedSensor["gains"][number]): string =>
  `where the log reads ${plain(knots(reading), 1)} kn these runs make the speed ${plain(knots(gain * reading), 1)} kn, and no log is off by such a factor: look at the distance, its unit, and the times`;

/** Runs that scatter more than so many times what was stated are to be looked into before anything is keyed in. Judgement. */
const MUCH_SCATTER = 3;

/** A boat that sails close-hauled in a breeze heels by about this; what heel does is told there. */
const HEELED: Radians = radians(20);

/** What the runs have of scatter, in sentences. @param suspects places of runs of which one is probably wrong */
function scatterWords(scatter: number, suspects: readonly number[]): readonly string[] {
  if (!(scatter > 2)) return [];
  const which =
    suspects.length === 0
      ? "look for a run timed or its way noted wrongly, weed on the wheel, or a helm that hunted"
      : `${suspectsInWords("run", suspects)}: look at the times, the way and the reading first`;
  return [
    `The runs scatter ${plain(scatter, 1)} times as much as was stated: ${which}; the intervals have been widened for it.`,
  ];
}

/** What to do at a few speeds, as a table: shown, to be added, to be multiplied by. Never throws. */
export function speedTable(
  { gains }: SolvedSpeedSensor,
  active: SpeedSensorParameters,
): readonly (readonly string[])[] {
  const rows = gains.map(({ reading, gain, half }) => {
    const [shown, speed] = [shownAt(reading, active), gain * reading];
    return [
      `${plain(knots(shown), 1)} kn`,
      `${signed(knots(speed - shown), 2)} kn`,
      `± ${plain(knots(half * reading), 2)} kn`,
      plain(speed / shown, 3),
    ];
  });
  return [["log shows", "add", "95 %", "multiply by"], ...rows];
}

/** What is to be made of the runs, in sentences. @param suspects places of runs of which one is probably wrong. Never throws. */
export function speedFromRunsWords(
  found: SolvedSpeedSensor,
  active: SpeedSensorParameters,
  suspects: readonly number[] = [],
): readonly string[] {
  const { gains, intercept, interceptHalf, law, preferredBy, gainDifference, gainDifferenceHalf } = found;
  const changes = gains.map(({ reading, gain, half }) => ({
    change: gain * reading - shownAt(reading, active),
    half: half * reading,
  }));
  const isGood = changes.every(({ change, half }) => Math.abs(change) <= Math.max(half, HARDLY_ANY));
  const advice =
    found.scatter > MUCH_SCATTER
      ? "Key in nothing yet: these runs contradict each other."
      : isGood
        ? "Leave the log alone: at every speed that was run it agrees with the distance as far as these runs can tell."
        : "Correct the log as the table says: key in the factor of the speed that matters most, or one at each speed where the instrument takes several.";
  const oneSpeed =
    gains.length === 1
      ? [
          "All runs were at one speed: the gain is known there and nowhere else; intercept and gain are told apart by a second speed, 2 kn away.",
        ]
      : [];
  const threshold =
    Math.abs(intercept - USUAL_THRESHOLD) > interceptHalf
      ? [
          `The intercept, ${signed(knots(intercept), 2)} kn ± ${plain(knots(interceptHalf), 2)} kn, is not the 0.4 kn that is usual of a paddle wheel: the instrument may add it already, or the wheel is fouled or rubs.`,
        ]
      : [];
  const falling =
    law === "falling deficit"
      ? [
          `What the wheel reads too little falls with speed (the runs prefer that by ${plain(preferredBy, 1)} over a constant intercept): use the table, not one gain.`,
        ]
      : preferredBy < TOLD_APART && gains.length > 1
        ? [
            "Whether what the wheel reads too little is constant or falls with speed, these runs do not tell; within the speeds run it makes no difference.",
          ]
        : [];
  const tacks = Number.isNaN(gainDifference)
    ? []
    : [
        Math.abs(gainDifference) > gainDifferenceHalf
          ? `The gain on starboard tack is ${signed(100 * gainDifference, 1)} % ± ${plain(100 * gainDifferenceHalf, 1)} % off that on port: correct each tack by its own.`
          : `The tacks' gains agree within ± ${plain(100 * gainDifferenceHalf, 1)} %.`,
      ];
  const { heelSlope, heelSlopeHalf, heelInsists } = found;
  const at20 = (slope: number): string => `${plain(100 * slope * HEELED, 1)} %`;
  const heel = Number.isNaN(heelSlope)
    ? []
    : [
        heelInsists
          ? `The gain depends on heel: the table is for her upright; at ${plain(degrees(HEELED), 0)}° multiply by ${plain(1 + heelSlope * HEELED, 3)} ± ${plain(heelSlopeHalf * HEELED, 3)} more. Few instruments take that: key in what holds at the heel at which she mostly sails.`
          : `The gain does not depend on heel as far as these runs tell: ± ${at20(heelSlopeHalf)} at ${plain(degrees(HEELED), 0)}°.`,
      ];
  const current = `The current along the course was ${signed(knots(found.meanCurrent), 2)} kn ± ${plain(knots(found.meanCurrentHalf), 2)} kn on average, positive with the runs there.`;
  return [
    advice,
    ...scatterWords(found.scatter, suspects),
    ...tacks,
    ...heel,
    ...oneSpeed,
    ...threshold,
    ...falling,
    current,
  ];
}
