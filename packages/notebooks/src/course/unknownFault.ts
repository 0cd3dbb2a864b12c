import { randomNumbers } from "@bothtacks/core";
import { type FaultName, type Faults, NO_FAULTS, type ShownWind } from "./faults.ts";

/** How the faults are called, and from what size to what size the game draws them. */
const DRAWN: Readonly<
  Record<FaultName, { readonly words: string; readonly sizes: readonly [number, number] }>
> = {
  mastheadOffset: { words: "the vane is turned on its mast", sizes: [2, 5] },
  upwash: { words: "upwash: the vane reads too wide close-hauled", sizes: [3, 6] },
  leeway: { words: "leeway is left out", sizes: [4, 7] },
  logLow: { words: "the log reads wrong", sizes: [7, 14] },
  windHigh: { words: "the anemometer reads wrong", sizes: [8, 15] },
  compassHigh: { words: "the compass is off on every heading", sizes: [3, 7] },
  deviation: { words: "deviation: the compass is off by heading", sizes: [4, 8] },
  shear: { words: "nothing: shear, the wind turns with height", sizes: [3, 7] },
};

/** Faults that have a usual sense only. */
const ONE_WAY: readonly FaultName[] = ["upwash", "leeway"];

const NAMES: readonly FaultName[] = [
  "mastheadOffset",
  "upwash",
  "leeway",
  "logLow",
  "windHigh",
  "compassHigh",
  "deviation",
  "shear",
];

export const faultWords = (name: FaultName): string => DRAWN[name].words;

/** In the order of the page. */
export const FAULT_WORDS: readonly string[] = NAMES.map(faultWords);

/** A boat with one fault. */
export interface UnknownBoat {
  readonly name: FaultName;
  readonly faults: Faults;
}

/**
 * The boat of that number: the same on every machine.
 *
 * @throws RangeError where the number is not whole or negative
 */
export function boatOfNumber(number: number): UnknownBoat {
  const random = randomNumbers(number, 0);
  const name = NAMES[Math.floor(random.between(0, NAMES.length))] ?? "logLow";
  const size = random.between(...DRAWN[name].sizes);
  const sense = ONE_WAY.includes(name) || random.chance(0.5) ? 1 : -1;
  return { name, faults: { ...NO_FAULTS, [name]: sense * size } };
}

/** Scatter of a mean over some minutes: °, kn. */
const SCATTER = { turned: 0.35, stronger: 0.12 } as const;

/** The same with the scatter of a steady afternoon, drawn by number. Never throws for a number that has a boat. */
export function scattered(shown: readonly ShownWind[], number: number): readonly ShownWind[] {
  const random = randomNumbers(number, 1);
  return shown.map((one) => ({
    ...one,
    turned: one.turned + SCATTER.turned * random.normal(),
    stronger: one.stronger + SCATTER.stronger * random.normal(),
  }));
}
