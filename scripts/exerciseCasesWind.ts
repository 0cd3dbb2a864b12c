import { anemometerAgainstReference } from "../packages/core/src/fit/anemometerAgainstReference.ts";
import { anemometerInCalm } from "../packages/core/src/fit/anemometerInCalm.ts";
import { stationDoubt } from "../packages/core/src/fit/stationDoubt.ts";
import { about, type ExerciseCase, type Held, holds, normal, wandering } from "./exerciseDraws.ts";

/** Cups as they are drawn. */
const cups = () => ({ threshold: 0.4 + 0.2 * normal(), gain: 1 + 0.06 * normal() });

interface Found {
  readonly threshold: number;
  readonly thresholdHalf: number;
  readonly gain: number;
  readonly gainHalf: number;
  readonly atMean: { readonly reading: number; readonly gain: number; readonly half: number };
}

const cupsHeld = (found: Found, { threshold, gain }: ReturnType<typeof cups>): Held => ({
  "ratio at the mean": holds(found.atMean.gain, gain + threshold / found.atMean.reading, found.atMean.half),
  gain: holds(found.gain, gain, found.gainHalf),
  threshold: holds(found.threshold, threshold, found.thresholdHalf),
});

/**
 * A boat and a station in one wind, each with errors of its own that forget.
 *
 * @param reference what the station shows of a wind
 */
function compared(
  length: number,
  constant: number,
  referenceGain: number,
  reference: (wind: number) => number,
): Held {
  const truth = cups();
  const [one, other] = [wandering(length, constant), wandering(length, constant)];
  const pairs = one.map((error, at) => {
    const wind = 7 + 4 * Math.sin((7 * at) / length);
    return {
      reading: Math.max(0.05, (wind + 0.25 * error - truth.threshold) / truth.gain),
      reference: Math.max(0, reference(wind + 0.25 * truth.gain * other[at]!)),
    };
  });
  const found = anemometerAgainstReference(pairs, { errorRatio: 1, referenceGain });
  return found.status === "unsolved" ? undefined : cupsHeld(found, truth);
}

/** A station some way off and lower than the masthead: its own gain, the profile and the place drawn as they are doubted. */
function station(miles: number): Held {
  const { own, profile, place, all } = stationDoubt({ height: 10, distance: 1852 * miles, own: 0.03 }, 16);
  const factor = (1 + own * normal()) * (1 + profile * normal()) * (1 + place * normal());
  return compared(144, 2, all, (wind) => wind * factor);
}

function calmHeld(): Held {
  const truth = cups();
  const [wind, scatter] = [0.5 * normal(), about(0.1)];
  const motored = [2, 2, 3, 3, 3.6, 3.6].map((speed, at) => {
    const way = at % 2 === 0 ? (1 as const) : (-1 as const);
    return { speed, way, reading: (speed + way * wind - truth.threshold + scatter * normal()) / truth.gain };
  });
  if (motored.some(({ reading }) => reading < 0)) return undefined;
  const found = anemometerInCalm(motored, { deviation: 0.1, speedGain: 0 });
  return found.status === "unsolved" ? undefined : cupsHeld(found, truth);
}

const against = (length: number, constant: number): ExerciseCase => ({
  name: `anemometer beside another: ${length} means that forget in ${constant}`,
  draw: () => compared(length, constant, 0, (wind) => wind),
});

/** Exercises of the anemometer, drawn from what each method takes for granted. */
export const WIND_CASES: readonly ExerciseCase[] = [
  against(64, 1),
  against(64, 2),
  against(64, 5),
  against(200, 5),
  { name: "anemometer against a station at half a mile, a day", draw: () => station(0.5) },
  { name: "anemometer against a station at 4 miles, a day", draw: () => station(4) },
  { name: "anemometer in a calm, typed, three speeds", draw: calmHeld },
];
