import type { SolvedBoatFit } from "../../packages/core/src/fit/boatFit.ts";
import { type Comparison, compareFits } from "../../packages/core/src/judge/compare.ts";
import type { ParameterName } from "../../packages/core/src/sensors/parameterNames.ts";
import { anotherDay, drawScenario } from "../../packages/core/src/simulate/drawScenario.ts";
import type { BoatFaults } from "../../packages/core/src/simulate/faults.ts";
import type { Scenario } from "../../packages/core/src/simulate/scenario.ts";
import type { Seconds } from "../../packages/core/src/units.ts";
import { fitOf, requireSolved, seenSail } from "./scoredSails.ts";

const fitted = (scenario: Scenario): SolvedBoatFit => requireSolved(fitOf(seenSail(scenario)));

/** Faults with one of them moved by so much of the parameter that undoes it. */
const MOVERS: Partial<Readonly<Record<ParameterName, (faults: BoatFaults, by: number) => BoatFaults>>> = {
  "vane.mastheadOffset": (faults, by) => ({
    ...faults,
    vane: { ...faults.vane, mastheadOffset: faults.vane.mastheadOffset + by },
  }),
  "speed.gain": ({ speed, ...faults }, by) => ({
    ...faults,
    speed: {
      ...speed,
      gainStarboard: speed.gainStarboard * Math.exp(by),
      gainPort: speed.gainPort * Math.exp(by),
    },
  }),
  "compass.a": (faults, by) => ({ ...faults, compass: { ...faults.compass, a: faults.compass.a + by } }),
  "heel.zero": (faults, by) => ({ ...faults, heel: { ...faults.heel, zero: faults.heel.zero + by } }),
  "anemometer.gain": (faults, by) => ({
    ...faults,
    anemometer: { ...faults.anemometer, gain: faults.anemometer.gain * Math.exp(by) },
  }),
};

export const MOVABLE = Object.keys(MOVERS) as readonly (keyof typeof MOVERS & ParameterName)[];

/** A boat on two days, in two winds and on two courses: as she was, and with one sensor moved on the second. */
export interface TwoDays {
  readonly seed: number;
  readonly unmoved: Comparison;
  readonly moves: ParameterName;
  readonly by: number;
  readonly moved: Comparison;
}

const secondDay = (first: Scenario, seconds: Seconds): Scenario =>
  anotherDay(first, first.seed + 3_000_000, { seconds, motoring: first.seed % 2 === 0 });

/** The same with one sensor moved between the days by twice the smallest move that would have shown in 80 of 100 cases. */
export function twoDays(seed: number, seconds: Seconds = 9000): TwoDays {
  const first = drawScenario(seed, { seconds });
  const second = secondDay(first, seconds);
  const before = fitted(first);
  const unmoved = compareFits(before, fitted(second));
  const moves = MOVABLE[seed % MOVABLE.length]!;
  const smallest = unmoved.smallest.find(({ name }) => name === moves)?.move ?? Number.NaN;
  const by = 2 * smallest * (seed % 4 < 2 ? 1 : -1);
  const faults = MOVERS[moves]!(second.faults, by);
  return { seed, unmoved, moves, by, moved: compareFits(before, fitted({ ...second, faults })) };
}
